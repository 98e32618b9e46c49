export interface NodeInputs {
  readonly edges: readonly { readonly from: string; readonly to: string }[]
  readonly ports: readonly { readonly from: string; readonly to: string }[]
  readonly joined: readonly (readonly string[])[]
}

export interface NodeGroups {
  /** Number of the unknown that stands for a node; −1 where it is the reference of its piece. */
  readonly unknown: (node: string) => number
  readonly unknowns: number
  /** The piece of connected metal that a node belongs to, known by one node of it. */
  readonly piece: (node: string) => string
  readonly pieces: readonly string[]
  readonly namesOf: (piece: string) => readonly string[]
}

/** Nodes with joined ones made one, sorted into connected pieces; in each piece one node is the reference. */
export function nodeGroups({ edges, ports, joined }: NodeInputs): NodeGroups {
  const merge = disjointSets()
  for (const group of joined) for (const node of group) merge.unite(group[0] as string, node)
  const metal = disjointSets()
  for (const { from, to } of edges) metal.unite(merge.find(from), merge.find(to))
  for (const { from, to } of ports) for (const node of [from, to]) metal.find(merge.find(node))
  const pieceOf = (node: string): string => metal.find(merge.find(node))
  const names = new Set([...joined.flat(), ...[...edges, ...ports].flatMap(({ from, to }) => [from, to])])
  const members = new Map<string, string[]>()
  for (const name of names) {
    const piece = pieceOf(name)
    const known = members.get(piece)
    if (known) known.push(name)
    else members.set(piece, [name])
  }
  const numbers = new Map<string, number>()
  for (const name of names) {
    const node = merge.find(name)
    if (node !== pieceOf(name) && !numbers.has(node)) numbers.set(node, numbers.size)
  }
  return {
    unknown: (node) => numbers.get(merge.find(node)) ?? -1,
    unknowns: numbers.size,
    piece: pieceOf,
    pieces: [...members.keys()],
    namesOf: (piece) => members.get(piece) ?? [],
  }
}

interface DisjointSets {
  readonly find: (one: string) => string
  readonly unite: (a: string, b: string) => void
}

export function disjointSets(): DisjointSets {
  const parent = new Map<string, string>()
  const find = (one: string): string => {
    const above = parent.get(one)
    if (above === undefined) parent.set(one, one)
    if (above === undefined || above === one) return one
    const root = find(above)
    parent.set(one, root)
    return root
  }
  return { find, unite: (a, b) => void parent.set(find(a), find(b)) }
}
