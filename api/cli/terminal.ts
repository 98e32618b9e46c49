import type { Writable } from 'node:stream'
import type { Environment } from '../config.ts'
import { rendered } from './emphasis.ts'

/** Where a command writes: data to standard output, everything said to standard error. */
export interface Terminal {
  readonly json: boolean
  /** Columns that a table may fill. */
  readonly width: number
  /** Whether a person watches standard error: progress is drawn only then. */
  readonly watched: boolean
  readonly stderr: Writable
  /** Text for a person, on standard output; nothing under `--json`. */
  print(text: string): void
  /** The one JSON document of `--json`; nothing otherwise. */
  document(value: unknown): void
  /** Bytes as they are, for exports. */
  raw(chunk: string): void
  /** A message that is not data. */
  say(text: string): void
}

interface Stream extends Writable {
  readonly isTTY?: boolean
  readonly columns?: number
}

export interface TerminalOptions {
  readonly stdout: Stream
  readonly stderr: Stream
  readonly env: Environment
  readonly json: boolean
  readonly colour: boolean
}

const WIDTH_UNKNOWN = 120
const NARROWEST = 40

export function openTerminal({ stdout, stderr, env, json, colour }: TerminalOptions): Terminal {
  return {
    json,
    width: Math.max(NARROWEST, stdout.columns ?? (Number(env.COLUMNS) || WIDTH_UNKNOWN)),
    watched: stderr.isTTY === true && env.TERM !== 'dumb',
    stderr,
    print: (text) => void (json || stdout.write(`${rendered(text, colour && wantsColour(stdout, env))}\n`)),
    document: (value) => void (json && stdout.write(`${JSON.stringify(value, jsonValue, 2)}\n`)),
    raw: (chunk) => void stdout.write(chunk),
    say: (text) => void stderr.write(`${rendered(text, colour && wantsColour(stderr, env))}\n`),
  }
}

/** Colour only where a person sees it and nobody asked for none. */
function wantsColour(stream: Stream, env: Environment): boolean {
  if (env.NO_COLOR !== undefined && env.NO_COLOR !== '') return false
  if (env.FORCE_COLOR !== undefined && env.FORCE_COLOR !== '0') return true
  return stream.isTTY === true && env.TERM !== 'dumb'
}

/** Maps as objects, sets as lists. */
function jsonValue(_key: string, value: unknown): unknown {
  if (value instanceof Map) return Object.fromEntries(value)
  return value instanceof Set ? [...value] : value
}
