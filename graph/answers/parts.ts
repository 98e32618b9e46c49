import type { Path } from '../quantity/quantity.ts'
import type { Found, Query } from '../query.ts'
import { present } from './built-and-found.ts'
import { counted } from './census.ts'
import { answerOf, type Context, into, nodeOf, out } from './context.ts'

/** Entries of a class or group, in an assembly or everywhere; complete when a census says so. */
export function parts(context: Context, query: Extract<Query, { ask: 'parts' }>): Found {
  const inside = query.in ? new Set(descendants(context, query.in)) : null
  const paths = context.record.parts.entries
    .map((entry) => entry.path)
    .filter((path) => isOfClass(context, path, query.class) && (inside === null || inside.has(path)))
  return answerOf(
    paths,
    [],
    query.class === undefined || paths.length > 0 || counted(context, query.class, { in: query.in }),
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
export function pieces(context: Context, of: Path): Found {
  const named = out(context.graph, of, 'has-piece')
  return answerOf((named.length === 0 ? [of] : named).filter((piece) => present(context, piece)))
}

export function entriesInside({ graph }: Context, part: Path): Found {
  return answerOf(out(graph, part, 'contains'))
}

/** Pieces directly inside a piece. */
export function inside(context: Context, part: Path): Found {
  return answerOf(out(context.graph, part, 'holds').filter((piece) => present(context, piece)))
}

export function isOfClass({ graph }: Context, entry: string, name: string | undefined): boolean {
  const node = nodeOf(graph, entry, 'assembly', 'component')
  return node !== undefined && (name === undefined || node.class === name || node.group === name)
}

export function classOf(context: Context, piece: string): string {
  return nodeOf(context.graph, entryOf(context, piece), 'assembly', 'component')?.class ?? ''
}

/** Entry of a piece or of itself. */
export function entryOf({ graph }: Context, piece: string): Path {
  return nodeOf(graph, piece, 'piece')?.entry ?? (piece as Path)
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
