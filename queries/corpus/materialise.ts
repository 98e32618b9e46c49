import { describeLack } from '../../graph/lack.ts'
import { weaker } from '../../graph/quantity/basis.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import type { Settings } from '../../graph/settings.ts'
import type { Derived, DerivedCheck, DerivedFigure, DerivedPassage, DerivedTrait } from '../../graph/store/derived.ts'
import type { Trail } from '../../graph/trail.ts'
import { checks } from '../checks/registry.ts'
import type { Result } from '../evaluate/result.ts'
import { openSession, type Session } from '../evaluate/session.ts'
import { figureById } from '../figures/registry.ts'
import { DomainError } from '../physics/method.ts'
import { traits } from '../traits/registry.ts'
import { derivedParts, instrumentsOf, summaryOf } from './searchable.ts'

/** Conditions under which every record is evaluated when it is written; others are evaluated on demand. */
export const NAMED_CONDITIONS: Readonly<Record<string, Partial<Settings>>> = {
  default: {},
  continuous: { power: 'CONTINUOUS' },
}

/** Everything the corpus keeps of a record: computed once, when it is written. Same record, same bytes. */
export function materialise(record: TeardownRecord): Derived {
  const session = openSession(record)
  return {
    summary: summaryOf(record),
    parts: derivedParts(session),
    passages: passagesOf(session),
    figures: figuresOf(session),
    traits: traitsOf(session),
    checks: checksOf(session),
    instruments: instrumentsOf(record),
  }
}

/** Figures under every named set of conditions; one that honours none of the settings that differ is the same under both. */
function figuresOf(session: Session): readonly DerivedFigure[] {
  const defaults = session.evaluateAll()
  return Object.entries(NAMED_CONDITIONS).flatMap(([name, settings]) => {
    const changed = Object.keys(settings) as (keyof Settings)[]
    const differs = (metric: string): boolean => figureById(metric).honours.some((one) => changed.includes(one))
    const again = defaults
      .filter((result) => differs(result.metric))
      .map(({ metric, subject }) => ({ figure: figureById(metric), subject }))
    const under = again.length === 0 ? [] : session.over([], settings).evaluateMany(again)
    const anew = new Map(under.map((result) => [`${result.metric} ${result.subject}`, result]))
    return defaults.map((result) => derivedFigure(anew.get(`${result.metric} ${result.subject}`) ?? result, name))
  })
}

/** The row of a result; its whole working goes into the body. */
export function derivedFigure(result: Result, conditions: string): DerivedFigure {
  return {
    metric: result.metric,
    subject: result.subject,
    conditions,
    status: result.status,
    unit: result.unit,
    value: result.value,
    atTaken: result.atTaken,
    uncertainty: result.u,
    low: result.low,
    high: result.high,
    how: result.how,
    basis: result.weakestBasis,
    reason: result.missing.length > 0 ? result.missing.map(describeLack).join('; ') : null,
    components: result.components,
    // The log is four fifths of a result, and rows are replaced whole when a record is written: nothing replays it.
    body: JSON.stringify({ ...result, log: [], components: {} }),
  }
}

function passagesOf(session: Session): readonly DerivedPassage[] {
  const { structure, settings } = session
  return structure.answer({ ask: 'passages' }, settings).paths.map((path) => ({
    path,
    stage: structure.stageOf(path),
    upstream: structure.answer({ ask: 'upstream', passage: path }, settings).paths,
  }))
}

/** Traits of a record, each with the weakest evidence it rests on, where there is any; one that cannot be told is left out. */
export function traitsOf(session: Session): readonly DerivedTrait[] {
  return traits.flatMap((trait) => {
    const told = sound(() => session.viewer.record((view) => trait.compute(view)))
    if (told instanceof DomainError || told.value === undefined || told.value === null) return []
    const { value, trail } = told
    return [{ id: trait.id, subject: 'specimen' as Path, value, basis: weakestOf(basesOf(session, trail)) }]
  })
}

/** How the relations that were found and the words and values that were read are known; of what was not found, nothing. */
function basesOf({ values }: Session, { founds, slots, words }: Trail): readonly DerivedTrait['basis'][] {
  return [
    ...[...founds.values()].flatMap(({ paths, basis, unsaid }) => (paths.length === 0 || unsaid ? [] : [basis])),
    ...[...slots, ...words].map((slot) => values.slotAt(slot).basis),
  ]
}

export function checksOf(session: Session): readonly DerivedCheck[] {
  return checks.flatMap((check) => {
    const told = sound(() => session.viewer.record((view) => check.run(view, session)))
    if (told instanceof DomainError) {
      const what = `not told: ${told.message}`
      return [{ id: check.id, severity: 'question', path: 'specimen', what, mend: 'see the values it names' }]
    }
    return (told.value ?? []).map((finding) => ({ id: check.id, severity: check.severity, ...finding }))
  })
}

/** An impossible value on record (a capacitance of zero) makes one answer impossible, not the whole record. */
function sound<T>(run: () => T): T | DomainError {
  try {
    return run()
  } catch (error) {
    if (error instanceof DomainError) return error
    throw error
  }
}

function weakestOf(bases: readonly DerivedTrait['basis'][]): DerivedTrait['basis'] {
  return bases.reduce((worst, basis) => (worst && basis ? weaker(worst, basis) : (worst ?? basis)), null)
}
