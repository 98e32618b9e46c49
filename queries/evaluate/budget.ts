import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Trail } from '../../graph/trail.ts'
import type { FirstOrder, Problem } from './propagate.ts'
import type { Input } from './result.ts'
import type { Session } from './session.ts'

/** What a budget is made of: what was read, and how the number moves with each cause of doubt. */
export interface Weighed {
  readonly trail: Trail
  readonly atTaken: number
  readonly problem: Problem
  readonly linear: FirstOrder | null
}

/** Inputs with their shares: Σ over causes of (component of the path)·(component of the cause), over u². */
export function budget(session: Session, work: Weighed, u: number): { inputs: readonly Input[]; interaction: number } {
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
  work: Weighed,
  homes: ReadonlyMap<Path, readonly number[]>,
  influence: number,
  c: number,
): ReadonlyMap<Path, number> {
  const touched = [...homes].filter(([, slots]) =>
    slots.some((slot) => session.values.slotAt(slot).terms.some((term) => term.influence === influence)),
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
