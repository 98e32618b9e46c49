import type { TeardownGraph } from '../kinds.ts'
import type { Path } from '../quantity/quantity.ts'
import type { PartEntry } from '../record/part-index.ts'
import { type Context, into, nodeOf } from './context.ts'

/** Whether a piece is there: as built always; as found unless it, or what holds it, was missing when it was opened. */
export function present(context: Context, piece: Path): boolean {
  return context.counts === 'BUILT' || !missing(context).has(piece)
}

/** Made once for each graph, which never changes. */
const remembered = new WeakMap<TeardownGraph, ReadonlySet<Path>>()

function missing(context: Context): ReadonlySet<Path> {
  const known = remembered.get(context.graph)
  if (known) return known
  const gone = new Set<Path>()
  for (const entry of context.record.parts.entries) addMissing(context, entry, gone)
  remembered.set(context.graph, gone)
  return gone
}

/** Fewer found than built, and not said which are missing: the last ones of each lot are taken to be. */
function addMissing({ record, graph }: Context, entry: PartEntry, gone: Set<Path>): void {
  const found = nodeOf(graph, entry.path, 'assembly', 'component')?.found ?? Number.POSITIVE_INFINITY
  const there = new Map<Path | undefined, number>()
  for (const { path } of record.parts.piecesOf(entry)) {
    const holder = into(graph, path, 'holds')[0]
    const before = there.get(holder) ?? 0
    const stated = nodeOf(graph, path, 'piece', 'assembly', 'component')?.state === 'missing'
    if (stated || (holder !== undefined && gone.has(holder)) || before >= found) gone.add(path)
    else there.set(holder, before + 1)
  }
}
