import type { Path } from '../quantity/quantity.ts'
import type { Found, Query } from '../query.ts'
import { answerOf, type Context, into, nodeOf, out } from './context.ts'

/** Entries of a class or group, in an assembly or everywhere; complete when a census says so. */
export function parts(context: Context, query: Extract<Query, { ask: 'parts' }>): Found {
  const { graph } = context
  const inside = query.in ? new Set(descendants(context, query.in)) : null
  const paths = context.record.parts.entries
    .map((entry) => entry.path)
    .filter((path) => isOfClass(context, path, query.class) && (inside === null || inside.has(path)))
  return answerOf(
    paths,
    [],
    query.class === undefined || paths.some((path) => graph.hasNode(path)) || counted(context, query.class),
  )
}

/** Parts that hold no other part, joining parts left out. */
export function leafParts({ record, graph }: Context): Found {
  return answerOf(
    record.parts.entries
      .map((entry) => entry.path)
      .filter((path) => {
        const node = nodeOf(graph, path, 'assembly', 'component')
        return node?.leaf === true && node.group !== 'joining'
      }),
  )
}

/** Physical pieces of an entry: as built, or without those that were missing when it was opened. */
export function pieces({ graph, counts }: Context, of: Path): Found {
  const named = out(graph, of, 'has-piece')
  if (named.length === 0) return answerOf(present(graph, of, counts) ? [of] : [])
  const there = named.filter((piece) => present(graph, piece, counts))
  const found = nodeOf(graph, of, 'assembly', 'component')?.found
  return answerOf(counts === 'FOUND' && typeof found === 'number' ? there.slice(0, found) : there)
}

export function entriesInside({ graph }: Context, part: Path): Found {
  return answerOf(out(graph, part, 'contains'))
}

/** Pieces directly inside a piece. */
export function inside({ graph, counts }: Context, part: Path): Found {
  return answerOf(out(graph, part, 'holds').filter((piece) => present(graph, piece, counts)))
}

export function isOfClass({ graph }: Context, entry: string, name: string | undefined): boolean {
  const node = nodeOf(graph, entry, 'assembly', 'component')
  return node !== undefined && (name === undefined || node.class === name || node.group === name)
}

/** Entry of a piece or of itself. */
export function entryOf({ graph }: Context, piece: string): Path {
  return nodeOf(graph, piece, 'piece')?.entry ?? (piece as Path)
}

export function present(graph: Context['graph'], piece: string, counts: Context['counts']): boolean {
  if (counts === 'BUILT') return true
  const node = nodeOf(graph, piece, 'piece', 'assembly', 'component')
  return node?.state !== 'missing'
}

/** Whether somebody says that all of a class were looked for. */
export function counted({ record, graph }: Context, name: string, across?: readonly [Path, Path]): boolean {
  return (record.sheet.census ?? []).some((census) => {
    const sameClass = census.of === name || groupOf(graph, record.parts.entries, census.of) === name
    const wanted = across
      ?.map((net) => net.replace('nets/', ''))
      .sort()
      .join()
    return sameClass && (across === undefined || !census.across || [...census.across].sort().join() === wanted)
  })
}

function groupOf(
  graph: Context['graph'],
  entries: Context['record']['parts']['entries'],
  name: string,
): string | undefined {
  const entry = entries.find((one) => one.class === name)
  return entry ? nodeOf(graph, entry.path, 'assembly', 'component')?.group : undefined
}

function descendants({ graph }: Context, top: Path): readonly Path[] {
  const below = out(graph, top, 'contains')
  return [...below, ...below.flatMap((child) => descendants({ graph } as Context, child))]
}

/** The piece that holds this one, if any. */
export function holder({ graph }: Context, piece: string): Path | undefined {
  return into(graph, piece, 'holds')[0]
}

/** Dies at any depth inside a piece. */
export function diesWithin(context: Context, piece: Path): Found {
  const held = inside(context, piece).paths
  const deeper = held.flatMap((one) => diesWithin(context, one).paths)
  return answerOf([...held.filter((one) => isOfClass(context, entryOf(context, one), 'power-die')), ...deeper])
}
