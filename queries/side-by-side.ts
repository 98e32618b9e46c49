import type { Path } from '../graph/quantity/quantity.ts'
import { checksOf, traitsOf } from './corpus/materialise.ts'
import type { Result } from './evaluate/result.ts'
import type { Session } from './evaluate/session.ts'
import { figureById } from './figures/registry.ts'

/** A figure under two states of one record. */
export interface Moved {
  readonly metric: string
  readonly subject: Path
  readonly unit: string
  /** Null where there is no such subject. */
  readonly before: Result | null
  readonly after: Result | null
  readonly changed: boolean
  /** What it read that came back different: paths of values, and structural questions in words. */
  readonly because: readonly string[]
}

export interface SideBySide {
  readonly figures: readonly Moved[]
  readonly traits: readonly { readonly id: string; readonly before: string | null; readonly after: string | null }[]
  readonly checks: readonly {
    readonly id: string
    readonly path: string
    readonly what: string
    readonly now: 'raised' | 'settled'
  }[]
}

/** Figures, traits and checks before and after. Only figures that read something else are computed again. */
export function sideBySide(before: Session, after: Session, metrics?: readonly string[]): SideBySide {
  return {
    figures: moved(before, after, metrics),
    traits: traitsMoved(before, after),
    checks: checksMoved(before, after),
  }
}

const keyOf = ({ metric, subject }: Pick<Result, 'metric' | 'subject'>): string => `${metric} ${subject}`

function moved(before: Session, after: Session, metrics: readonly string[] | undefined): readonly Moved[] {
  const first = before.evaluateAll(metrics)
  const because = new Map(first.map((result) => [keyOf(result), after.differs(result.log)]))
  const known = new Map(first.map((result) => [keyOf(result), result]))
  const wanted = metrics ? new Set(metrics) : new Set(first.map(({ metric }) => metric))
  const subjects = after.requests(metrics).filter(({ figure }) => wanted.has(figure.id) || metrics === undefined)
  const anew = after.evaluateMany(
    subjects.filter(({ figure, subject }) => (because.get(`${figure.id} ${subject}`) ?? ['new']).length > 0),
  )
  const second = new Map(anew.map((result) => [keyOf(result), result]))
  const still = new Set(subjects.map(({ figure, subject }) => `${figure.id} ${subject}`))
  const rows = first.map((result): Moved => {
    const key = keyOf(result)
    const other = second.get(key) ?? (still.has(key) ? result : null)
    return row(result, result, other, because.get(key) ?? [])
  })
  const added = anew.filter((result) => !known.has(keyOf(result))).map((result) => row(result, null, result, []))
  return [...rows, ...added]
}

function row(
  { metric, subject }: Result,
  before: Result | null,
  after: Result | null,
  because: readonly string[],
): Moved {
  const changed = !(before && after) || !same(before, after)
  return { metric, subject, unit: figureById(metric).unit, before, after, changed, because: changed ? because : [] }
}

/** Digits that a change of the order of summation moves are no change, nor is what other draws of a sampled figure give. */
const ROUNDING = 1e-9
const DRAWN = 0.05

function same(a: Result, b: Result): boolean {
  const drawn = a.how === 'sampled' && b.how === 'sampled' ? DRAWN * Math.min(a.u ?? 0, b.u ?? 0) : 0
  const near = (x: number | null, y: number | null): boolean =>
    x === y || (x !== null && y !== null && Math.abs(x - y) <= ROUNDING * Math.max(Math.abs(x), Math.abs(y)) + drawn)
  if (drawn > 0 && !near(a.atTaken, b.atTaken)) return false
  return a.status === b.status && near(a.value, b.value) && near(a.low, b.low) && near(a.high, b.high)
}

function traitsMoved(before: Session, after: Session): SideBySide['traits'] {
  const first = new Map(traitsOf(before).map(({ id, value }) => [id, value]))
  const second = new Map(traitsOf(after).map(({ id, value }) => [id, value]))
  return [...new Set([...first.keys(), ...second.keys()])]
    .map((id) => ({ id, before: first.get(id) ?? null, after: second.get(id) ?? null }))
    .filter((one) => one.before !== one.after)
}

function checksMoved(before: Session, after: Session): SideBySide['checks'] {
  const first = checksOf(before)
  const second = checksOf(after)
  const text = ({ id, path, what }: (typeof first)[number]): string => `${id} ${path} ${what}`
  const [had, has] = [new Set(first.map(text)), new Set(second.map(text))]
  const shown = (one: (typeof first)[number], now: 'raised' | 'settled') => ({
    id: one.id,
    path: one.path,
    what: one.what,
    now,
  })
  return [
    ...second.filter((one) => !had.has(text(one))).map((one) => shown(one, 'raised')),
    ...first.filter((one) => !has.has(text(one))).map((one) => shown(one, 'settled')),
  ]
}
