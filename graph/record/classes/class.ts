import type { Field } from '../field.ts'

/** A kind of part: what it is, what its terminals are called, which properties it has beside those that every part may have. */
export interface PartClass {
  readonly class: string
  /** Level 1: the group, itself a class for parts of which no more is known. */
  readonly group: string
  readonly title: string
  readonly is: string
  /** Other words in use, read as this class with a note. */
  readonly aliases: readonly string[]
  readonly terminals: TerminalNames
  readonly properties: Readonly<Record<string, Field>>
  /** Structures it may have beside properties. */
  readonly structures: readonly Structure[]
}

export interface TerminalNames {
  readonly names: readonly string[]
  /** Numbered pins, and lists and ranges of them, are allowed. */
  readonly pins?: true
  /** Names beyond the list are allowed, when they fit. */
  readonly pattern?: RegExp
}

/** What only some classes have: geometry of metal, layers of a flexible circuit, what a ring goes round … */
export const STRUCTURES = ['metal', 'stack', 'round', 'seals', 'joins'] as const
export type Structure = (typeof STRUCTURES)[number]

export const NO_TERMINALS: TerminalNames = { names: [] }
export const PINS: TerminalNames = { names: [], pins: true }
export const ONE_TWO: TerminalNames = { names: ['1', '2'] }
export const POLES: TerminalNames = { names: ['plus', 'minus'] }
/** A part that may be anything: any name a terminal could have. */
export const ANY_TERMINAL: TerminalNames = { names: [], pins: true, pattern: /^[a-z0-9]+(?:-[a-z0-9]+)*$/ }

interface Rest {
  readonly aliases?: readonly string[]
  readonly terminals?: TerminalNames
  readonly structures?: readonly Structure[]
}

/** One part class of a group. */
export function partClass(
  group: string,
  name: string,
  title: string,
  is: string,
  properties: Readonly<Record<string, Field>> = {},
  { aliases = [], terminals = NO_TERMINALS, structures = [] }: Rest = {},
): PartClass {
  return { class: name, group, title, is, aliases, terminals, properties, structures }
}
