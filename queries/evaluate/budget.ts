import type { Basis } from '../../graph/quantity/basis.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import { queryWords } from '../../graph/query-words.ts'
import type { Trail } from '../../graph/trail.ts'
import type { Slot } from '../../graph/values.ts'
import type { FirstOrder, Problem } from './propagate.ts'
import type { Input, WeakShare } from './result.ts'
import type { Session } from './session.ts'

/** What a budget is made of: what was read, and how the number moves with each cause of doubt. */
export interface Weighed {
  readonly trail: Trail
  readonly atTaken: number
  readonly problem: Problem
  readonly linear: FirstOrder | null
}

/** Inputs with their shares: Σ over causes of (component of the path)·(component of the cause), over u². SI numbers. */
export function budget(session: Session, work: Weighed, u: number): { inputs: readonly Input[]; interaction: number } {
  const homes = new Map<Path, Home>()
  for (const index of work.trail.slots) {
    const slot = session.values.slotAt(index)
    const known = homes.get(slot.home) ?? { slots: [], share: 0, explained: 0, moved: 0, sensitivity: null }
    homes.set(slot.home, { ...known, slots: [...known.slots, slot] })
  }
  for (const [influence, c] of work.linear?.components ?? []) {
    for (const [path, part] of split(session, work, homes, influence, c)) {
      const home = homes.get(path)!
      if (u > 0) home.share += (c * part) / (u * u)
      home.explained += part * (2 * c - part)
      const moved = movedBy(session, home.slots[0]!, influence)
      if (Math.abs(moved) <= Math.abs(home.moved)) continue
      home.moved = moved
      home.sensitivity = part / moved
    }
  }
  const straight = work.linear?.u ?? 0
  const inputs = [...homes].map(([path, home]) => inputAt(session, path, home, { u, straight }))
  inputs.sort((a, b) => Math.abs(b.share ?? 0) - Math.abs(a.share ?? 0) || (a.path < b.path ? -1 : 1))
  const explained = inputs.reduce((sum, { share }) => sum + (share ?? 0), 0)
  return { inputs, interaction: u > 0 ? 1 - explained : 0 }
}

interface Home {
  readonly slots: readonly Slot[]
  share: number
  /** What of the variance would go if it were known exactly: a cause it shares with others stays in those. */
  explained: number
  /** How far the cause that moves it most moves it, by one standard uncertainty [SI]. */
  moved: number
  sensitivity: number | null
}

/** Change of a value for one standard uncertainty of a cause. */
function movedBy({ values }: Session, { terms, quantity }: Slot, influence: number): number {
  const { u } = values.influence(influence)
  return terms.reduce(
    (sum, term) => (term.influence === influence ? sum + term.weight * u * (term.scale ? quantity!.value : 1) : sum),
    0,
  )
}

function inputAt(
  session: Session,
  path: Path,
  { slots, share, explained, sensitivity }: Home,
  { u, straight }: { readonly u: number; readonly straight: number },
): Input {
  const { terms, quantity } = slots[0]!
  const { value, basis, defaulted } = quantity!
  const variance = terms.reduce((sum, term) => {
    const weight = term.scale ? term.weight * value : term.weight
    return sum + (weight * session.values.influence(term.influence).u) ** 2
  }, 0)
  return {
    path,
    value,
    dimension: dimensionOf(session, path),
    uncertainty: variance > 0 ? Math.sqrt(variance) : null,
    basis,
    defaulted,
    share: u > 0 ? share : null,
    remaining: u > 0 && straight > 0 ? u * Math.sqrt(Math.max(0, 1 - explained / straight ** 2)) : null,
    sensitivity,
  }
}

function dimensionOf(session: Session, home: Path): string {
  const { facts } = session.record
  return (facts.get(home) ?? facts.get(asPath(home.replace(/\.[^/]*/g, ''))))?.dimension ?? ''
}

/** How much of an influence's component goes through each path. A private cause goes through one. */
function split(
  session: Session,
  work: Weighed,
  homes: ReadonlyMap<Path, Home>,
  influence: number,
  c: number,
): ReadonlyMap<Path, number> {
  const touched = [...homes].filter(([, { slots }]) =>
    slots.some(({ terms }) => terms.some((term) => term.influence === influence)),
  )
  if (touched.length === 1) return new Map([[touched[0]![0], c]])
  const moved = session.values.influence(influence)
  const parts = touched.map(([home]) => {
    const at = (sign: 1 | -1) => work.problem.evaluate(work.problem.part(moved, home, sign)) ?? work.atTaken
    return [home, (at(1) - at(-1)) / 2] as const
  })
  const sum = parts.reduce((total, [, part]) => total + part, 0)
  const left = (c - sum) / touched.length // what curvature keeps the parts from adding up to
  return new Map(parts.map(([home, part]) => [home, part + left]))
}

/** Whether a basis is nobody's observation. */
export const isWeak = (basis: Basis): boolean => basis === 'judged' || basis === 'assumed'

/** What is said of pieces as it is of what the sheet states once for all of them: paths without the names of pieces. */
export function asStated(text: string): string {
  return text.replace(/[a-z][\w-]*(?:[./][\w~-]+)+/gi, (path) => path.replace(/\.[^/]*/g, ''))
}

/** A question that was asked, in words for a person. */
export function statedWords({ reads }: Trail, key: string): string {
  const read = reads.get(`q:${key}`)
  return asStated(read?.kind === 'query' ? queryWords(read.query) : key)
}

/** How much of a figure stands on judged and assumed inputs, and the relations it stands on that are no better. */
export function weakShare(inputs: readonly Input[], trail: Trail): WeakShare {
  const weighed = inputs.filter(({ sensitivity }) => sensitivity !== null)
  const pull = (some: readonly Input[]): number =>
    some.reduce((sum, { value, sensitivity }) => sum + Math.abs(value * sensitivity!), 0)
  const all = pull(weighed)
  const varied = inputs.some(({ share }) => share !== null)
  return {
    ofVariance: varied ? inputs.reduce((sum, { basis, share }) => sum + (isWeak(basis) ? (share ?? 0) : 0), 0) : null,
    ofValue: all > 0 ? pull(weighed.filter(({ basis }) => isWeak(basis))) / all : null,
    relations: [
      ...new Set(
        [...trail.founds].flatMap(([key, { basis, paths }]) =>
          isWeak(basis) && paths.length > 0 ? [statedWords(trail, key)] : [],
        ),
      ),
    ],
  }
}
