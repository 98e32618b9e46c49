import type { TeardownGraph } from './kinds.ts'

/** A record that contradicts itself: what, where, and what mends it. */
export class InvariantError extends Error {
  readonly at: string
  readonly mend: string

  constructor(what: string, at: string, mend: string) {
    super(what)
    this.name = 'InvariantError'
    this.at = at
    this.mend = mend
  }
}

/** What holds of every graph. One function each; all are run whenever a graph is built. */
const INVARIANTS: readonly ((graph: TeardownGraph) => void)[] = [
  containmentIsATree,
  terminalsEndOnNets,
  conductionStartsAtThings,
  coolantHasNoCycle,
  heatPathsAreOrdered,
]

/** @throws InvariantError on the first that does not hold */
export function requireInvariants(graph: TeardownGraph): void {
  for (const invariant of INVARIANTS) invariant(graph)
}

function containmentIsATree(graph: TeardownGraph): void {
  graph.forEachNode((node) => {
    const holders = graph.filterInEdges(node, (_, attributes) => attributes.kind === 'contains')
    if (holders.length > 1) throw new InvariantError('a part stands in two assemblies', node, 'leave one of them out')
  })
  requireAcyclic(graph, 'contains', 'a part is inside itself', 'leave it out of what it holds')
}

function terminalsEndOnNets(graph: TeardownGraph): void {
  graph.forEachEdge((_, attributes, source, target) => {
    if (attributes.kind !== 'terminal') return
    if (graph.getNodeAttributes(target).kind !== 'net') {
      throw new InvariantError(`a terminal ends on something that is no net`, `${source} ${target}`, 'name a net')
    }
  })
}

const CONDUCTS: readonly string[] = ['piece', 'component', 'assembly', 'face', 'layer', 'heat-path', 'passage', 'sink']

function conductionStartsAtThings(graph: TeardownGraph): void {
  graph.forEachEdge((_, attributes, source, target) => {
    if (attributes.kind !== 'conducts') return
    for (const end of [source, target]) {
      const { kind } = graph.getNodeAttributes(end)
      if (!CONDUCTS.includes(kind))
        throw new InvariantError(
          `heat cannot flow through a ${kind}`,
          end,
          'name a part, face, passage, ambient or frame',
        )
    }
  })
}

function coolantHasNoCycle(graph: TeardownGraph): void {
  requireAcyclic(
    graph,
    'flows',
    'the coolant comes back to where it was',
    'each passage stands once between inlet and outlet',
  )
}

/** Heat may meet on a face and part again, but a path never leads back to where it started. */
function heatPathsAreOrdered(graph: TeardownGraph): void {
  requireAcyclic(
    graph,
    'conducts',
    'a heat path leads back to where it started',
    'turn one of the paths round, or end it at the coolant',
  )
}

/** Relations that lead one way and never back. */
type Ordered = 'contains' | 'flows' | 'conducts'

function requireAcyclic(graph: TeardownGraph, kind: Ordered, what: string, mend: string): void {
  const state = new Map<string, 'open' | 'done'>()
  const visit = (start: string): void => {
    const stack: { node: string; next: string[] }[] = [{ node: start, next: after(graph, start, kind) }]
    state.set(start, 'open')
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const next = top.next.pop()
      if (next === undefined) {
        state.set(top.node, 'done')
        stack.pop()
      } else if (state.get(next) === 'open') throw new InvariantError(what, next, mend)
      else if (!state.has(next)) {
        state.set(next, 'open')
        stack.push({ node: next, next: after(graph, next, kind) })
      }
    }
  }
  graph.forEachNode((node) => {
    if (!state.has(node)) visit(node)
  })
}

function after(graph: TeardownGraph, node: string, kind: Ordered): string[] {
  const next: string[] = []
  graph.forEachOutEdge(node, (_, attributes, __, target) => {
    if (attributes.kind === kind) next.push(target)
  })
  return next
}
