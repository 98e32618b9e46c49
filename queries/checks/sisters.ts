import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineCheck, type Finding } from './check.ts'

/** Parts of a phase that are compared with those of the others. */
const CLASSES = ['half-bridge-module', 'multi-bridge-module', 'discrete-power-device', 'current-sensor', 'phase-bar']
const WORDS = ['marking', 'kind', 'material', 'type', 'principle'] as const
const NUMBERS = [
  'size/length',
  'size/width',
  'size/height',
  'blocking-voltage',
  'inductance',
  'on-resistance',
  'range',
  'run/width',
  'run/thickness',
] as const

/** Relative difference that still counts as alike: other than a slip of the hand, short of another type. */
const ALIKE = 0.02

/** What a piece is like, as one text for each property on record. */
function features(view: View, piece: Path): ReadonlyMap<string, string | number> {
  const found = new Map<string, string | number>()
  for (const name of WORDS) {
    const word = view.mayWord(asPath(`${piece}/${name}`))
    if (word !== undefined && word !== '' && word !== 'unreadable') found.set(name, word)
  }
  for (const name of NUMBERS) {
    const value = view.may(asPath(`${piece}/${name}`))
    if (value !== undefined) found.set(name, value)
  }
  return found
}

const alike = (a: string | number, b: string | number): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= ALIKE * Math.max(Math.abs(a), Math.abs(b))
    : a === b

const phaseDiffers = defineCheck({
  id: 'phase-differs',
  title: 'A phase that differs from its sisters',
  severity: 'question',
  run: (view) =>
    CLASSES.flatMap((name) => view.find({ ask: 'parts', class: name }).paths).flatMap((entry) => {
      const pieces = view.find({ ask: 'pieces', of: entry }).paths
      return pieces.length < 3 ? [] : odd(view, pieces)
    }),
})

/** A piece of three or more in which something is unlike all of the others, which agree. */
function odd(view: View, pieces: readonly Path[]): readonly Finding[] {
  const all = pieces.map((piece) => ({ piece, features: features(view, piece) }))
  return all.flatMap(({ piece, features: own }): readonly Finding[] => {
    const unlike = [...own].filter(([name, value]) => {
      const others = all.filter((one) => one.piece !== piece).map((one) => one.features.get(name))
      const [first] = others
      return (
        first !== undefined &&
        others.every((other) => other !== undefined && alike(other, first)) &&
        !alike(value, first)
      )
    })
    if (unlike.length === 0) return []
    return [
      {
        path: piece,
        what: `differs from its sisters in ${unlike.map(([name, value]) => `${name} (${typeof value === 'string' ? value : Number(value.toPrecision(4))})`).join(', ')}`,
        mend: 'was it replaced? Say so in a finding; figures of the phases then differ with reason',
      },
    ]
  })
}

export const sisterChecks = [phaseDiffers] as const
