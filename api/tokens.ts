import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { readFileSync, renameSync, writeFileSync } from 'node:fs'
import { z } from 'zod'
import { Fault } from './errors.ts'

/** A reader's token, as kept: never the text itself. 256 random bits need no slow hash. */
const tokenRecord = z.strictObject({
  name: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, 'small letters, digits and hyphens'),
  /** First characters of the text, to recognise one by. */
  prefix: z.string(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  made: z.iso.datetime(),
  expires: z.iso.datetime().optional(),
})
const tokenFile = z.strictObject({ 'lidoff-tokens': z.literal(1), tokens: z.array(tokenRecord) })

export type TokenRecord = z.infer<typeof tokenRecord>

/** Reads the hashed tokens of a file. A file that is not there holds none. */
export function readTokens(file: string): readonly TokenRecord[] {
  const text = textOf(file)
  if (text === undefined) return []
  const parsed = tokenFile.safeParse(jsonOf(text, file))
  if (parsed.success) return parsed.data.tokens
  const [issue] = parsed.error.issues
  throw new Fault(
    'USAGE',
    `${file} is not a token file: ${issue?.path.join('/')}: ${issue?.message}`,
    'make one with "lidoff token new"',
  )
}

/** Writes the file anew, readable by its owner alone; the old one stays whole until the new one is complete. */
export function writeTokens(file: string, tokens: readonly TokenRecord[]): void {
  const draft = `${file}.${process.pid}.new`
  writeFileSync(draft, `${JSON.stringify({ 'lidoff-tokens': 1, tokens }, null, 2)}\n`, { mode: 0o600 })
  renameSync(draft, file)
}

/** A new token: its text is returned once and kept nowhere. */
export function makeToken(
  name: string,
  now: Date,
  days?: number,
): { readonly text: string; readonly record: TokenRecord } {
  const text = `lidoff_${randomBytes(32).toString('base64url')}`
  const expires = days === undefined ? {} : { expires: new Date(now.getTime() + days * 86_400_000).toISOString() }
  const record = tokenRecord.safeParse({
    name,
    prefix: text.slice(0, 12),
    sha256: digest(text).toString('hex'),
    made: now.toISOString(),
    ...expires,
  })
  if (!record.success)
    throw new Fault('USAGE', `"${name}" is not a token name`, 'small letters, digits and hyphens, 40 at most')
  return { text, record: record.data }
}

/** The token that a text is, or undefined. Every record is compared, each in constant time, whatever the first says. */
export function findToken(tokens: readonly TokenRecord[], text: string, now: Date): TokenRecord | undefined {
  const given = digest(text)
  let found: TokenRecord | undefined
  for (const token of tokens) {
    const same = timingSafeEqual(given, Buffer.from(token.sha256, 'hex'))
    if (same && !(token.expires && Date.parse(token.expires) <= now.getTime())) found = token
  }
  return found
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest()
}

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
    throw error
  }
}

function jsonOf(text: string, file: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    throw new Fault('USAGE', `${file} is not a token file: not JSON`, 'make one with "lidoff token new"')
  }
}
