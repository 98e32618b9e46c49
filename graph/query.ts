import type { Basis } from './quantity/basis.ts'
import type { Path } from './quantity/quantity.ts'

/**
 * The structural questions a figure may ask. A closed list of plain data: logged, printed, compared and asked again,
 * so that a part that was added is noticed. Every answer is a list of canonical paths.
 */
export type Query =
  /** Entries of the parts list of a class or group, in an assembly or everywhere. */
  | { readonly ask: 'parts'; readonly class?: string; readonly in?: Path }
  /** Parts that hold no other part: what PART_COUNT counts. */
  | { readonly ask: 'leaf-parts' }
  /** Physical pieces of an entry, by the `counts` setting. */
  | { readonly ask: 'pieces'; readonly of: Path }
  /** Entries directly inside an entry. */
  | { readonly ask: 'inside'; readonly part: Path }
  /** Entries at the top of the assembly, those directly inside one, and the entry that holds one. */
  | { readonly ask: 'top-parts' }
  | { readonly ask: 'entries-inside'; readonly part: Path }
  | { readonly ask: 'parent'; readonly part: Path }
  /** The piece that holds a piece, and the dies inside a piece at any depth. */
  | { readonly ask: 'holder'; readonly piece: Path }
  | { readonly ask: 'dies-within'; readonly piece: Path }
  /** What the values of a part are for, as one word when it is said: die, switch or piece. */
  | { readonly ask: 'values-for'; readonly part: Path }
  /** Faces of a piece, and the piece that a face (or terminal) belongs to. */
  | { readonly ask: 'piece-of'; readonly node: Path }
  | { readonly ask: 'faces'; readonly part: Path }
  | { readonly ask: 'nets'; readonly potential?: string }
  /** Pieces with a terminal on a net. */
  | { readonly ask: 'on-net'; readonly net: Path; readonly class?: string }
  /** The net a terminal of a piece is on: one path or none. */
  | { readonly ask: 'net-of'; readonly piece: Path; readonly terminal: string }
  /** Terminals of a piece on a net, as `<piece>/terminals/<name>`. */
  | { readonly ask: 'terminal-on'; readonly piece: Path; readonly net: Path }
  /** Nets of a piece, one for each terminal that is on one. */
  | { readonly ask: 'terminals'; readonly piece: Path }
  /** Pieces with one terminal on each of two nets. */
  | { readonly ask: 'across'; readonly nets: readonly [Path, Path]; readonly class?: string }
  /** What the sheet says of a net: its potential as one word; the net it rides on, or is tied to. */
  | { readonly ask: 'potential' | 'rides-on' | 'tied-to'; readonly net: Path }
  /** Voltages that the sheet states between two nets. */
  | { readonly ask: 'voltage-between'; readonly nets: readonly [Path, Path] }
  /** Ports of the specimen that a net belongs to. */
  | { readonly ask: 'ports-on'; readonly net: Path }
  /** Terminals whose net nobody looked for. */
  | { readonly ask: 'open-terminals' }
  /** The two DC rails between which the half bridges switch. */
  | { readonly ask: 'rails' }
  /** Parts that are the metal of a net. */
  | { readonly ask: 'metal-of'; readonly net: Path }
  /** Whether a metal part is a `run` of bar or a `plate`; empty when its geometry is not recorded. */
  | { readonly ask: 'shape-of'; readonly part: Path }
  /** Points of a bar in order, those of the bar it runs along where it repeats one. */
  | { readonly ask: 'run-points'; readonly part: Path }
  /** Axis normal to the wide face. */
  | { readonly ask: 'flat-of'; readonly part: Path }
  /** The part that a bar or plate is placed by, and on which side of it. */
  | { readonly ask: 'beside'; readonly part: Path }
  | { readonly ask: 'holes-of'; readonly part: Path }
  /** Joints of a metal part, and the two parts of a joint. */
  | { readonly ask: 'joints-of'; readonly part: Path }
  | { readonly ask: 'joined-by'; readonly joint: Path }
  /** Commutation loops, and the capacitors and the half bridge that belong to one. */
  | { readonly ask: 'loops' }
  | { readonly ask: 'loop-capacitors'; readonly loop: Path }
  /** Capacitors from one net to another, those in strings over inner nets of the link too; and those inner nets. */
  | { readonly ask: 'capacitors-between' | 'nets-between'; readonly nets: readonly [Path, Path] }
  | { readonly ask: 'loop-bridge'; readonly loop: Path }
  /** The net that a half bridge switches, and the loops of the bridge that makes the alternating output. */
  | { readonly ask: 'loop-output'; readonly loop: Path }
  | { readonly ask: 'bridge-loops' }
  /** The two nets that a loop lies between, plus first. */
  | { readonly ask: 'loop-rails'; readonly loop: Path }
  /** Heat paths that start at a piece or face, layer by layer, and where one ends. */
  | { readonly ask: 'heat-from'; readonly node: Path }
  | { readonly ask: 'heat-paths' }
  | { readonly ask: 'heat-layers'; readonly path: Path }
  | { readonly ask: 'heat-start'; readonly path: Path }
  | { readonly ask: 'heat-to'; readonly path: Path }
  /** The part that a layer of a heat path is made of, when it is a recorded part. */
  | { readonly ask: 'layer-part'; readonly layer: Path }
  /** How the area is said to grow in a layer: `series`, `cone-45`, `none`; empty when nothing is said. */
  | { readonly ask: 'spread-of'; readonly layer: Path }
  /** Layers of a path, and of those it goes on with or comes from, that are marked as electrical barriers. */
  | { readonly ask: 'barrier-on'; readonly path: Path }
  /** Ends of a path that are metal tied to the frame, or coolant. */
  | { readonly ask: 'ends-grounded'; readonly path: Path }
  /** Where the heat of a piece finally ends: passages, ambient, frame. */
  | { readonly ask: 'heat-ends'; readonly piece: Path }
  /** Pieces with a recorded or wanted loss: where the heat comes from. */
  | { readonly ask: 'heat-sources' }
  | { readonly ask: 'heat-sources-within'; readonly piece: Path }
  | { readonly ask: 'cooled-by'; readonly passage: Path }
  | { readonly ask: 'passage-of'; readonly face: Path }
  /** Where the wetted area and film coefficient of one cooled face of a passage stand. */
  | { readonly ask: 'cooling-of'; readonly passage: Path; readonly face: Path }
  /** How a passage is made: channel, fins, pins, pipe or jets. */
  | { readonly ask: 'form-of'; readonly passage: Path }
  /** Fittings of a passage with a loss factor of their own. */
  | { readonly ask: 'minor-losses'; readonly passage: Path }
  | { readonly ask: 'circuit-of'; readonly passage: Path }
  | { readonly ask: 'passages'; readonly circuit?: Path }
  | { readonly ask: 'circuits' }
  | { readonly ask: 'upstream'; readonly passage: Path }
  | { readonly ask: 'flows-to'; readonly node: Path }
  /** What the coolant comes from directly: passages or the inlet; none when nothing enters. */
  | { readonly ask: 'entered'; readonly passage: Path }
  /** Pieces whose heat ends in a passage. */
  | { readonly ask: 'heated-by'; readonly passage: Path }
  /** Passages that a seal closes, and the parts that it would leak onto. */
  | { readonly ask: 'sealed-by'; readonly part: Path }
  | { readonly ask: 'leaks-towards'; readonly part: Path }
  | { readonly ask: 'spacings'; readonly kind?: string }
  | { readonly ask: 'spacing-between'; readonly spacing: Path }
  /** Kind of insulation asked of a distance, as one word; the part it lies on. */
  | { readonly ask: 'insulation-of' | 'lies-on'; readonly spacing: Path }
  /** Values of figures that were measured or published: all, and of which figure and subject one is. */
  | { readonly ask: 'observations' }
  | { readonly ask: 'observed-metric' | 'observed-subject'; readonly observed: Path }
  /** Of a value known only as a bound: `<` or `>`, then its number in SI, as two words; none of any other. */
  | { readonly ask: 'bound-of'; readonly value: Path }
  /** Properties whose claims differ beyond their uncertainties; values that rest on a refuted finding. */
  | { readonly ask: 'disputed' }
  | { readonly ask: 'rests-on-refuted' }
  /** Capacitors of the high-voltage side, in series and in parallel. */
  | { readonly ask: 'link-capacitors' }
  /** The same for parts of another class: bleed resistors. */
  | { readonly ask: 'link-parts'; readonly class: string }
  /** Layers of a board or flexible circuit from one face to the other, and the net of a copper layer. */
  | { readonly ask: 'stack'; readonly part: Path }
  | { readonly ask: 'copper-net'; readonly layer: Path }
  /** Traces of a part; layer, reference planes, partner and net of one. */
  | { readonly ask: 'traces-of'; readonly part: Path }
  | { readonly ask: 'trace-on' | 'trace-references' | 'trace-pair' | 'trace-net'; readonly trace: Path }
  /** Conductors that pass through a core or sensor. */
  | { readonly ask: 'goes-round'; readonly part: Path }
  /** Steps that take a part off, the steps that block one. */
  | { readonly ask: 'steps-taking'; readonly part: Path }
  | { readonly ask: 'blockers'; readonly step: Path }
  | { readonly ask: 'traces' }
  | { readonly ask: 'steps' }
  /** Properties that a step still to come destroys, and the steps that destroy one. */
  | { readonly ask: 'at-risk' }
  | { readonly ask: 'lost-with'; readonly path: Path }
  | { readonly ask: 'section'; readonly name: string }

/** An answer: the paths, whether anybody looked for all of them, and the weakest evidence of the relations it rests on. */
export interface Found {
  readonly paths: readonly Path[]
  readonly census: 'complete' | 'open'
  readonly basis: Basis
  /** Nobody said how any of it is known: `basis` is then only where the weakest starts from. */
  readonly unsaid?: true
  /** Relations and findings the answer rests on, when they are doubtful. */
  readonly restsOn: readonly Path[]
  /** Refuted findings among those: the answer falls with them. */
  readonly fallen?: readonly Path[]
}

/** One text per question, equal exactly when the questions are. */
export function queryKey(query: Query): string {
  let key: string = query.ask
  for (const name in query) {
    if (name === 'ask') continue
    const value = (query as unknown as Readonly<Record<string, string | readonly string[]>>)[name]
    if (value !== undefined) key += ` ${name}=${typeof value === 'string' ? value : value.join('+')}`
  }
  return key
}

/** What was found for each question, looked up without a text being made of it. */
export interface Questions<T> {
  get(query: Query, find: (query: Query) => T): T
}

interface Branch<T> {
  value?: T
  readonly next: Map<string, Branch<T>>
}

/** Walks from the kind of question along its names and values: the strings are there already, and none is put together. */
export function questions<T>(): Questions<T> {
  const root = new Map<string, Branch<T>>()
  return {
    get(query, find) {
      let branch = into(root, query.ask)
      for (const name in query) {
        if (name === 'ask') continue
        const value = (query as unknown as Readonly<Record<string, string | readonly string[]>>)[name]
        if (value === undefined) continue
        branch = into(branch.next, name)
        if (typeof value === 'string') branch = into(branch.next, value)
        else for (const one of value) branch = into(branch.next, one)
      }
      if (!('value' in branch)) branch.value = find(query)
      return branch.value as T
    },
  }
}

function into<T>(branches: Map<string, Branch<T>>, name: string): Branch<T> {
  const known = branches.get(name)
  if (known) return known
  const made: Branch<T> = { next: new Map() }
  branches.set(name, made)
  return made
}
