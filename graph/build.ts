import Graph from 'graphology'
import { answerFor } from './answers/answer.ts'
import { nodeOf, out } from './answers/context.ts'
import { stageOf } from './answers/coolant.ts'
import { settledPotential } from './answers/potentials.ts'
import { addFindings, addSteps } from './build/context.ts'
import { addCoolant } from './build/coolant.ts'
import { addHeat } from './build/heat.ts'
import { addLoops } from './build/loops.ts'
import { addNets, addTerminals } from './build/nets.ts'
import { addParts } from './build/parts.ts'
import { requireInvariants } from './invariants.ts'
import type { EdgeAttributes, NodeAttributes, TeardownGraph } from './kinds.ts'
import type { Path } from './quantity/quantity.ts'
import type { Found } from './query.ts'
import { queryKey } from './query.ts'
import type { TeardownRecord } from './record/record.ts'
import { refutedIn } from './record/refuted.ts'
import type { Structure } from './structure.ts'

/** The graph of a record. @throws InvariantError when the record contradicts itself in a way the reader let through */
export function buildGraph(record: TeardownRecord): TeardownGraph {
  const graph: TeardownGraph = new Graph.MultiDirectedGraph<NodeAttributes, EdgeAttributes>()
  addParts(graph, record)
  addNets(graph, record)
  addTerminals(graph, record)
  addLoops(graph, record)
  addCoolant(graph, record)
  addHeat(graph, record)
  addSteps(graph, record)
  addFindings(graph, record)
  requireInvariants(graph)
  return graph
}

/** A record with its graph, ready to be asked; answers are kept, since the structure never changes under draws. */
export function openStructure(record: TeardownRecord): Structure {
  const graph = buildGraph(record)
  const memo = new Map<string, Found>()
  const refuted = refutedIn(record)
  return {
    record,
    graph,
    answer(query, { counts }) {
      const key = `${counts} ${queryKey(query)}`
      const known = memo.get(key) ?? judged(answerFor({ record, graph, counts }, query), refuted)
      memo.set(key, known)
      return known
    },
    variesEach: (entry) => nodeOf(graph, entry, 'assembly', 'component')?.varies ?? false,
    stageOf: (passage) => stageOf({ record, graph, counts: 'BUILT' }, passage),
    partNode: (entry) => nodeOf(graph, entry, 'assembly', 'component')!,
    netsOf: (piece) => [...new Set(out(graph, piece, 'terminal'))],
    stateOf: (piece) => nodeOf(graph, piece, 'piece', 'assembly', 'component')?.state ?? 'whole',
    potentialOf: (net) => settledPotential(graph, net),
  }
}

/** An answer says which of the findings it rests on were refuted. */
function judged(found: Found, refuted: ReadonlySet<Path>): Found {
  const fallen = refuted.size === 0 ? [] : found.restsOn.filter((finding) => refuted.has(finding))
  return fallen.length === 0 ? found : { ...found, fallen }
}
