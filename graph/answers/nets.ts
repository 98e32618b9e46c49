import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { present } from './built-and-found.ts'
import { counted } from './census.ts'
import { answerOf, type Context, edges, nodeOf, out } from './context.ts'
import { classOf, entryOf, isOfClass } from './parts.ts'

export function nets({ graph }: Context, potential?: string): Found {
  const paths = graph
    .filterNodes((_, node) => node.kind === 'net' && (potential === undefined || node.potential === potential))
    .map(asPath)
  return answerOf(paths)
}

/** Pieces with a terminal on a net; a missing or cut piece is not connected when counts are as found. */
export function onNet(context: Context, net: Path, name?: string): Found {
  const wires = edges(context.graph, net, 'terminal', 'in').filter(
    ({ from }) => connected(context, from) && isOfClass(context, entryOf(context, from), name),
  )
  return answerOf(
    wires.map((wire) => wire.from),
    wires.flatMap(evidenceOf),
    name !== undefined &&
      counted(
        context,
        name,
        {},
        wires.map((wire) => classOf(context, wire.from)),
      ),
  )
}

export function netOf({ graph }: Context, piece: Path, terminal: string): Found {
  const wires = edges(graph, piece, 'terminal', 'out').filter(
    ({ attributes }) => attributes.kind === 'terminal' && attributes.name === terminal,
  )
  return answerOf(
    wires.map((wire) => wire.to),
    wires.flatMap(evidenceOf),
  )
}

export function terminalOn({ graph }: Context, piece: Path, net: Path): Found {
  const wires = edges(graph, piece, 'terminal', 'out').filter(({ to }) => to === net)
  const paths = wires.flatMap(({ attributes }) =>
    attributes.kind === 'terminal' ? [asPath(`${piece}/terminals/${attributes.name}`)] : [],
  )
  return answerOf(paths, wires.flatMap(evidenceOf))
}

/** Pieces with a terminal on each of two nets. */
export function across(context: Context, [a, b]: readonly [Path, Path], name?: string): Found {
  const onB = new Set(onNet(context, b, name).paths)
  const paths = onNet(context, a, name).paths.filter((piece) => onB.has(piece))
  const wires = paths
    .flatMap((piece) => edges(context.graph, piece, 'terminal', 'out'))
    .filter(({ to }) => to === a || to === b)
  return answerOf(
    paths,
    wires.flatMap(evidenceOf),
    name !== undefined &&
      counted(
        context,
        name,
        { across: [a, b] },
        paths.map((piece) => classOf(context, piece)),
      ),
  )
}

export function metalOf({ graph }: Context, net: Path): Found {
  return answerOf(out(graph, net, 'metal'))
}

export function jointsOf({ graph }: Context, part: Path): Found {
  return answerOf(edges(graph, part, 'joins', 'in').map(({ from }) => from))
}

export function joinedBy({ graph }: Context, joint: Path): Found {
  return answerOf(out(graph, joint, 'joins'))
}

export function evidenceOf({ attributes }: ReturnType<typeof edges>[number]) {
  return 'evidence' in attributes ? [attributes.evidence] : []
}

function connected(context: Context, piece: Path): boolean {
  if (context.counts === 'BUILT') return true
  return present(context, piece) && nodeOf(context.graph, piece, 'piece', 'component', 'assembly')?.state !== 'cut'
}
