import { isIP } from 'node:net'
import { resolve } from 'node:path'
import { Fault } from './errors.ts'

export type Environment = Readonly<Record<string, string | undefined>>

/** Where a setting came from: printed by `serve --show-config`, so that nobody has to guess which one won. */
export interface Setting<T> {
  readonly value: T
  readonly origin: string
}

/** What a command was given on its line, before the environment and the defaults fill in. */
export interface Flags {
  readonly db?: string
  readonly host?: string
  readonly port?: string
  readonly tokens?: string
  readonly allowHost?: readonly string[]
  readonly photos?: string
}

export interface ServerConfig {
  readonly host: Setting<string>
  readonly port: Setting<number>
  /** File of hashed tokens; none is only allowed on loopback. */
  readonly tokens: Setting<string | null>
  /** Further names that a Host header may carry. */
  readonly allowHosts: Setting<readonly string[]>
  /** Folder that photo paths of sheets are relative to. */
  readonly photos: Setting<string>
}

/** Flag, else environment, else default: the first that is there. */
export function pick(flag: string | undefined, variable: string, env: Environment, otherwise: string): Setting<string> {
  if (flag !== undefined) return { value: flag, origin: 'flag' }
  const set = env[variable]
  if (set !== undefined && set !== '') return { value: set, origin: `environment ${variable}` }
  return { value: otherwise, origin: 'default' }
}

/** The database file: `--db`, `LIDOFF_DB`, or `lidoff.db` in the working folder. */
export function databaseFile(flags: Flags, env: Environment): Setting<string> {
  const chosen = pick(flags.db, 'LIDOFF_DB', env, 'lidoff.db')
  return { ...chosen, value: resolve(chosen.value) }
}

export function serverConfig(flags: Flags, env: Environment): ServerConfig {
  const port = pick(flags.port, 'LIDOFF_PORT', env, '4417')
  const tokens = pick(flags.tokens, 'LIDOFF_TOKENS', env, '')
  const photos = pick(flags.photos, 'LIDOFF_PHOTOS', env, '.')
  const given = flags.allowHost ?? []
  const names = pick(given.length > 0 ? given.join(',') : undefined, 'LIDOFF_ALLOW_HOST', env, '')
  return {
    host: pick(flags.host, 'LIDOFF_HOST', env, '127.0.0.1'),
    port: { ...port, value: portNumber(port.value) },
    tokens: { ...tokens, value: tokens.value === '' ? null : resolve(tokens.value) },
    allowHosts: { ...names, value: names.value.split(',').filter((name) => name !== '') },
    photos: { ...photos, value: resolve(photos.value) },
  }
}

/** Beyond loopback a server without tokens would be open to the whole network: refused. */
export function requireSafeBind(config: ServerConfig, tokenCount: number): void {
  const { value: host } = config.host
  if (isLoopback(host) || tokenCount > 0) return
  throw new Fault(
    'USAGE',
    `refusing to listen on "${host}": beyond this machine every reader needs a token, and there is none`,
    'make one with "lidoff token new NAME --tokens FILE" and start with "--tokens FILE", or leave --host out',
  )
}

/** Literal loopback addresses, and the one name that every system resolves to them. */
export function isLoopback(host: string): boolean {
  const bare = host.replace(/^\[|\]$/g, '')
  if (bare === 'localhost' || bare === '::1') return true
  return isIP(bare) === 4 && bare.startsWith('127.')
}

function portNumber(text: string): number {
  const port = Number(text)
  if (/^\d{1,5}$/.test(text) && port <= 65535) return port
  throw new Fault('USAGE', `"${text}" is not a port`, 'a whole number from 0 to 65535; 0 takes a free one')
}
