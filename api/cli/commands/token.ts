import { pick } from '../../config.ts'
import { Fault } from '../../errors.ts'
import { makeToken, readTokens, writeTokens } from '../../tokens.ts'
import { type Call, type Command, textOf } from '../command.ts'
import { table } from '../table.ts'

export const token: Command = {
  name: 'token',
  summary: "make, list or revoke readers' tokens",
  about:
    'A server beyond this machine answers only readers with a token. A token is shown once, when it is made; the file keeps its hash.',
  arguments: [
    { name: 'action', about: 'new, list or revoke' },
    { name: 'name', about: 'name of the token: small letters, digits and hyphens', optional: true },
  ],
  options: [
    { flags: '--tokens <file>', about: 'token file (else LIDOFF_TOKENS, else lidoff-tokens.json)' },
    { flags: '--days <n>', about: 'days until the token expires (else it does not)' },
  ],
  examples: ['lidoff token new bench-screen --tokens lidoff-tokens.json', 'lidoff token revoke bench-screen'],
  async run(call) {
    const file = pick(textOf(call.options, 'tokens'), 'LIDOFF_TOKENS', call.env, 'lidoff-tokens.json').value
    const [action, name] = call.args
    if (action === 'list') return list(call, file)
    if (action === 'new') return make(call, file, required(name))
    if (action === 'revoke') return revoke(call, file, required(name))
    throw new Fault('USAGE', `"${action}" is nothing that can be done with tokens`, 'new, list or revoke')
  },
}

function make({ terminal, options, now }: Call, file: string, name: string): number {
  const tokens = readTokens(file)
  if (tokens.some((one) => one.name === name)) {
    throw new Fault('CONFLICT', `there is a token "${name}" already`, 'revoke it first, or take another name')
  }
  const { text, record } = makeToken(name, now(), daysOf(textOf(options, 'days')))
  writeTokens(file, [...tokens, record])
  terminal.say(`token "${name}" added to ${file}; it is shown this once:`)
  terminal.print(text)
  terminal.document({ name, token: text, file, expires: record.expires ?? null })
  return 0
}

function list({ terminal }: Call, file: string): number {
  const tokens = readTokens(file)
  const shown = tokens.map(({ name, prefix, made, expires }) => ({ name, prefix, made, expires: expires ?? null }))
  const columns = [
    { head: 'name', cell: (one: (typeof shown)[number]) => one.name },
    { head: 'begins', cell: (one: (typeof shown)[number]) => `${one.prefix}…` },
    { head: 'made', cell: (one: (typeof shown)[number]) => one.made },
    { head: 'expires', cell: (one: (typeof shown)[number]) => one.expires ?? 'never' },
  ]
  terminal.print(shown.length > 0 ? table(columns, shown, terminal.width) : `no tokens in ${file}`)
  terminal.document({ file, tokens: shown })
  return 0
}

function revoke({ terminal }: Call, file: string, name: string): number {
  const tokens = readTokens(file)
  const rest = tokens.filter((one) => one.name !== name)
  if (rest.length === tokens.length)
    throw new Fault('NOT_FOUND', `no token "${name}" in ${file}`, '"lidoff token list" shows them')
  writeTokens(file, rest)
  terminal.print(`token "${name}" revoked; a running server reads the file when it starts`)
  terminal.document({ file, revoked: name })
  return 0
}

function required(name: string | undefined): string {
  if (name) return name
  throw new Fault('USAGE', 'a token needs a name', 'lidoff token new NAME')
}

function daysOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  if (/^[1-9]\d{0,4}$/.test(text)) return Number(text)
  throw new Fault('USAGE', `"${text}" is not a number of days`, 'a whole number from 1')
}
