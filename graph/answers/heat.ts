import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import type { Evidence } from '../record/record.ts'
import { generalisations } from '../values.ts'
import { answerOf, type Context, edges, into, nodeOf, out } from './context.ts'
import { holder } from './parts.ts'

export function heatPaths({ graph }: Context): Found {
  return answerOf(graph.filterNodes((_, node) => node.kind === 'heat-path').map(asPath))
}

/** Heat paths that start at a piece, at one of its faces, or at exactly this face. */
export function heatFrom({ graph }: Context, node: Path): Found {
  const starts = [node, ...out(graph, node, 'has-face')]
  const wires = starts.flatMap((start) => edges(graph, start, 'conducts', 'out'))
  const paths = wires.flatMap(({ attributes }) => (attributes.kind === 'conducts' ? [attributes.path] : []))
  return answerOf(
    paths,
    paths.flatMap((path) => evidenceOfPath(graph, path)),
  )
}

export function heatLayers({ graph }: Context, path: Path): Found {
  return answerOf(nodeOf(graph, path, 'heat-path')?.layers ?? [])
}

export function heatEnd({ graph }: Context, path: Path, end: 'from' | 'to'): Found {
  const node = nodeOf(graph, path, 'heat-path')
  return answerOf(node ? [node[end]] : [], node ? [node.evidence] : [])
}

export function layerPart({ graph }: Context, layer: Path): Found {
  const part = nodeOf(graph, layer, 'layer')?.part
  return answerOf(part ? [part] : [])
}

export function spreadOf({ graph }: Context, layer: Path): Found {
  const spread = nodeOf(graph, layer, 'layer')?.spread
  return answerOf(spread ? [asPath(spread)] : [], [], spread !== undefined)
}

/**
 * Where the heat of a piece finally ends. It leaves by its own paths and faces and by those of the pieces inside it;
 * a piece without any leaves by those of what holds it (a die inside a package that has the path).
 */
export function heatEnds(context: Context, piece: Path): Found {
  const evidence: Evidence[] = []
  const ends = new Set<Path>()
  let from: Path | undefined = piece
  while (from && ends.size === 0) {
    follow(context, starts(context, from), ends, evidence)
    from = holder(context, from)
  }
  return answerOf([...ends], evidence)
}

/** A piece, its faces, and all pieces inside it with theirs. */
function starts(context: Context, piece: Path): readonly Path[] {
  const { graph } = context
  return [
    piece,
    ...out(graph, piece, 'has-face'),
    ...out(graph, piece, 'holds').flatMap((held) => starts(context, held)),
  ]
}

function follow({ graph }: Context, from: readonly Path[], ends: Set<Path>, evidence: Evidence[]): void {
  const seen = new Set<Path>()
  const queue = [...from]
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (seen.has(node)) continue
    seen.add(node)
    const kind = graph.hasNode(node) ? graph.getNodeAttributes(node).kind : undefined
    if (kind === 'passage' || kind === 'sink') ends.add(node)
    for (const cooling of edges(graph, node, 'cools', 'in')) {
      ends.add(cooling.from)
      if ('evidence' in cooling.attributes) evidence.push(cooling.attributes.evidence)
    }
    for (const { to, attributes } of edges(graph, node, 'conducts', 'out')) {
      queue.push(to)
      if (attributes.kind === 'conducts') evidence.push(...evidenceOfPath(graph, attributes.path))
    }
  }
}

function evidenceOfPath(graph: Context['graph'], path: Path): readonly Evidence[] {
  const node = nodeOf(graph, path, 'heat-path')
  return node ? [node.evidence] : []
}

/** Pieces whose heat ends in a passage or sink: those with a path of their own and whatever is inside them. */
export function heatedBy(context: Context, passage: Path): Found {
  const found = sources(context).map((piece) => ({ piece, ends: heatEnds(context, piece) }))
  const hit = found.filter(({ ends }) => ends.paths.includes(passage))
  return answerOf(
    hit.map(({ piece }) => piece),
    hit.flatMap(({ ends }) => [{ basis: ends.basis, restsOn: ends.restsOn }]),
  )
}

/** Pieces from which heat is said to go: those a path starts at, those that hold such a face, and what is inside them. */
export function sources(context: Context): readonly Path[] {
  const { graph } = context
  const starting = new Set<Path>()
  graph.forEachNode((_, node) => {
    if (node.kind !== 'heat-path') return
    const face = nodeOf(graph, node.from, 'face')
    const piece = face ? face.piece : node.from
    for (const one of [piece, ...within(context, piece)]) starting.add(one)
  })
  return [...starting]
}

function within(context: Context, piece: Path): readonly Path[] {
  return out(context.graph, piece, 'holds').flatMap((held) => [held, ...within(context, held)])
}

/** Pieces with a loss on record; where a part states the loss of the whole, what is inside it is not counted again. */
export function heatSources(context: Context): Found {
  const { record } = context
  const stated = (piece: Path): boolean =>
    ['loss', 'loss/peak', 'loss/continuous'].some((name) =>
      generalisations(asPath(`${piece}/${name}`)).some((path) => record.facts.has(path)),
    )
  const all = record.parts.entries.flatMap((entry) => record.parts.piecesOf(entry)).map((piece) => piece.path)
  const losing = new Set(all.filter(stated))
  return answerOf([...losing].filter((piece) => !heldBy(context, piece, losing)))
}

function heldBy(context: Context, piece: Path, among: ReadonlySet<Path>): boolean {
  for (let up = holder(context, piece); up; up = holder(context, up)) if (among.has(up)) return true
  return false
}

export function cooledBy({ graph }: Context, passage: Path): Found {
  const wires = edges(graph, passage, 'cools', 'out')
  return answerOf(wires.map(({ to }) => to))
}

export function passageOf({ graph }: Context, face: Path): Found {
  return answerOf(into(graph, face, 'cools'))
}

/** Sources at or inside a piece. */
export function heatSourcesWithin(context: Context, piece: Path): Found {
  const inside = new Set([piece, ...within(context, piece)])
  const losing = heatSources(context).paths.filter((source) => inside.has(source))
  return answerOf(losing)
}

/** Insulating layers of a path, of those that go on from where it ends, and of those that lead to where it starts. */
export function barrierOn(context: Context, path: Path): Found {
  const { graph } = context
  const on = (walk: (at: Path) => readonly Path[]): readonly Path[] => {
    const seen = new Set<Path>()
    const queue = [path]
    for (let one = queue.pop(); one !== undefined; one = queue.pop()) {
      if (seen.has(one)) continue
      seen.add(one)
      queue.push(...walk(one))
    }
    return [...seen].flatMap((one) => nodeOf(graph, one, 'heat-path')?.layers ?? [])
  }
  const ahead = on((at) => heatFrom(context, nodeOf(graph, at, 'heat-path')!.to).paths)
  const behind = on((at) => pathsInto(graph, nodeOf(graph, at, 'heat-path')!.from))
  return answerOf([...ahead, ...behind].filter((layer) => nodeOf(graph, layer, 'layer')?.insulating))
}

/** Heat paths that end at a node. */
function pathsInto(graph: Context['graph'], node: Path): readonly Path[] {
  return edges(graph, node, 'conducts', 'in').flatMap(({ attributes }) =>
    attributes.kind === 'conducts' ? [attributes.path] : [],
  )
}

/** Where a path ends that a person can touch or the coolant wets: passages, the frame. Air alone is no metal. */
export function endsGrounded(context: Context, path: Path): Found {
  const to = nodeOf(context.graph, path, 'heat-path')?.to
  if (to === undefined) return answerOf([])
  const ends = heatEnds(context, to).paths
  const all = nodeOf(context.graph, to, 'passage', 'sink') ? [to] : ends
  return answerOf(all.filter((end) => end !== 'ambient/air'))
}
