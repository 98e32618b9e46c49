import { DomainError, requireNonNegative, requirePositive } from './method.ts'
import type { CoolantReference, ThermalNetwork, ThermalPassage, ThermalSource } from './network-types.ts'

const METHOD = 'solveNetwork'

/** A network with its names resolved to numbers; unknowns are node temperatures, then passage outlets, above `base`. */
export type Prepared = {
  readonly network: ThermalNetwork
  readonly index: ReadonlyMap<string, number>
  readonly outlet: ReadonlyMap<string, number>
  readonly rates: readonly number[]
  readonly reference: CoolantReference
  readonly base: number
}

/** Checks a network and resolves its names. @throws {DomainError} as solveNetwork */
export function prepare(network: ThermalNetwork): Prepared {
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
  for (const { a, b, conductance, coupled } of links) {
    known(a)
    known(b)
    if (!coupled) requireNonNegative(METHOD, `conductance of ${a}–${b}`, conductance)
    else if (!Number.isFinite(conductance))
      throw new DomainError(METHOD, `conductance of ${a}–${b}`, conductance, 'a finite number')
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
    ] as const) {
      const known = beside.get(from)
      if (known) known.push(to)
      else beside.set(from, [to])
    }
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
