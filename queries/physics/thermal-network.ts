import { type Prepared, prepare } from './network-check.ts'
import type { NetworkState, PassageState, ThermalNetwork, ThermalPassage, ThermalSource } from './network-types.ts'
import { factorise, type SparseFactors } from './sparse-solve.ts'

/**
 * Steady temperatures of a network of nodes, links, sinks, sources and coolant passages, in one linear solve; a loss that
 * depends on temperature is solved with it, linear parts exactly, exponential parts by Newton from below, which ends at
 * the lower, stable root.
 *
 *     node:     Σ g (T − T_other) + Σ g (T − T_sink) + Σ g (T − T_local) = P(T)
 *     passage:  C (T_out − T_in) = Σ g (T − T_local) + heat,  T_local = T_in or (T_in + T_out)/2
 *
 * Heat may flow from a warm coolant into a colder part. Thermal runaway is answered as `stable: false` with its loop
 * gain, the spectral radius of (conductances)⁻¹ × (slopes of the losses), and no temperatures.
 *
 * @param network conductances [W/K], ≥ 0; temperatures [K], > 0; losses [W]; heat capacity rates [W/K], > 0
 * @throws {DomainError} on an unknown or repeated name, values outside of the above, a node with no way to a sink or
 *   passage, or more coolant drawn from a passage than flows through it
 *
 * @example solveNetwork({ nodes: ['die'], sources: [{ node: 'die', loss: 100 }],
 *   sinks: [{ id: 'air', node: 'die', temperature: 300, conductance: 2 }] }) // stable, die 350 K
 */
export function solveNetwork(network: ThermalNetwork): NetworkState {
  const prepared = prepare(network)
  const sources = network.sources ?? []
  const size = network.nodes.length + (network.passages?.length ?? 0)
  let rises: Float64Array | undefined
  let loopGain = 0
  for (let step = 0; step < 100; step++) {
    // The first tangent leaves exponential parts out: a place surely below the lower root.
    const lines = sources.map((source) => tangent(source, rises?.[prepared.index.get(source.node)!], prepared.base))
    const slopes = new Float64Array(size)
    for (const [i, source] of sources.entries()) slopes[prepared.index.get(source.node)!]! += lines[i]!.slope
    loopGain = gainOf(prepared, slopes)
    if (loopGain >= 1) return { stable: false, loopGain }
    const next = factorise(matrixOf(prepared, slopes)).solve(rightSide(prepared, lines))
    const moved = rises
      ? next.reduce((most, value, i) => Math.max(most, Math.abs(value - rises![i]!)), 0)
      : Number.POSITIVE_INFINITY
    rises = next
    if (!sources.some(({ leak }) => leak) || moved < 1e-11 * Math.max(1, ...next.map(Math.abs))) break
  }
  return stateOf(prepared, rises!, loopGain)
}

/** Loss of a source as a straight line around a rise: P ≈ at + slope × rise [W], [W/K]. */
function tangent(source: ThermalSource, rise: number | undefined, base: number): { at: number; slope: number } {
  const linear = source.loss * (source.slope ?? 0)
  const at = source.loss + linear * (base - (source.reference ?? base))
  if (!source.leak || rise === undefined) return { at, slope: linear }
  const leak = leakOf(source, base + rise)
  const leakSlope = leak / source.leakScale!
  return { at: at + leak - leakSlope * rise, slope: linear + leakSlope }
}

function leakOf({ leak = 0, leakReference, leakScale }: ThermalSource, temperature: number): number {
  return leak === 0 ? 0 : leak * Math.exp((temperature - leakReference!) / leakScale!)
}

/** Loss of a source at a temperature [W]. */
function lossAt(source: ThermalSource, temperature: number): number {
  const linear = source.slope ? source.loss * source.slope * (temperature - source.reference!) : 0
  return source.loss + linear + leakOf(source, temperature)
}

function matrixOf({ network, index, outlet, rates, reference }: Prepared, slopes: Float64Array): Map<number, number>[] {
  const rows = Array.from({ length: slopes.length }, () => new Map<number, number>())
  const add = (i: number, j: number, value: number) => {
    if (value !== 0) rows[i]!.set(j, (rows[i]!.get(j) ?? 0) + value)
  }
  for (const { a, b, conductance } of network.links ?? []) {
    const [i, j] = [index.get(a)!, index.get(b)!]
    if (i === j) continue
    for (const [from, to] of [
      [i, j],
      [j, i],
    ] as const) {
      add(from, from, conductance)
      add(from, to, -conductance)
    }
  }
  for (const { node, conductance } of network.sinks ?? []) add(index.get(node)!, index.get(node)!, conductance)
  for (const [p, passage] of (network.passages ?? []).entries()) {
    const out = outlet.get(passage.id)!
    const upstreams = passage.feeds.flatMap((feed) =>
      'passage' in feed ? [[outlet.get(feed.passage)!, feed.heatCapacityRate] as const] : [],
    )
    // Adds factor × T_local to a row: what comes from other passages is an unknown, fresh coolant is on the right side.
    const addLocal = (row: number, factor: number) => {
      const atInlet = reference === 'inlet' ? factor : factor / 2
      if (reference === 'mean') add(row, out, factor / 2)
      for (const [upstream, rate] of upstreams) add(row, upstream, (atInlet * rate) / rates[p]!)
    }
    add(out, out, rates[p]!)
    for (const [upstream, rate] of upstreams) add(out, upstream, -rate)
    for (const { node, conductance } of passage.cools) {
      const i = index.get(node)!
      add(i, i, conductance)
      addLocal(i, -conductance)
      add(out, i, -conductance)
      addLocal(out, conductance)
    }
  }
  for (const [i, slope] of slopes.entries()) add(i, i, -slope)
  return rows
}

function rightSide(prepared: Prepared, lines: readonly { at: number }[]): Float64Array {
  const { network, index, outlet, rates, reference, base } = prepared
  const right = new Float64Array(network.nodes.length + rates.length)
  for (const [i, { node }] of (network.sources ?? []).entries()) right[index.get(node)!]! += lines[i]!.at
  for (const { node, temperature, conductance } of network.sinks ?? []) {
    right[index.get(node)!]! += conductance * (temperature - base)
  }
  for (const [p, passage] of (network.passages ?? []).entries()) {
    const out = outlet.get(passage.id)!
    const fresh = freshHeat(passage, base)
    const local = (fresh / rates[p]!) * (reference === 'inlet' ? 1 : 0.5)
    right[out]! += fresh + (passage.heat ?? 0)
    for (const { node, conductance } of passage.cools) {
      right[index.get(node)!]! += conductance * local
      right[out]! -= conductance * local
    }
  }
  return right
}

/** Σ C (T − base) of the fresh coolant that enters a passage [W]. */
function freshHeat({ feeds }: ThermalPassage, base: number): number {
  return feeds.reduce(
    (sum, feed) => sum + ('passage' in feed ? 0 : feed.heatCapacityRate * (feed.temperature - base)),
    0,
  )
}

/**
 * Spectral radius of M⁻¹ × rising slopes, M with the falling slopes inside (they only help): power iteration from ones.
 */
function gainOf(prepared: Prepared, slopes: Float64Array): number {
  if (!slopes.some((slope) => slope > 0)) return 0
  const rising = slopes.map((slope) => Math.max(slope, 0))
  const factors: SparseFactors = factorise(
    matrixOf(
      prepared,
      slopes.map((slope) => Math.min(slope, 0)),
    ),
  )
  let vector = rising.map((slope) => (slope > 0 ? 1 : 0))
  let gain = 0
  for (let step = 0; step < 500; step++) {
    const next = factors
      .solve(vector.map((value, i) => value * rising[i]!))
      .map((value, i) => (rising[i]! > 0 ? value : 0))
    const before = gain
    gain = Math.max(...next.map(Math.abs))
    if (gain === 0) return 0
    vector = next.map((value) => value / gain)
    if (Math.abs(gain - before) < 1e-12 * gain) break
  }
  return gain
}

function stateOf(prepared: Prepared, rises: Float64Array, loopGain: number): NetworkState {
  const { network, index, base } = prepared
  const temperatures = Object.fromEntries(network.nodes.map((node, i) => [node, base + rises[i]!]))
  const sinkHeats: Record<string, number> = {}
  for (const { id, node, temperature, conductance } of network.sinks ?? []) {
    sinkHeats[id] = conductance * (rises[index.get(node)!]! - (temperature - base))
  }
  const losses: Record<string, number> = {}
  for (const source of network.sources ?? []) {
    losses[source.node] = (losses[source.node] ?? 0) + lossAt(source, temperatures[source.node]!)
  }
  const passages = passageStates(prepared, rises)
  return {
    stable: true,
    temperatures,
    passages,
    sinkHeats,
    losses,
    loopGain,
    ledger: ledgerOf({ network, losses, sinkHeats, passages }),
  }
}

function passageStates(
  { network, index, outlet, rates, reference, base }: Prepared,
  rises: Float64Array,
): Record<string, PassageState> {
  const states: Record<string, PassageState> = {}
  for (const [p, passage] of (network.passages ?? []).entries()) {
    const drawn = passage.feeds.reduce(
      (sum, feed) => sum + ('passage' in feed ? feed.heatCapacityRate * rises[outlet.get(feed.passage)!]! : 0),
      freshHeat(passage, base),
    )
    const [inlet, out] = [drawn / rates[p]!, rises[outlet.get(passage.id)!]!]
    const local = reference === 'inlet' ? inlet : (inlet + out) / 2
    const from = passage.cools.map(({ node, conductance }) => conductance * (rises[index.get(node)!]! - local))
    states[passage.id] = {
      inlet: base + inlet,
      outlet: base + out,
      local: base + local,
      heat: rates[p]! * (out - inlet),
      from,
    }
  }
  return states
}

function ledgerOf(parts: {
  network: ThermalNetwork
  losses: Readonly<Record<string, number>>
  sinkHeats: Readonly<Record<string, number>>
  passages: Readonly<Record<string, PassageState>>
}) {
  const sum = (heats: readonly number[]) => heats.reduce((total, heat) => total + heat, 0)
  const direct = (parts.network.passages ?? []).map(({ heat = 0 }) => heat)
  const [sources, sinks] = [[...Object.values(parts.losses), ...direct], Object.values(parts.sinkHeats)]
  const coolant = Object.values(parts.passages).map(({ heat }) => heat)
  const scale = sum([...sources, ...sinks, ...coolant].map(Math.abs))
  const left = sum(sources) - sum(sinks) - sum(coolant)
  return {
    sources: sum(sources),
    sinks: sum(sinks),
    coolant: sum(coolant),
    unaccounted: scale === 0 ? 0 : left / scale,
  }
}
