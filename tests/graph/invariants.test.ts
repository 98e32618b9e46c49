import Graph from 'graphology'
import { describe, expect, it } from 'vitest'
import { buildGraph } from '../../graph/build.ts'
import { requireInvariants } from '../../graph/invariants.ts'
import type { EdgeAttributes, NodeAttributes, TeardownGraph } from '../../graph/kinds.ts'
import { asPath } from '../../graph/quantity/quantity.ts'
import type { Evidence } from '../../graph/record/record.ts'
import { structureOf } from './structure-fixture.ts'

const EVIDENCE: Evidence = { basis: 'judged', restsOn: [] }

const NODES = {
  part: {
    kind: 'component',
    class: 'bracket',
    group: 'housing',
    leaf: true,
    varies: false,
    found: null,
    state: 'whole',
  },
  net: { kind: 'net', potential: null, rides: null, tied: null },
  face: { kind: 'face', piece: asPath('parts/a') },
  sink: { kind: 'sink' },
  step: { kind: 'step' },
  passage: { kind: 'passage', circuit: asPath('coolant') },
} as const satisfies Readonly<Record<string, NodeAttributes>>

const EDGES = {
  contains: { kind: 'contains' },
  terminal: { kind: 'terminal', name: 'plus', evidence: EVIDENCE },
  conducts: { kind: 'conducts', path: asPath('heat/x') },
  flows: { kind: 'flows', evidence: EVIDENCE },
  precedes: { kind: 'precedes' },
} as const satisfies Readonly<Record<string, EdgeAttributes>>

type Wire = readonly [kind: keyof typeof EDGES, from: string, to: string]

/** `a:part` is a node of that kind. */
function graphOf(nodes: readonly `${string}:${keyof typeof NODES}`[], wires: readonly Wire[]): TeardownGraph {
  const graph: TeardownGraph = new Graph.MultiDirectedGraph<NodeAttributes, EdgeAttributes>()
  for (const one of nodes) {
    const [name = '', kind] = one.split(':')
    graph.addNode(name, NODES[kind as keyof typeof NODES])
  }
  for (const [kind, from, to] of wires) graph.addEdge(from, to, EDGES[kind])
  return graph
}

function refusal(graph: TeardownGraph): unknown {
  try {
    requireInvariants(graph)
  } catch (error) {
    return error
  }
  return undefined
}

describe('what holds of every graph', () => {
  it.each<[string, TeardownGraph]>([
    ['nothing in it', graphOf([], [])],
    [
      'a part in an assembly',
      graphOf(
        ['a:part', 'b:part', 'c:part'],
        [
          ['contains', 'a', 'b'],
          ['contains', 'b', 'c'],
        ],
      ),
    ],
    [
      'a terminal on a net',
      graphOf(
        ['a:part', 'n:net'],
        [
          ['terminal', 'a', 'n'],
          ['terminal', 'a', 'n'],
        ],
      ),
    ],
    [
      'heat that parts and meets again',
      graphOf(
        ['a:part', 'f:face', 'g:face', 's:sink'],
        [
          ['conducts', 'a', 'f'],
          ['conducts', 'a', 'g'],
          ['conducts', 'f', 's'],
          ['conducts', 'g', 's'],
        ],
      ),
    ],
    [
      'coolant that parts and meets again',
      graphOf(
        ['a:passage', 'b:passage', 'c:passage', 'd:passage'],
        [
          ['flows', 'a', 'b'],
          ['flows', 'a', 'c'],
          ['flows', 'b', 'd'],
          ['flows', 'c', 'd'],
        ],
      ),
    ],
    // Steps and coolant are two things: a circle of both together is none.
    [
      'a circle of different kinds',
      graphOf(
        ['a:passage', 'b:passage'],
        [
          ['flows', 'a', 'b'],
          ['precedes', 'b', 'a'],
        ],
      ),
    ],
  ])('%s is fine', (_, graph) => {
    expect(refusal(graph)).toBeUndefined()
  })

  it.each<[string, TeardownGraph, RegExp, RegExp, RegExp]>([
    [
      'a part in two assemblies',
      graphOf(
        ['a:part', 'b:part', 'c:part'],
        [
          ['contains', 'a', 'c'],
          ['contains', 'b', 'c'],
        ],
      ),
      /two assemblies/,
      /^c$/,
      /leave one/,
    ],
    [
      'an assembly inside itself',
      graphOf(
        ['a:part', 'b:part'],
        [
          ['contains', 'a', 'b'],
          ['contains', 'b', 'a'],
        ],
      ),
      /itself/,
      /^[ab]$/,
      /./,
    ],
    ['a terminal on a part', graphOf(['a:part', 'b:part'], [['terminal', 'a', 'b']]), /no net/, /^a b$/, /name a net/],
    [
      'heat through a net',
      graphOf(['a:part', 'n:net'], [['conducts', 'a', 'n']]),
      /through a net/,
      /^n$/,
      /passage, ambient or frame/,
    ],
    ['heat from a step', graphOf(['a:part', 't:step'], [['conducts', 't', 'a']]), /through a step/, /^t$/, /./],
    [
      'coolant that comes back',
      graphOf(
        ['a:passage', 'b:passage', 'c:passage'],
        [
          ['flows', 'a', 'b'],
          ['flows', 'b', 'c'],
          ['flows', 'c', 'b'],
        ],
      ),
      /comes back/,
      /^[bc]$/,
      /once between inlet and outlet/,
    ],
    ['coolant into itself', graphOf(['a:passage'], [['flows', 'a', 'a']]), /comes back/, /^a$/, /./],
    [
      'heat that comes back',
      graphOf(
        ['a:part', 'f:face', 'g:face'],
        [
          ['conducts', 'a', 'f'],
          ['conducts', 'f', 'g'],
          ['conducts', 'g', 'a'],
        ],
      ),
      /leads back/,
      /^[afg]$/,
      /turn one of the paths round/,
    ],
  ])('%s is refused with its place and what mends it', (_, graph, what, at, mend) => {
    expect(refusal(graph)).toMatchObject({
      name: 'InvariantError',
      message: expect.stringMatching(what),
      at: expect.stringMatching(at),
      mend: expect.stringMatching(mend),
    })
  })

  it('a long row is no deep recursion', () => {
    const names = Array.from({ length: 20_000 }, (_, n) => `p${n}`)
    const wires = names.slice(1).map((name, n): Wire => ['flows', names[n]!, name])
    expect(
      refusal(
        graphOf(
          names.map((name) => `${name}:passage` as const),
          wires,
        ),
      ),
    ).toBeUndefined()
    expect(
      refusal(
        graphOf(
          names.map((name) => `${name}:passage` as const),
          [...wires, ['flows', names.at(-1)!, 'p0']],
        ),
      ),
    ).toBeDefined()
  })
})

describe('the graph of a record', () => {
  it('is the same for the same record, and every record that was read has one', () => {
    const { record } = structureOf(`parts:
  - { id: box, class: assembly, count: 2, parts: [ { id: die, class: power-die, each: { a: {}, b: {} }, faces: { top: {} } } ] }
`)
    const [one, other] = [buildGraph(record), buildGraph(record)]
    const content = (graph: TeardownGraph) => graph.mapEdges((_, kind, from, to) => [from, to, kind])
    expect(content(one)).toEqual(content(other))
    expect(content(one).length).toBeGreaterThan(0)
    expect(one.nodes()).toEqual([
      'parts/box',
      'parts/box/die',
      'parts/box.1',
      'parts/box.2',
      ...['1', '2'].flatMap((box) =>
        ['a', 'b'].flatMap((die) => [`parts/box.${box}/die.${die}`, `parts/box.${box}/die.${die}/top`]),
      ),
    ])
  })
})
