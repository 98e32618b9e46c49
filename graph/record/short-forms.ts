import { asPath } from '../quantity/quantity.ts'
import { addFact, at, type Book, type Scope } from './book.ts'
import { enterFact } from './enter-fact.ts'
import type { Sheet } from './sheet-schema.ts'

type Short = 'peak-power' | 'continuous-power' | 'phase-current' | 'switching-frequency'

/** Where values that may be typed at the specimen for short have their home. A frequency holds at every point. */
const HOMES: readonly (readonly [key: Short, points: readonly ('peak' | 'continuous')[], property: string])[] = [
  ['peak-power', ['peak'], 'power'],
  ['continuous-power', ['continuous'], 'power'],
  ['phase-current', ['peak'], 'phase-current'],
  ['switching-frequency', ['peak', 'continuous'], 'switching-frequency'],
]

/** Enters the short forms at the operating points: one home. What is stated there already is not stated twice. */
export function enterShortForms(book: Book, { specimen }: Sheet, scope: Scope): void {
  for (const [key, points, property] of HOMES) {
    const stated = specimen[key]
    if (!stated) continue
    const place = at(at(null, 'specimen'), key)
    const free = points.filter((point) => !book.facts.has(asPath(`operating-points/${point}/${property}`)))
    const [first, ...others] = points.length === 1 ? points : free
    if (first === undefined) continue
    const home = asPath(`operating-points/${first}/${property}`)
    enterFact(book, home, stated, place, scope)
    const fact = book.facts.get(home)
    for (const other of others) {
      const path = asPath(`operating-points/${other}/${property}`)
      if (fact) addFact(book, { ...fact, path })
    }
  }
}

/** The specimen without what has its home at the operating points. */
export function withoutShortForms({
  'peak-power': _peak,
  'continuous-power': _continuous,
  'phase-current': _current,
  'switching-frequency': _frequency,
  ...rest
}: Sheet['specimen']) {
  return rest
}
