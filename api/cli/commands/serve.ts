import type { Command } from '../command.ts'

export const serve: Command = {
  name: 'serve',
  summary: 'start the server: GraphQL, tables and the start page',
  about:
    'Listens on this machine alone unless --host says otherwise, and then only with tokens. Use a proxy with TLS in front: a token in clear text is no secret on a network. Requests are logged on standard error unless LIDOFF_LOG=off.',
  arguments: [],
  options: [
    { flags: '--port <n>', about: 'port (else LIDOFF_PORT, else 4417; 0 takes a free one)' },
    { flags: '--host <address>', about: 'address to listen on (else LIDOFF_HOST, else 127.0.0.1)' },
    {
      flags: '--tokens <file>',
      about: 'hashed tokens of readers (else LIDOFF_TOKENS); make one with "lidoff token new"',
    },
    { flags: '--allow-host <name>', about: 'a further name that a Host header may carry', many: true },
    {
      flags: '--photos <folder>',
      about: 'folder that photo paths of sheets are relative to (else LIDOFF_PHOTOS, else here)',
    },
    { flags: '--demo', about: 'load the demo corpus first' },
    { flags: '--show-config', about: 'print each setting and where it came from, and do not start' },
  ],
  examples: ['lidoff serve --demo', 'lidoff serve --host 192.0.2.7 --tokens lidoff-tokens.json'],
  async run(call) {
    const { runServer } = await import('../run-server.ts')
    return runServer(call)
  },
}
