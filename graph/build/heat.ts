import { InvariantError } from '../invariants.ts'
import type { TeardownGraph } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { TeardownRecord } from '../record/record.ts'
import { relationEvidence } from './evidence.ts'
import { endFrom, lastOf, layerPartFrom, type Start, startsOf } from './resolve.ts'

type HeatPath = NonNullable<TeardownRecord['sheet']['heat']>[number]

/** Heat paths, one for each piece they start at; the same end is one shared node. */
export function addHeat(graph: TeardownGraph, record: TeardownRecord): void {
  for (const typed of record.sheet.heat ?? []) {
    const starts = startsOf(record, typed.from)
    for (const start of starts) {
      const path = asPath(`heat/${typed.id}${starts.length > 1 ? `.${start.suffix}` : ''}`)
      addPath(graph, record, typed, path, start)
    }
  }
}

function addPath(graph: TeardownGraph, record: TeardownRecord, typed: HeatPath, path: Path, start: Start): void {
  if (graph.hasNode(path))
    throw new InvariantError('two heat paths of one name', path, 'call pieces so that their names joined by - differ')
  const to = endNode(graph, record, typed.to, start)
  const layers = (typed.layers ?? []).map((layer) => {
    const node = asPath(`${path}/${layer.id}`)
    const part = layer.part === undefined ? null : layerPartFrom(record, layer.part, start)
    const insulating = layer.insulating?.is === 'yes' || layer.insulating?.is === 'true'
    graph.addNode(node, { kind: 'layer', part, insulating, spread: layer.spread ?? null })
    return node
  })
  graph.addNode(path, { kind: 'heat-path', from: start.node, layers, to, evidence: relationEvidence(typed) })
  const chain = [start.node, ...(layers.length > 0 ? layers : [path]), to]
  for (let at = 1; at < chain.length; at++) graph.addEdge(chain[at - 1]!, chain[at]!, { kind: 'conducts', path })
}

const SINKS: Readonly<Record<string, Path>> = { ambient: asPath('ambient/air'), frame: asPath('ambient/frame') }

function endNode(graph: TeardownGraph, record: TeardownRecord, to: string, start: Start): Path {
  const sink = SINKS[to]
  if (sink !== undefined) {
    if (!graph.hasNode(sink)) graph.addNode(sink, { kind: 'sink' })
    return sink
  }
  return passageNode(graph, to, start) ?? endFrom(record, to, start)
}

function passageNode(graph: TeardownGraph, to: string, start: Start): Path | undefined {
  const { name, piece } = lastOf(to)
  const named = asPath(`coolant/${name}${piece === undefined ? '' : `.${piece === '*' ? start.star : piece}`}`)
  if (!graph.hasNode(named)) return undefined
  return graph.getNodeAttributes(named).kind === 'passage' ? named : undefined
}
