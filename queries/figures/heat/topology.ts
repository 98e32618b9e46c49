import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'

/** One way of heat: a recorded heat path, or (`path` null) from a piece through its case to one of its faces. */
export interface Way {
  readonly id: Path
  readonly from: Path
  readonly to: Path
  readonly path: Path | null
  readonly layers: readonly Layer[]
}

export interface Layer {
  readonly id: Path
  /** The recorded part that it is made of. */
  readonly part: Path | undefined
  readonly spread: string | undefined
}

/** A passage with what its structure says: where coolant comes from, and how it is made. */
export interface Stream {
  readonly circuit: Path
  readonly before: readonly Path[]
  readonly form: string | undefined
  readonly fittings: readonly Path[]
  /** Faces that it cools. */
  readonly faces: number
}

export interface Cooling {
  /** Where its wetted area and film coefficient stand. */
  readonly id: Path
  readonly passage: Path
  readonly face: Path
}

/** Heat of `of` (the source, or a piece inside it) enters the network at `node`. */
export interface Entry {
  readonly source: Path
  readonly of: Path
  readonly node: Path
  /** What `of` stands in, from the nearest out. */
  readonly holders: readonly Path[]
}

/** A part of the network that nothing joins to the rest: solved by itself, and only by what is in it. */
export interface Island {
  readonly id: Path
  readonly nodes: readonly Path[]
  readonly ways: readonly Way[]
  readonly coolings: readonly Cooling[]
  readonly passages: readonly Path[]
  readonly entries: readonly Entry[]
}

export interface Topology {
  readonly islands: readonly Island[]
  /** Of a node, a way, a passage or a source. */
  readonly islandOf: ReadonlyMap<Path, Island>
  /** Where the heat of a piece enters: a die inside a package with one way out stands for its package. */
  readonly nodeOf: ReadonlyMap<Path, Path>
  /** Where the heat of a piece enters the network: by itself, by what is inside of it, or by what it stands in. */
  readonly entriesOf: (piece: Path) => readonly Entry[]
  readonly wayById: ReadonlyMap<Path, Way>
  readonly coolingById: ReadonlyMap<Path, Cooling>
  readonly streams: ReadonlyMap<Path, Stream>
  /** The piece that a cooled face belongs to. */
  readonly pieceOf: ReadonlyMap<Path, Path>
  /** Sources from which no recorded way leads anywhere. */
  readonly stranded: readonly Path[]
}

/** Structure of the heat network: asked once, since no doubt about a value moves a relation. */
export function heatTopology(view: View): Topology {
  return view.choice('heat topology', () => islands(raw(view)))
}

export function streamOf(view: View, passage: Path): Stream {
  return heatTopology(view).streams.get(passage) ?? view.fail(`${passage} is no passage`, 'refused', passage)
}

interface Raw {
  readonly ways: readonly Way[]
  readonly coolings: readonly Cooling[]
  readonly entries: readonly Entry[]
  readonly streams: ReadonlyMap<Path, Stream>
  readonly pieceOf: ReadonlyMap<Path, Path>
  readonly stranded: readonly Path[]
}

function raw(view: View): Raw {
  const passages = view.find({ ask: 'passages' }).paths
  const streams = new Map(passages.map((passage) => [passage, askStream(view, passage)] as const))
  const coolings = passages.flatMap((passage) =>
    view
      .find({ ask: 'cooled-by', passage })
      .paths.flatMap((face) =>
        view.find({ ask: 'cooling-of', passage, face }).paths.map((id) => ({ id, passage, face })),
      ),
  )
  const recorded = view.find({ ask: 'heat-paths' }).paths.map((path): Way => {
    const to = view.some({ ask: 'heat-to', path }).paths[0]!
    const face = streams.has(to) ? coolings.find(({ passage }) => passage === to)?.face : to
    return {
      id: path,
      path,
      layers: layersOf(view, path),
      from: view.some({ ask: 'heat-start', path }).paths[0]!,
      to: face ?? to,
    }
  })
  const exits = { starts: new Set(recorded.map(({ from }) => from)), cooled: new Set(coolings.map(({ face }) => face)) }
  const placed = view.find({ ask: 'heat-sources' }).paths.map((source) => placeSource(view, source, exits))
  const through = placed.flatMap(({ ways }) => ways)
  return {
    ways: [...recorded, ...new Map(through.map((way) => [way.id, way])).values()],
    coolings,
    streams,
    pieceOf: new Map(coolings.map(({ face }) => [face, view.some({ ask: 'piece-of', node: face }).paths[0]!])),
    entries: placed.flatMap(({ entries }) => entries),
    stranded: placed.flatMap(({ source, entries }) => (entries.length === 0 ? [source] : [])),
  }
}

function layersOf(view: View, path: Path): readonly Layer[] {
  return view.find({ ask: 'heat-layers', path }).paths.map((layer) => ({
    id: layer,
    part: view.find({ ask: 'layer-part', layer }).paths[0],
    spread: view.find({ ask: 'spread-of', layer }).paths[0],
  }))
}

function askStream(view: View, passage: Path): Stream {
  return {
    circuit: view.some({ ask: 'circuit-of', passage }).paths[0]!,
    before: view.find({ ask: 'entered', passage }).paths,
    form: view.find({ ask: 'form-of', passage }).paths[0],
    fittings: view.find({ ask: 'minor-losses', passage }).paths,
    faces: view.find({ ask: 'cooled-by', passage }).paths.length,
  }
}

interface Exits {
  readonly starts: ReadonlySet<Path>
  readonly cooled: ReadonlySet<Path>
}

interface Placed {
  readonly source: Path
  readonly entries: readonly Entry[]
  readonly ways: readonly Way[]
}

/**
 * Where the heat of a source enters: at the source when a path starts there; else at the pieces inside it from which
 * paths start; else through its own faces; else the same for what holds it.
 */
function placeSource(view: View, source: Path, exits: Exits): Placed {
  if (exits.starts.has(source)) return { source, entries: [entry(view, source, source, source)], ways: [] }
  const inside = startsInside(view, source, exits)
  if (inside.length > 0) return { source, entries: inside.map((piece) => entry(view, source, piece, piece)), ways: [] }
  let at: Path | undefined = source
  while (at !== undefined) {
    const node: Path = at
    const faces = view
      .find({ ask: 'faces', part: node })
      .paths.filter((face) => exits.starts.has(face) || exits.cooled.has(face))
    if (exits.starts.has(node) || faces.length > 0) {
      const ways = exits.starts.has(node)
        ? []
        : faces.map((face) => ({ id: `${face}/from-inside` as Path, from: node, to: face, path: null, layers: [] }))
      return { source, entries: [entry(view, source, source, node)], ways }
    }
    at = view.find({ ask: 'holder', piece: node }).paths[0]
  }
  return { source, entries: [], ways: [] }
}

function entry(view: View, source: Path, of: Path, node: Path): Entry {
  return { source, of, node, holders: holdersOf(view, of) }
}

/** What a piece stands in, from the nearest out. */
export function holdersOf(view: View, piece: Path): readonly Path[] {
  const above = view.find({ ask: 'holder', piece }).paths[0]
  return above === undefined ? [] : [above, ...holdersOf(view, above)]
}

function startsInside(view: View, piece: Path, exits: Exits): readonly Path[] {
  return view
    .find({ ask: 'inside', part: piece })
    .paths.flatMap((held) => (exits.starts.has(held) ? [held] : startsInside(view, held, exits)))
}

export const isSink = (node: Path): boolean => node === 'ambient/air' || node === 'ambient/frame'

/** Groups whatever heat or coolant joins; air and frame stay at their temperature and join nothing. */
function islands({ ways, coolings, entries, streams, pieceOf, stranded }: Raw): Topology {
  const above = new Map<Path, Path>()
  const top = (one: Path): Path => {
    const up = above.get(one)
    if (up === undefined) above.set(one, one)
    return up === undefined || up === one ? one : top(up)
  }
  const join = (a: Path, b: Path): void => void above.set(top(a), top(b))
  for (const { from, to } of ways) join(from, isSink(to) ? from : to)
  for (const { passage, face } of coolings) join(passage, face)
  for (const [passage, { circuit }] of streams) join(passage, circuit)
  for (const { node } of entries) top(node)

  const byTop = new Map<Path, Path[]>()
  for (const one of above.keys()) byTop.set(top(one), [...(byTop.get(top(one)) ?? []), one])
  const passages = new Set(streams.keys())
  const circuitPaths = new Set([...streams.values()].map(({ circuit }) => circuit))
  const found = [...byTop].map(([root, members]): Island => {
    const within = (one: Path): boolean => top(one) === root
    return {
      id: [...members].sort()[0]!,
      nodes: members.filter((one) => !passages.has(one) && !circuitPaths.has(one)),
      ways: ways.filter(({ from }) => within(from)),
      coolings: coolings.filter(({ face }) => within(face)),
      passages: members.filter((one) => passages.has(one)),
      entries: entries.filter(({ node }) => within(node)),
    }
  })
  const islandOf = new Map<Path, Island>()
  for (const island of found) {
    const { nodes, ways: own, passages: streams, entries: sources, coolings: wet } = island
    const all = [...nodes, ...own.map(({ id }) => id), ...streams, ...wet.map(({ id }) => id)]
    for (const one of [...all, ...sources.flatMap(({ source, of }) => [source, of])]) islandOf.set(one, island)
  }
  return {
    islands: found,
    islandOf,
    nodeOf: new Map(entries.map(({ of, node }) => [of, node])),
    entriesOf: remembering((piece) =>
      entries.filter(({ of, source, holders }) => of === piece || source === piece || holders.includes(piece)),
    ),
    wayById: new Map(ways.map((way) => [way.id, way])),
    coolingById: new Map(coolings.map((cooling) => [cooling.id, cooling])),
    streams,
    pieceOf,
    stranded,
  }
}

function remembering<T>(find: (piece: Path) => T): (piece: Path) => T {
  const known = new Map<Path, T>()
  return (piece) => {
    const before = known.get(piece)
    if (before !== undefined) return before
    const found = find(piece)
    known.set(piece, found)
    return found
  }
}
