import { openStructure } from '../../graph/build.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Found, Query } from '../../graph/query.ts'
import type { Settings } from '../../graph/settings.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import type { Structure } from '../../graph/structure.ts'

export const HEAD = `lidoff: 1
id: test-unit
title: Unit of a test
basis: published
`

/** A sheet from its sections as typed; `specimen` is put there where the sections have none. */
export function structureOf(sections: string): Structure {
  const specimen = /^specimen:/m.test(sections) ? '' : 'specimen: { kind: traction-inverter }\n'
  const read = readSheet(`${HEAD}${specimen}${sections}`, 'test.yaml')
  if ('record' in read) return openStructure(read.record)
  throw new Error(read.complaints.map(({ line, what, mend }) => `line ${line}: ${what}; ${mend}`).join('\n'))
}

type Loose<Q> = Q extends unknown
  ? {
      readonly [K in keyof Q]: Q[K] extends Path | undefined
        ? string
        : Q[K] extends readonly [Path, Path]
          ? readonly string[]
          : Q[K]
    }
  : never

/** A structural question with paths as plain text. */
export type Question = Loose<Query>

export interface Asked {
  (question: Question, counts?: Settings['counts']): Found
  /** The paths alone. */
  paths(question: Question, counts?: Settings['counts']): readonly string[]
}

/** Asks the structure of a sheet. */
export function asking(sections: string): Asked {
  const structure = structureOf(sections)
  const ask = (question: Question, counts: Settings['counts'] = 'BUILT'): Found =>
    structure.answer(question as unknown as Query, { counts })
  return Object.assign(ask, { paths: (question: Question, counts?: Settings['counts']) => ask(question, counts).paths })
}

export const paths = (...texts: readonly string[]): readonly Path[] => texts.map(asPath)
