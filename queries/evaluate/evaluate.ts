import { describeLack, type Lack, notApplicable } from '../../graph/lack.ts'
import { type Basis, weaker } from '../../graph/quantity/basis.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import { fromSI } from '../../graph/quantity/units.ts'
import type { Settings } from '../../graph/settings.ts'
import type { Draw } from '../../graph/values.ts'
import type { Model, Trail, View } from '../../graph/view.ts'
import type { Figure } from '../figures/figure.ts'
import { figureById } from '../figures/registry.ts'
import { DomainError } from '../physics/method.ts'
import { type FirstOrder, firstOrder, type Problem } from './propagate.ts'
import type { Input, Result } from './result.ts'
import { type Sampled, sampleTogether } from './sample.ts'
import type { Request, Session } from './session.ts'

/** Draws of a sampled figure that reads little; fewer, down to the least, when it reads much (the count is printed). */
const MOST_DRAWS = 10_000
const LEAST_DRAWS = 1_000
const READS_BUDGET = 600_000

interface Work {
  readonly figure: Figure
  readonly subject: Path
  readonly trail: Trail
  readonly atTaken: number
  readonly problem: Problem
  readonly linear: FirstOrder | null
}

/**
 * Evaluates figures at the values written, then by first order, then samples those for which a straight line
 * misleads, all of these under the same draws, so that each model is solved once a draw.
 */
export function evaluateMany(session: Session, requests: readonly Request[]): readonly Result[] {
  const single = singles()
  const begun = requests.map((request) => begin(session, request, single))
  const sampled = sampleAll(session, begun.filter(isWork).filter(needsSampling))
  return begun.map((one) => (isWork(one) ? finish(session, one, sampled.get(one)) : one))
}

const isWork = (one: Work | Result): one is Work => 'problem' in one
const needsSampling = (work: Work): boolean =>
  work.linear !== null && work.problem.influences.length > 0 && (isKink(work.figure) || work.linear.misleads)

function isKink(figure: Figure): boolean {
  return figure.kink === true || (figure.uses ?? []).some((id) => isKink(figureById(id)))
}

/** One draw object per influence and sign, shared by all figures of the call. */
function singles(): Problem['single'] {
  const known = new Map<string, NonNullable<Draw>>()
  return (influence, sign) => {
    const key = `${sign}${influence.index}`
    const draw = known.get(key) ?? {
      moved: new Set([influence.index]),
      deviation: (index: number) => (index === influence.index ? sign * influence.u : 0),
    }
    known.set(key, draw)
    return draw
  }
}

function begin(session: Session, { figure, subject }: Request, single: Problem['single']): Work | Result {
  // The same memo as when another figure asks for this one; a figure of a caller's own need not be in the registry.
  const model: Model<number> = { id: `figure ${figure.id}`, compute: (view, about) => figure.compute(view, about) }
  const run = (view: View) => guarded(view, () => view.model(model, subject))
  const { trail, value, lack } = session.viewer.record(run)
  if (lack || value === undefined) return withoutValue(session, figure, subject, trail, lack ?? NO_RESULT)
  const influences = figure.exact ? [] : [...trail.influences].map((index) => session.values.influence(index))
  const problem: Problem = {
    atTaken: value,
    influences: influences.filter((influence) => influence.u > 0),
    evaluate: (draw) => finite(session.viewer.under(draw, run)),
    single,
  }
  return { figure, subject, trail, atTaken: value, problem, linear: figure.exact ? null : firstOrder(problem) }
}

const NO_RESULT = { reason: 'the computation gave no finite number', kind: 'refused' } as const

/** An impossible argument is a gap of the record with the method's own words, not a crash. */
function guarded(view: View, run: () => number): number {
  try {
    const value = run()
    return Number.isFinite(value) ? value : view.fail(NO_RESULT.reason)
  } catch (error) {
    if (error instanceof DomainError) return view.fail(error.message)
    throw error
  }
}

const finite = (value: number | undefined): number | undefined =>
  value !== undefined && Number.isFinite(value) ? value : undefined

/** Figures that must be sampled, all under the same draws. */
function sampleAll(session: Session, works: readonly Work[]): ReadonlyMap<Work, Sampled> {
  const plans = works.map((work) => ({ evaluate: work.problem.evaluate, draws: drawsFor(work) }))
  const sampled = sampleTogether(plans, (index) => session.values.influence(index))
  return new Map(works.map((work, at) => [work, sampled[at]!]))
}

function drawsFor({ trail }: Work): number {
  return Math.max(LEAST_DRAWS, Math.min(MOST_DRAWS, Math.round(READS_BUDGET / Math.max(1, trail.slots.size))))
}

function finish(session: Session, work: Work, sampled: Sampled | undefined): Result {
  const { figure, subject, trail, atTaken, linear } = work
  const scale = (si: number): number => fromSI(si, figure.unit)
  const offset = scale(0)
  const width = (si: number): number => scale(si) - offset
  const exact = linear === null || work.problem.influences.length === 0
  const u = exact ? null : width(sampled ? sampled.u : linear.u)
  const components = linear ? componentsOf(session, linear, width) : {}
  const { inputs, interaction } = budget(session, work, sampled?.u ?? linear?.u ?? 0)
  return {
    ...frame(session, figure, subject, trail),
    status: trail.beyond.size > 0 ? 'OUT_OF_RANGE' : 'OK',
    atTaken: scale(atTaken),
    value: scale(sampled ? sampled.value : atTaken),
    u,
    low: exact ? scale(atTaken) : scale(sampled ? sampled.low : linear.low),
    high: exact ? scale(atTaken) : scale(sampled ? sampled.high : linear.high),
    how: exact ? 'exact' : sampled ? 'sampled' : 'first-order',
    ...(sampled && { draws: sampled.draws, standardError: width(sampled.standardError) }),
    components,
    inputs,
    interaction: exact ? null : interaction,
    missing: [],
    warnings: warningsOf(session, work, sampled),
  }
}

function componentsOf(
  session: Session,
  linear: FirstOrder,
  width: (si: number) => number,
): Readonly<Record<string, number>> {
  return Object.fromEntries([...linear.components].map(([index, c]) => [session.values.influence(index).id, width(c)]))
}

/** Inputs with their shares: Σ over causes of (component of the path)·(component of the cause), over u². */
function budget(session: Session, work: Work, u: number): { inputs: readonly Input[]; interaction: number } {
  const homes = new Map<Path, number[]>()
  for (const index of work.trail.slots) {
    const { home } = session.values.slotAt(index)
    homes.set(home, [...(homes.get(home) ?? []), index])
  }
  const shares = new Map<Path, number>()
  for (const [influence, c] of work.linear?.components ?? []) {
    for (const [home, part] of split(session, work, homes, influence, c)) {
      shares.set(home, (shares.get(home) ?? 0) + (u > 0 ? (c * part) / (u * u) : 0))
    }
  }
  const inputs = [...homes].map(([home, slots]) => inputAt(session, home, slots[0]!, shares.get(home), u))
  inputs.sort((a, b) => Math.abs(b.share ?? 0) - Math.abs(a.share ?? 0) || (a.path < b.path ? -1 : 1))
  const explained = [...shares.values()].reduce((sum, share) => sum + share, 0)
  return { inputs, interaction: u > 0 ? 1 - explained : 0 }
}

function inputAt(session: Session, home: Path, slotIndex: number, share: number | undefined, u: number): Input {
  const slot = session.values.slotAt(slotIndex)
  const quantity = slot.quantity!
  const variance = slot.terms.reduce((sum, term) => {
    const weight = term.scale ? term.weight * quantity.value : term.weight
    return sum + (weight * session.values.influence(term.influence).u) ** 2
  }, 0)
  return {
    path: home,
    value: quantity.value,
    dimension: dimensionOf(session, home),
    uncertainty: variance > 0 ? Math.sqrt(variance) : null,
    basis: quantity.basis,
    defaulted: quantity.defaulted,
    share: u > 0 ? (share ?? 0) : null,
  }
}

function dimensionOf(session: Session, home: Path): string {
  const { facts } = session.record
  return (facts.get(home) ?? facts.get(asPath(home.replace(/\.[^/]*/g, ''))))?.dimension ?? ''
}

/** How much of an influence's component goes through each path. A private cause goes through one. */
function split(
  session: Session,
  work: Work,
  homes: ReadonlyMap<Path, readonly number[]>,
  influence: number,
  c: number,
): ReadonlyMap<Path, number> {
  const touched = [...homes].filter(([, slots]) =>
    slots.some((slot) => session.values.slotAt(slot).terms.some((term) => term.influence === influence)),
  )
  if (touched.length === 1) return new Map([[touched[0]![0], c]])
  const { u } = session.values.influence(influence)
  const parts = touched.map(([home, slots]) => {
    const only = new Set(slots)
    const at = (sign: number) =>
      work.problem.evaluate({ moved: new Set([influence]), deviation: () => sign * u, only }) ?? work.atTaken
    return [home, (at(1) - at(-1)) / 2] as const
  })
  const sum = parts.reduce((total, [, part]) => total + part, 0)
  const left = (c - sum) / touched.length // what curvature keeps the parts from adding up to
  return new Map(parts.map(([home, part]) => [home, part + left]))
}

function warningsOf(session: Session, work: Work, sampled: Sampled | undefined): readonly string[] {
  const defaulted = [...work.trail.slots].filter((slot) => session.values.slotAt(slot).quantity?.defaulted).length
  return [
    ...work.trail.notes,
    ...[...work.trail.beyond].map((text) => `outside the validated range: ${text}`),
    ...(work.linear?.notes ?? []),
    ...(defaulted > 0 ? [`${defaulted} input(s) carry the default width of their basis`] : []),
    ...(sampled && sampled.left > 0 ? [`${sampled.left} of ${sampled.draws + sampled.left} draws had no result`] : []),
  ]
}

function withoutValue(session: Session, figure: Figure, subject: Path, trail: Trail, lack: Lack): Result {
  return {
    ...frame(session, figure, subject, trail),
    status: notApplicable(lack) ? 'NOT_APPLICABLE' : 'MISSING',
    atTaken: null,
    value: null,
    u: null,
    low: null,
    high: null,
    how: 'exact',
    components: {},
    inputs: [],
    interaction: null,
    missing: [lack],
    warnings: [...trail.notes, describeLack(lack)],
  }
}

type Frame = Pick<
  Result,
  'metric' | 'subject' | 'unit' | 'settings' | 'edits' | 'method' | 'sources' | 'log' | 'restsOn' | 'weakestBasis'
>

function frame(session: Session, figure: Figure, subject: Path, trail: Trail): Frame {
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

function restsOn(session: Session, trail: Trail): readonly string[] {
  const findings = [...trail.slots].flatMap((slot) => session.values.slotAt(slot).quantity!.restsOn)
  const relations = [...trail.founds].flatMap(([key, found]) => [
    ...found.restsOn,
    ...(found.census === 'open' || found.basis === 'judged' || found.basis === 'assumed'
      ? [`${key} (${found.basis}${found.census === 'open' ? ', nobody said all were found' : ''})`]
      : []),
  ])
  return [...new Set([...findings, ...relations])]
}

function weakest(session: Session, trail: Trail): Basis | null {
  return [...trail.slots].reduce<Basis | null>((worst, slot) => {
    const { basis } = session.values.slotAt(slot).quantity!
    return worst === null ? basis : weaker(worst, basis)
  }, null)
}
