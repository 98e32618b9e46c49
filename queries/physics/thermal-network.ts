import { DomainError, requireNonNegative, requirePositive } from './method.ts'
import type {
  CoolantReference,
  NetworkState,
  PassageState,
  ThermalNetwork,
  ThermalPassage,
  ThermalSource,
} from './network-types.ts'
import { factorise, type SparseFactors } from './sparse-solve.ts'

const METHOD = 'solveNetwork'

/** A network with its names resolved to numbers; unknowns are node temperatures, then passage outlets, above `base`. */
type Prepared = {
  readonly network: ThermalNetwork
  readonly index: ReadonlyMap<string, number>
  readonly outlet: ReadonlyMap<string, number>
  readonly rates: readonly number[]
  readonly reference: CoolantReference
  readonly base: number
}

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
    const fresh = passage.feeds.flatMap((feed) =>
      'passage' in feed ? [[outlet.get(feed.passage)!, feed.heatCapacityRate] as const] : [],
    )
    // Adds factor × T_local to a row: what comes from other passages is an unknown, fresh coolant is on the right side.
    const addLocal = (row: number, factor: number) => {
      const atInlet = reference === 'inlet' ? factor : factor / 2
      if (reference === 'mean') add(row, out, factor / 2)
      for (const [upstream, rate] of fresh) add(row, upstream, (atInlet * rate) / rates[p]!)
    }
    add(out, out, rates[p]!)
    for (const [upstream, rate] of fresh) add(out, upstream, -rate)
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

function prepare(network: ThermalNetwork): Prepared {
  const { nodes, links = [], sinks = [], sources = [], passages = [], coolantReference = 'mean' } = network
  const index = new Map(nodes.map((node, i) => [node, i]))
  const outlet = new Map(passages.map(({ id }, p) => [id, nodes.length + p]))
  if (index.size < nodes.length) throw new DomainError(METHOD, 'nodes', nodes.join(', '), 'without repetition')
  if (outlet.size < passages.length)
    throw new DomainError(METHOD, 'passages', [...outlet.keys()].join(', '), 'without repetition')
  if (new Set(sinks.map(({ id }) => id)).size < sinks.length)
    throw new DomainError(METHOD, 'sinks', 'an id twice', 'without repetition')
  const known = (node: string) => {
    if (!index.has(node)) throw new DomainError(METHOD, 'node', node, `one of ${nodes.join(', ')}`)
  }
  for (const { a, b, conductance } of links) {
    known(a)
    known(b)
    requireNonNegative(METHOD, `conductance of ${a}–${b}`, conductance)
  }
  for (const { id, node, temperature, conductance } of sinks) {
    known(node)
    requirePositive(METHOD, `temperature of ${id}`, temperature)
    requireNonNegative(METHOD, `conductance of ${id}`, conductance)
  }
  for (const source of sources) {
    known(source.node)
    checkSource(source)
  }
  const rates = passages.map((passage) => checkPassage(passage, outlet, known))
  checkDraw(passages, rates)
  checkWays(network, index)
  const fresh = passages.flatMap(({ feeds }) => feeds.flatMap((feed) => ('passage' in feed ? [] : [feed.temperature])))
  const fixed = [...sinks.map(({ temperature }) => temperature), ...fresh]
  // Everything is solved as a rise above the coldest boundary, so that differences keep their digits.
  const base = fixed.reduce((least, one) => Math.min(least, one), fixed[0]!)
  return { network, index, outlet, rates, reference: coolantReference, base }
}

function checkSource(source: ThermalSource): void {
  if (!Number.isFinite(source.loss))
    throw new DomainError(METHOD, `loss of ${source.node}`, source.loss, 'a finite number')
  if (source.slope !== undefined) {
    if (!Number.isFinite(source.slope))
      throw new DomainError(METHOD, `slope of ${source.node}`, source.slope, 'a finite number')
    requirePositive(METHOD, `reference of ${source.node}`, source.reference ?? Number.NaN)
  }
  if (source.leak === undefined) return
  requireNonNegative(METHOD, `leak of ${source.node}`, source.leak)
  requirePositive(METHOD, `leakReference of ${source.node}`, source.leakReference ?? Number.NaN)
  requirePositive(METHOD, `leakScale of ${source.node}`, source.leakScale ?? Number.NaN)
}

function checkPassage(
  passage: ThermalPassage,
  outlet: ReadonlyMap<string, number>,
  known: (node: string) => void,
): number {
  for (const feed of passage.feeds) {
    requirePositive(METHOD, `heatCapacityRate into ${passage.id}`, feed.heatCapacityRate)
    if (!('passage' in feed)) requirePositive(METHOD, `temperature into ${passage.id}`, feed.temperature)
    else if (!outlet.has(feed.passage))
      throw new DomainError(METHOD, 'passage', feed.passage, `one of ${[...outlet.keys()].join(', ')}`)
  }
  for (const { node, conductance } of passage.cools) {
    known(node)
    requireNonNegative(METHOD, `conductance of ${passage.id}–${node}`, conductance)
  }
  const rate = passage.feeds.reduce((sum, feed) => sum + feed.heatCapacityRate, 0)
  requirePositive(METHOD, `heatCapacityRate of ${passage.id}`, rate)
  return rate
}

/** No more may be drawn from a passage than flows through it, or heat would come from nowhere. */
function checkDraw(passages: readonly ThermalPassage[], rates: readonly number[]): void {
  const drawn = new Map<string, number>()
  for (const { feeds } of passages) {
    for (const feed of feeds) {
      if ('passage' in feed) drawn.set(feed.passage, (drawn.get(feed.passage) ?? 0) + feed.heatCapacityRate)
    }
  }
  for (const [p, { id }] of passages.entries()) {
    const taken = drawn.get(id) ?? 0
    if (taken > rates[p]! * (1 + 1e-9))
      throw new DomainError(METHOD, `coolant drawn from ${id}`, taken, `at most ${rates[p]} W/K`)
  }
}

/** Every node needs a way for its heat: to a sink, or to a passage that fresh coolant reaches. */
function checkWays(
  { nodes, links = [], sinks = [], passages = [] }: ThermalNetwork,
  index: ReadonlyMap<string, number>,
): void {
  const beside = new Map<string, string[]>()
  const join = (a: string, b: string) => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const)
      beside.set(from, [...(beside.get(from) ?? []), to])
  }
  const coolant = (id: string) => `coolant ${id}`
  for (const { a, b, conductance } of links) if (conductance > 0) join(`node ${a}`, `node ${b}`)
  for (const { node, conductance } of sinks) if (conductance > 0) join(`node ${node}`, 'out')
  for (const { id, feeds, cools } of passages) {
    for (const { node, conductance } of cools) if (conductance > 0) join(`node ${node}`, coolant(id))
    for (const feed of feeds) join(coolant(id), 'passage' in feed ? coolant(feed.passage) : 'out')
  }
  const reached = new Set(['out'])
  const queue = ['out']
  for (let place = queue.pop(); place !== undefined; place = queue.pop()) {
    for (const next of beside.get(place) ?? []) {
      if (reached.has(next)) continue
      reached.add(next)
      queue.push(next)
    }
  }
  for (const node of nodes.filter((one) => index.has(one) && !reached.has(`node ${one}`))) {
    throw new DomainError(METHOD, 'node', node, 'joined to a sink or a passage, or its heat has nowhere to go')
  }
}
