import type { Environment, Flags } from '../config.ts'
import type { Terminal } from './terminal.ts'

/** One command of the program: what it is called with, what it says of itself, and what it does. */
export interface Command {
  readonly name: string
  readonly summary: string
  /** More than the summary says; shown by `--help`. */
  readonly about?: string
  readonly arguments: readonly Argument[]
  readonly options: readonly Option[]
  /** Lines that can be typed as they stand; the first is shown in the list of commands. */
  readonly examples: readonly [string, ...string[]]
  /** What is imported only for this command is imported in here, so that `--help` stays quick. */
  run(call: Call): Promise<number>
}

export interface Argument {
  readonly name: string
  readonly about: string
  readonly optional?: boolean
  readonly many?: boolean
}

export interface Option {
  /** As commander writes it: `--metric <id>`. */
  readonly flags: string
  readonly about: string
  /** May be given several times; arrives as a list. */
  readonly many?: boolean
}

/** One call of a command. */
export interface Call {
  readonly args: readonly string[]
  readonly options: Options
  readonly terminal: Terminal
  readonly env: Environment
  readonly now: () => Date
  readonly stdin: () => Promise<string>
}

/** Flags as given: a text, `true`, or a list where the option says `many`. */
export type Options = Flags & Readonly<Record<string, string | boolean | readonly string[] | undefined>>

/** The texts of an option that may be given several times; commas part them as well. */
export function listOf(options: Options, name: string): readonly string[] {
  const given = options[name]
  return Array.isArray(given) ? given : typeof given === 'string' ? [given] : []
}

export function textOf(options: Options, name: string): string | undefined {
  const given = options[name]
  return typeof given === 'string' ? given : undefined
}

/** How every command ends; shown by `--help`. */
export const EXIT_STATUS = [
  [0, 'fine'],
  [1, 'the input has errors'],
  [2, 'wrong usage'],
  [3, 'not found'],
  [4, 'refused, or in conflict'],
] as const
