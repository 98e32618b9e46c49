import type { TeardownGraph } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Circuit, Sequence } from '../record/coolant.ts'
import type { Evidence, TeardownRecord } from '../record/record.ts'
import { relationEvidence } from './evidence.ts'
import { endFrom, type Start, startsOf } from './resolve.ts'
import { fillStar } from './star.ts'

/** Path of a circuit: `coolant` when it is the only one and has no name. */
export function circuitPath(circuit: Circuit): Path {
  return asPath(circuit.id === undefined ? 'coolant' : `coolant/${circuit.id}`)
}

/** Passages, the faces they cool, and the order in which the coolant visits them. */
export function addCoolant(graph: TeardownGraph, record: TeardownRecord): void {
  for (const circuit of record.sheet.coolant ?? []) {
    const path = circuitPath(circuit)
    for (const passage of circuit.passages ?? []) addPassage(graph, record, path, passage)
    addFlows(graph, path, circuit)
  }
}

type Passage = NonNullable<Circuit['passages']>[number]

function addPassage(graph: TeardownGraph, record: TeardownRecord, circuit: Path, passage: Passage): void {
  const names = Object.keys(passage.each ?? {})
  for (const name of names.length > 0 ? names : [undefined]) {
    const node = asPath(`coolant/${passage.id}${name === undefined ? '' : `.${name}`}`)
    graph.addNode(node, { kind: 'passage', circuit })
    const own = name === undefined ? undefined : passage.each?.[name]
    for (const cooled of own?.cools ?? passage.cools ?? []) {
      const face = cooledFace(record, cooled.face, name)
      const entry = asPath(`${node}/cools/${cooled.id}`)
      if (graph.hasNode(face)) graph.addEdge(node, face, { kind: 'cools', evidence: relationEvidence(cooled), entry })
    }
  }
}

/** The face a passage touches; a star in it is the passage's own piece. */
function cooledFace(record: TeardownRecord, typed: string, name: string | undefined): Path {
  const text = fillStar(typed, name)
  const start: Start = { ...startsOf(record, text.split('/')[0]!)[0]!, star: name }
  return endFrom(record, text, start)
}

/** Levels of the sequence alternate: one after the other, side by side, one after the other. */
function addFlows(graph: TeardownGraph, circuit: Path, typed: Circuit): void {
  for (const end of ['inlet', 'outlet'] as const) graph.addNode(`${circuit}/${end}`, { kind: 'port', circuit, end })
  const doubts = doubtsOf(typed)
  const node = (name: string): Path =>
    asPath(name === 'inlet' || name === 'outlet' ? `${circuit}/${name}` : `coolant/${name}`)
  const link = (from: readonly string[], to: readonly string[]): void => {
    for (const a of from) {
      for (const b of to) {
        if (!graph.hasNode(node(a)) || !graph.hasNode(node(b))) continue
        graph.addEdge(node(a), node(b), { kind: 'flows', evidence: doubts.get(`${a} ${b}`) ?? relationEvidence(typed) })
      }
    }
  }
  series(typed.sequence ?? [], link)
}

interface Ends {
  readonly first: readonly string[]
  readonly last: readonly string[]
}

function series(items: readonly Sequence[], link: (from: readonly string[], to: readonly string[]) => void): Ends {
  const ends = items.map((item) => (typeof item === 'string' ? only(item) : parallel(item, link)))
  for (let at = 1; at < ends.length; at++) link(ends[at - 1]!.last, ends[at]!.first)
  return { first: ends[0]?.first ?? [], last: ends.at(-1)?.last ?? [] }
}

function parallel(items: readonly Sequence[], link: (from: readonly string[], to: readonly string[]) => void): Ends {
  const ends = items.map((item) => (typeof item === 'string' ? only(item) : series(item, link)))
  return { first: ends.flatMap((end) => end.first), last: ends.flatMap((end) => end.last) }
}

const only = (name: string): Ends => ({ first: [name], last: [name] })

function doubtsOf(circuit: Circuit): ReadonlyMap<string, Evidence> {
  return new Map(
    (circuit.doubts ?? []).map((doubt) => [
      doubt.flow
        .trim()
        .split(/\s+to\s+/)
        .join(' '),
      relationEvidence(doubt),
    ]),
  )
}
