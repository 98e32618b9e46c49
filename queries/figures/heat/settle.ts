/**
 * A heat network in which some things are not known. What is not known in one place must not blank what does not
 * depend on it: heat that has only one way out goes that way whatever its resistance.
 */
export interface OpenNetwork {
  readonly nodes: readonly string[]
  /** `conductance` undefined: not known. */
  readonly links: readonly {
    readonly id: string
    readonly a: string
    readonly b: string
    readonly conductance?: number
    /** Two ways through one plate, of which this is what passes from the first to the second. */
    readonly beside?: readonly [string, string]
  }[]
  readonly sinks: readonly {
    readonly id: string
    readonly sink: string
    readonly node: string
    readonly conductance?: number
    readonly temperature?: number
  }[]
  readonly coolings: readonly {
    readonly id: string
    readonly passage: string
    readonly node: string
    readonly conductance?: number
  }[]
  readonly sources: readonly OpenSource[]
  readonly passages: readonly OpenPassage[]
}

export interface OpenSource {
  readonly id: string
  readonly node: string
  readonly loss?: number
  readonly slope?: number
  readonly reference?: number
}

export interface OpenPassage {
  readonly id: string
  /** Heat capacity rate of what leaves each feed into it; undefined when its flow is not known. */
  readonly feeds?: readonly (
    | { readonly temperature: number; readonly heatCapacityRate: number }
    | { readonly passage: string; readonly heatCapacityRate: number }
  )[]
  readonly upstream: readonly string[]
}

/** Names of the unknown things that keep something from being known. */
export type Gaps = ReadonlySet<string>

export interface Settled {
  /** What keeps the temperature of a node or a passage from being known; absent when nothing does. */
  readonly temperatureGaps: ReadonlyMap<string, Gaps>
  /** The same of the heat through a link, sink or cooling, by its id, and of a node as a whole. */
  readonly heatGaps: ReadonlyMap<string, Gaps>
  /** Heat through unknown things that are the only way out: by id [W], from a to b for a link. */
  readonly pushed: ReadonlyMap<string, number>
  /**
   * Groups whose heats are known though their temperatures are not, by node; `at` is where all heat leaves, `through` what
   * it leaves by, `beyond` the node it comes to then: null where it ends.
   */
  readonly floating: readonly {
    readonly nodes: readonly string[]
    readonly at: string
    readonly through: string
    readonly beyond: string | null
  }[]
  /** Nodes with heat and no way out at all. */
  readonly stranded: readonly string[]
}

interface Group {
  readonly nodes: Set<string>
  state: 'open' | 'floating' | 'stranded'
  /** What is unknown and touches it. */
  readonly exits: Map<string, Exit>
  anchored: boolean
  readonly gaps: Set<string>
}

interface Exit {
  readonly id: string
  readonly node: string
  /** The node beyond, when the exit is a link. */
  readonly beyond: string | null
  readonly sign: 1 | -1
}

/** Sorts a network into what can be solved, what can be followed without temperatures, and what lacks. */
export function settle(network: OpenNetwork): Settled {
  const groups = grouped(network)
  const pushed = new Map<string, number>()
  pushOut(network, groups, pushed)
  const passageGaps = spreadGaps(network, groups)
  return answer(network, groups, pushed, passageGaps)
}

/** Name of the gap when the flow of a passage is not known. */
export const flowGap = (passage: string): string => `flow ${passage}`

function grouped(network: OpenNetwork): ReadonlyMap<string, Group> {
  const above = new Map(network.nodes.map((node) => [node, node]))
  const top = (node: string): string => {
    let one = node
    while (above.get(one) !== one) one = above.get(one)!
    return one
  }
  for (const { a, b, conductance } of network.links) if (conductance !== undefined) above.set(top(a), top(b))
  const byTop = new Map<string, Group>()
  const groups = new Map<string, Group>()
  for (const node of network.nodes) {
    const root = top(node)
    const group = byTop.get(root) ?? {
      nodes: new Set(),
      state: 'open',
      exits: new Map(),
      anchored: false,
      gaps: new Set(),
    }
    byTop.set(root, group)
    group.nodes.add(node)
    groups.set(node, group)
  }
  const flowing = new Set(network.passages.flatMap(({ id, feeds }) => (feeds ? [id] : [])))
  for (const { id, a, b, conductance } of network.links) {
    if (conductance !== undefined) continue
    groups.get(a)!.exits.set(id, { id, node: a, beyond: b, sign: 1 })
    if (groups.get(a) !== groups.get(b)) groups.get(b)!.exits.set(id, { id, node: b, beyond: a, sign: -1 })
  }
  for (const { id, node, conductance, temperature } of network.sinks) {
    if (conductance !== undefined && temperature !== undefined) groups.get(node)!.anchored = true
    else groups.get(node)!.exits.set(id, { id, node, beyond: null, sign: 1 })
  }
  for (const { id, node, passage, conductance } of network.coolings) {
    if (conductance !== undefined && flowing.has(passage)) groups.get(node)!.anchored = true
    else groups.get(node)!.exits.set(id, { id, node, beyond: null, sign: 1 })
  }
  for (const { id, node, loss } of network.sources) if (loss === undefined) groups.get(node)!.gaps.add(id)
  return groups
}

/** Groups with one unknown way out, and no other, give all their heat to it; again until nothing changes. */
function pushOut(network: OpenNetwork, groups: ReadonlyMap<string, Group>, pushed: Map<string, number>): void {
  const all = [...new Set(groups.values())]
  const gain = new Map(all.map((group) => [group, 0]))
  const depends = new Set<Group>()
  for (const { node, loss, slope } of network.sources) {
    const group = groups.get(node)!
    gain.set(group, gain.get(group)! + (loss ?? 0))
    if (slope) depends.add(group)
  }
  for (let moved = true; moved; ) {
    moved = false
    for (const group of all) {
      // A loss that depends on temperature is not known where no temperature is.
      if (group.state !== 'open' || group.anchored || group.exits.size !== 1 || depends.has(group)) continue
      const [exit] = group.exits.values()
      const beyond = exit!.beyond === null ? null : groups.get(exit!.beyond)!
      if (beyond === group || group.gaps.size > 0) continue
      group.state = 'floating'
      moved = true
      pushed.set(exit!.id, exit!.sign * gain.get(group)!)
      if (beyond) {
        beyond.exits.delete(exit!.id)
        gain.set(beyond, gain.get(beyond)! + gain.get(group)!)
      }
    }
  }
  for (const group of all) {
    if (group.state === 'open' && !group.anchored && group.exits.size === 0) group.state = 'stranded'
  }
}

/** Lacks spread through a group, from it into the coolant, with the coolant, and from it into what it cools. */
function spreadGaps(network: OpenNetwork, groups: ReadonlyMap<string, Group>): ReadonlyMap<string, Set<string>> {
  const passages = new Map(network.passages.map(({ id, feeds }) => [id, new Set(feeds ? [] : [flowGap(id)])]))
  for (const group of new Set(groups.values())) {
    if (group.state === 'open') for (const id of group.exits.keys()) group.gaps.add(id)
  }
  const add = (to: Set<string>, from: Iterable<string>): boolean => {
    const before = to.size
    for (const one of from) to.add(one)
    return to.size > before
  }
  for (let moved = true; moved; ) {
    moved = false
    for (const { id, a, b, conductance } of network.links) {
      // Beyond an unknown way lies heat that is not known either, unless it was pushed through.
      if (conductance !== undefined) continue
      const [from, to] = [groups.get(a)!, groups.get(b)!]
      if (from.state === 'open' && to.state === 'open' && from.exits.has(id)) {
        moved = add(from.gaps, to.gaps) || moved
        moved = add(to.gaps, from.gaps) || moved
      }
    }
    for (const { passage, node, conductance } of network.coolings) {
      const group = groups.get(node)!
      if (!passages.has(passage)) continue
      moved = add(passages.get(passage)!, group.gaps) || moved
      if (conductance !== undefined && group.state === 'open') moved = add(group.gaps, passages.get(passage)!) || moved
    }
    for (const { id, upstream } of network.passages) {
      for (const one of upstream) moved = add(passages.get(id)!, passages.get(one) ?? []) || moved
    }
  }
  return passages
}

function answer(
  network: OpenNetwork,
  groups: ReadonlyMap<string, Group>,
  pushed: ReadonlyMap<string, number>,
  passageGaps: ReadonlyMap<string, Set<string>>,
): Settled {
  const temperatureGaps = new Map<string, Gaps>()
  const heatGaps = new Map<string, Gaps>()
  for (const [node, group] of groups) {
    if (group.gaps.size > 0) heatGaps.set(node, group.gaps)
    if (group.state === 'floating') temperatureGaps.set(node, new Set([...group.gaps, ...group.exits.keys()]))
    else if (group.gaps.size > 0) temperatureGaps.set(node, group.gaps)
  }
  for (const [passage, gaps] of passageGaps) if (gaps.size > 0) temperatureGaps.set(passage, gaps)
  const ends: readonly (readonly [id: string, ends: readonly string[]])[] = [
    ...network.links.map(({ id, a, b }) => [id, [a, b]] as const),
    ...network.sinks.map(({ id, node }) => [id, [node]] as const),
    ...network.coolings.map(({ id, node }) => [id, [node]] as const),
  ]
  for (const [id, nodes] of ends) {
    if (pushed.has(id)) continue
    const gaps = new Set(nodes.flatMap((node) => [...(heatGaps.get(node) ?? [])]))
    if (gaps.size > 0) heatGaps.set(id, gaps)
  }
  const all = [...new Set(groups.values())]
  return {
    temperatureGaps,
    heatGaps,
    pushed,
    floating: all.flatMap(({ state, nodes, exits }) => {
      if (state !== 'floating') return []
      const { id, node, beyond } = [...exits.values()][0]!
      return [{ nodes: [...nodes], at: node, through: id, beyond }]
    }),
    stranded: all.flatMap(({ state, nodes }) => (state === 'stranded' ? [...nodes] : [])),
  }
}
