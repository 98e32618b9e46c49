import type { Command } from '../command.ts'

export const query: Command = {
  name: 'query',
  summary: 'run a GraphQL document against the database',
  about:
    'In this process, without a server. Errors of single fields stand in the document, and the status is 0; it is 1 when the text could not be read.',
  arguments: [{ name: 'graphql', about: 'the document, or - for standard input' }],
  options: [
    { flags: '--variables <json>', about: 'variables as one JSON object' },
    { flags: '--operation <name>', about: 'which operation of the document' },
  ],
  examples: [
    "lidoff query '{ metrics { id title unit } }'",
    'lidoff query \'query($id: ID!) { teardown(id: $id) { title } }\' --variables \'{"id":"ferry-7-drive"}\'',
  ],
  async run(call) {
    const { runQuery } = await import('../run-query.ts')
    return runQuery(call)
  },
}
