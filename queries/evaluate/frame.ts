import { type Basis, weaker } from '../../graph/quantity/basis.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import { withGrounds } from '../../graph/record/refuted.ts'
import type { Settings } from '../../graph/settings.ts'
import type { Trail } from '../../graph/trail.ts'
import type { Figure } from '../figures/figure.ts'
import { isWeak, statedWords } from './budget.ts'
import type { Result } from './result.ts'
import type { Session } from './session.ts'

type Frame = Pick<
  Result,
  'metric' | 'subject' | 'unit' | 'settings' | 'edits' | 'method' | 'sources' | 'log' | 'restsOn' | 'weakestBasis'
>

/** What a result says whether or not it has a value. */
export function frame(session: Session, figure: Figure, subject: Path, trail: Trail): Frame {
  return {
    metric: figure.id,
    subject,
    unit: figure.unit,
    settings: settingsRead(session.settings, trail),
    edits: session.edits,
    method: figure.method,
    sources: figure.sources,
    log: [...trail.reads.values()],
    restsOn: restsOn(session, trail),
    weakestBasis: weakest(session, trail),
  }
}

function settingsRead(settings: Settings, trail: Trail): Partial<Settings> {
  const names = [...trail.reads.values()].flatMap((read) => (read.kind === 'setting' ? [read.name] : []))
  return Object.fromEntries(names.map((name) => [name, settings[name]]))
}

/** Findings with what they rest on themselves, then relations that nobody observed and searches nobody closed. */
function restsOn(session: Session, trail: Trail): readonly string[] {
  const findings = new Set<Path>()
  const rests = new Set<string>()
  for (const slot of read(trail)) for (const finding of session.values.slotAt(slot).restsOn) findings.add(finding)
  for (const [key, { restsOn: on, census, basis, paths }] of trail.founds) {
    for (const one of on) findings.add(one)
    if (census === 'open')
      rests.add(`${statedWords(trail, key)} (${paths.length > 0 ? `${basis}, ` : ''}nobody said all were found)`)
    else if (isWeak(basis)) rests.add(`${statedWords(trail, key)} (${basis})`)
  }
  return [...withGrounds(session.record, findings), ...rests]
}

/** Words count like values: a material that is assumed is as weak as an assumed density. */
function weakest(session: Session, trail: Trail): Basis | null {
  let worst: Basis | null = null
  for (const slot of read(trail)) {
    const { basis } = session.values.slotAt(slot)
    if (basis !== null) worst = worst === null ? basis : weaker(worst, basis)
  }
  return worst
}

function* read({ slots, words }: Trail): Iterable<number> {
  yield* slots
  yield* words
}
