import type { DuctDropInputs } from './duct.ts'
import { ductPressureDrop } from './duct.ts'
import { DomainError, requireNonNegative, requirePositive } from './method.ts'
import { findRoot } from './root.ts'

/**
 * One passage of a coolant network: its pressure drop [Pa] at a flow [m³/s]. The drop must be 0 without flow and grow
 * with it, without end; any law will do (a duct, a measured curve, a fan-cooled field).
 */
export type PassageDrop = {
  readonly id: string
  readonly drop: (flow: number) => number
  /** The inverse, where it is known in closed form; found by bracketing otherwise. */
  readonly flowAt?: (pressureDrop: number) => number
}

/** Passages in series and parallel, nested as deep as wanted. */
export type CoolantTree =
  | PassageDrop
  | { readonly series: readonly CoolantTree[] }
  | { readonly parallel: readonly CoolantTree[] }

/** Nested lists whose levels alternate: series, parallel, series, … */
export type Nested<T> = readonly (T | Nested<T>)[]

/** Turns a sheet's nested list into a tree; the outermost level is in series. @throws {DomainError} on an empty list */
export function coolantTree(sequence: Nested<PassageDrop>, level: 'series' | 'parallel' = 'series'): CoolantTree {
  if (sequence.length === 0) throw new DomainError('coolantTree', 'sequence', '[]', 'a list with at least one passage')
  const inner = level === 'series' ? 'parallel' : 'series'
  const parts = sequence.map((part) => (Array.isArray(part) ? coolantTree(part, inner) : (part as PassageDrop)))
  return level === 'series' ? { series: parts } : { parallel: parts }
}

/** A passage that follows Δp = R Q^n, R > 0 [Pa/(m³/s)^n], n > 0 (1 laminar, 1.75 Blasius, 2 fittings). */
export function powerLawPassage({
  id,
  factor,
  exponent,
}: {
  id: string
  factor: number
  exponent: number
}): PassageDrop {
  requirePositive('powerLawPassage', 'factor', factor)
  requirePositive('powerLawPassage', 'exponent', exponent)
  return {
    id,
    drop: (flow) => factor * flow ** exponent,
    flowAt: (pressureDrop) => (pressureDrop / factor) ** (1 / exponent),
  }
}

/** A passage of equal ducts, by {@link ductPressureDrop}. */
export function ductPassage({ id, ...duct }: Omit<DuctDropInputs, 'flow'> & { id: string }): PassageDrop {
  return { id, drop: (flow) => ductPressureDrop({ ...duct, flow }).pressureDrop }
}

export type FlowSplit = {
  readonly pressureDrop: number
  /** Flow through each passage [m³/s], by id. */
  readonly flows: Readonly<Record<string, number>>
  /** Pressure drop of each passage [Pa], by id. */
  readonly drops: Readonly<Record<string, number>>
}

/**
 * How a flow divides in a network of passages: drops add in series, branches in parallel have one drop and share the
 * flow. Solved on the pressure drop of each parallel group by bracketing, so that a law that bends in transition
 * cannot make it hunt. Exact to about 1e-12 of the flow.
 *
 * @param tree the network
 * @param flow through it [m³/s], ≥ 0
 * @throws {DomainError} on a negative flow, an id used twice, or a passage whose drop does not grow with flow
 *
 * @example splitFlow({ tree: { parallel: [powerLawPassage({ id: 'a', factor: 1e12, exponent: 2 }),
 *   powerLawPassage({ id: 'b', factor: 4e12, exponent: 2 })] }, flow: 3e-4 }).flows // a: 2e-4, b: 1e-4
 */
export function splitFlow({ tree, flow }: { tree: CoolantTree; flow: number }): FlowSplit {
  requireNonNegative('splitFlow', 'flow', flow)
  const flows: Record<string, number> = {}
  const drops: Record<string, number> = {}
  const visit = (part: CoolantTree, through: number): number => {
    if ('series' in part) return part.series.reduce((sum, one) => sum + visit(one, through), 0)
    if ('parallel' in part) return visitParallel(part.parallel, through)
    if (part.id in flows) throw new DomainError('splitFlow', 'id', part.id, 'used once')
    flows[part.id] = through
    drops[part.id] = dropOf(part, through)
    return drops[part.id]!
  }
  const visitParallel = (branches: readonly CoolantTree[], through: number): number => {
    const quick = newtonShares(branches, through)
    const pressureDrop = quick ? quick.pressureDrop : bracketedDrop(branches, through)
    const shares = quick ? quick.shares : branches.map((branch) => flowAt(branch, pressureDrop, through))
    // What the root leaves over (1e-14 of the flow) is spread, so that flows add exactly.
    const total = shares.reduce((sum, share) => sum + share, 0)
    for (const [i, branch] of branches.entries()) visit(branch, total > 0 ? (shares[i]! / total) * through : 0)
    return pressureDrop
  }
  const pressureDrop = visit(tree, flow)
  return { pressureDrop, flows, drops }
}

/** Pressure drop of a network at a flow [Pa]. */
export function treeDrop(tree: CoolantTree, flow: number): number {
  if ('series' in tree) return tree.series.reduce((sum, part) => sum + treeDrop(part, flow), 0)
  if ('parallel' in tree) return parallelDrop(tree.parallel, flow)
  return dropOf(tree, flow)
}

function dropOf(passage: PassageDrop, flow: number): number {
  const drop = flow === 0 ? 0 : passage.drop(flow)
  if (!(drop >= 0)) throw new DomainError('splitFlow', `drop of ${passage.id}`, drop, '≥ 0 Pa')
  return drop
}

function parallelDrop(branches: readonly CoolantTree[], flow: number): number {
  return newtonShares(branches, flow)?.pressureDrop ?? bracketedDrop(branches, flow)
}

/**
 * Newton steps on the flows of branches side by side: each branch a straight line about its flow, one drop for all.
 * Smooth laws are there in four or five steps; whatever is not is left to bracketing.
 */
function newtonShares(
  branches: readonly CoolantTree[],
  flow: number,
): { pressureDrop: number; shares: number[] } | undefined {
  if (flow === 0 || branches.length === 0) return undefined
  let shares = branches.map(() => flow / branches.length)
  for (let step = 0; step < 12; step++) {
    const drops = branches.map((branch, i) => treeDrop(branch, shares[i]!))
    const slopes = branches.map(
      (branch, i) => (treeDrop(branch, shares[i]! * (1 + NUDGE)) - drops[i]!) / (shares[i]! * NUDGE),
    )
    if (!slopes.every((slope) => slope > 0)) return undefined
    const ease = slopes.reduce((sum, slope) => sum + 1 / slope, 0)
    const gap = shares.reduce((sum, share, i) => sum + drops[i]! / slopes[i]! - share, flow)
    const pressureDrop = gap / ease
    const next = shares.map((share, i) => share + (pressureDrop - drops[i]!) / slopes[i]!)
    if (!next.every((share) => share > 0)) return undefined
    const moved = Math.max(...next.map((share, i) => Math.abs(share - shares[i]!)))
    shares = next
    if (moved <= 1e-13 * flow) return { pressureDrop, shares }
  }
  return undefined
}

const NUDGE = 1e-6

function bracketedDrop(branches: readonly CoolantTree[], flow: number): number {
  if (branches.length === 0) throw new DomainError('splitFlow', 'parallel', '[]', 'at least one branch')
  if (flow === 0) return 0
  // The drop lies below that of the easiest branch taking all, and above that of the easiest taking an even share.
  const high = Math.min(...branches.map((branch) => treeDrop(branch, flow)))
  if (branches.length === 1) return high
  if (high === 0)
    throw new DomainError('splitFlow', 'drop of a parallel branch', high, '> 0 Pa, or it would take all the flow')
  const low = Math.min(...branches.map((branch) => treeDrop(branch, flow / branches.length)))
  const excess = (drop: number) => branches.reduce((sum, branch) => sum + flowAt(branch, drop, flow), -flow)
  const atHigh = excess(high)
  if (atHigh <= 0) return high
  return excess(low) >= 0 ? low : findRoot(excess, { low, high })
}

/** Flow at which a network drops `pressureDrop`, at most `most`. */
function flowAt(tree: CoolantTree, pressureDrop: number, most: number): number {
  if ('drop' in tree && tree.flowAt) return tree.flowAt(pressureDrop)
  if ('parallel' in tree) return tree.parallel.reduce((sum, branch) => sum + flowAt(branch, pressureDrop, most), 0)
  if (pressureDrop <= 0) return 0
  const excess = (flow: number) => treeDrop(tree, flow) - pressureDrop
  // No branch drops less than the group when it takes all, so that only rounding can leave the root above `most`.
  return excess(most) <= 0 ? most : findRoot(excess, { low: 0, high: most })
}

export type StageTemperatures = Readonly<Record<string, { readonly inlet: number; readonly outlet: number }>>

export type TreeTemperatureInputs = {
  tree: CoolantTree
  flows: Readonly<Record<string, number>>
  heats: Readonly<Record<string, number>>
  inletTemperature: number
  volumetricHeatCapacity: number
}

/**
 * Coolant temperatures through a network whose flows are known: each passage takes up its heat, T_out = T_in + P/(ρ c_p Q);
 * branches start from one temperature and mix by flow. A passage without heat passes its temperature on.
 *
 * @param flows                  [m³/s] by passage, from {@link splitFlow}
 * @param heats                  into each passage [W], by id; left out is none
 * @param inletTemperature       [K], > 0
 * @param volumetricHeatCapacity ρ c_p [J/(m³.K)], > 0
 * @throws {DomainError} on heat for an unknown passage, or heat into a passage without flow
 */
export function treeTemperatures(inputs: TreeTemperatureInputs): {
  stages: StageTemperatures
  outletTemperature: number
} {
  const { tree, flows, heats, inletTemperature, volumetricHeatCapacity } = inputs
  requirePositive('treeTemperatures', 'inletTemperature', inletTemperature)
  requirePositive('treeTemperatures', 'volumetricHeatCapacity', volumetricHeatCapacity)
  for (const id of Object.keys(heats)) {
    if (!(id in flows))
      throw new DomainError('treeTemperatures', 'heats', id, `one of ${Object.keys(flows).join(', ')}`)
  }
  const stages: Record<string, { inlet: number; outlet: number }> = {}
  const visit = (part: CoolantTree, inlet: number): { outlet: number; flow: number } => {
    if ('series' in part) {
      return part.series.reduce((before, one) => visit(one, before.outlet), { outlet: inlet, flow: 0 })
    }
    if ('parallel' in part) {
      const ends = part.parallel.map((branch) => visit(branch, inlet))
      const flow = ends.reduce((sum, end) => sum + end.flow, 0)
      if (flow === 0) return { outlet: inlet, flow }
      return { outlet: ends.reduce((sum, end) => sum + end.outlet * (end.flow / flow), 0), flow }
    }
    const [heat, flow] = [heats[part.id] ?? 0, flows[part.id]!]
    if (heat !== 0 && !(flow > 0))
      throw new DomainError('treeTemperatures', `flow of ${part.id}`, flow, '> 0, as it takes up heat')
    const outlet = heat === 0 ? inlet : inlet + heat / (volumetricHeatCapacity * flow)
    stages[part.id] = { inlet, outlet }
    return { outlet, flow }
  }
  return { outletTemperature: visit(tree, inletTemperature).outlet, stages }
}
