import type { TeardownGraph } from '../kinds.ts'
import type { TeardownRecord } from '../record/record.ts'
import { thingPath } from '../record/thing-path.ts'
import { partsById } from './parts.ts'

/** Steps in their order, and the traces and distances of boards. */
export function addSteps(graph: TeardownGraph, record: TeardownRecord): void {
  const steps = record.sheet.steps ?? []
  for (const step of steps) graph.addNode(`steps/${step.id}`, { kind: 'step' })
  steps.forEach((step, at) => {
    const before = step.after ?? (at > 0 ? [steps[at - 1]!.id] : [])
    for (const blocker of before) {
      if (graph.hasNode(`steps/${blocker}`)) graph.addEdge(`steps/${blocker}`, `steps/${step.id}`, { kind: 'precedes' })
    }
  })
  for (const spacing of record.sheet.spacings ?? []) graph.addNode(`spacings/${spacing.id}`, { kind: 'spacing' })
  const typed = partsById(record)
  for (const entry of record.parts.entries) {
    for (const trace of typed.get(entry.id)?.traces ?? [])
      graph.addNode(`${entry.path}/traces/${trace.id}`, { kind: 'trace' })
  }
}

/** What a finding is about and what a photo shows, where that is a node of the graph. */
export function addFindings(graph: TeardownGraph, record: TeardownRecord): void {
  const link = (from: string, typed: string, kind: 'about' | 'shows'): void => {
    const reference = record.parts.refer(typed)
    const node = 'entry' in reference ? record.parts.pathOf(reference) : thingPath(record, typed)
    if (graph.hasNode(node)) graph.addEdge(from, node, { kind })
  }
  for (const finding of record.sheet.findings ?? []) {
    graph.addNode(`findings/${finding.id}`, { kind: 'finding' })
    for (const thing of finding.about) link(`findings/${finding.id}`, thing, 'about')
  }
  for (const photo of record.sheet.photos ?? []) {
    graph.addNode(`photos/${photo.id}`, { kind: 'photo' })
    for (const thing of photo.shows ?? []) link(`photos/${photo.id}`, thing, 'shows')
  }
}
