import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openStructure } from '../../../graph/build.ts'
import type { Query } from '../../../graph/query.ts'
import { record } from '../../fixtures/record.ts'
import type { Question } from '../structure-fixture.ts'
import { type Order, type PhysicalPiece, type RandomUnit, randomUnit } from './random-unit.ts'

const unit = fc.array(fc.nat(999), { minLength: 60, maxLength: 60 }).map(randomUnit)
const RUNS = { numRuns: 250 }

function askingOf({ sections }: RandomUnit) {
  const structure = openStructure(record(sections))
  return (question: Question): readonly string[] =>
    structure.answer(question as unknown as Query, { counts: 'BUILT' }).paths
}
const sorted = (paths: Iterable<string>): readonly string[] => [...new Set(paths)].sort()

/** All that can be reached, by joining pairs until no more are found. */
function closure(pairs: readonly (readonly [string, string])[]): (from: string) => ReadonlySet<string> {
  return (from) => {
    const reached = new Set([from])
    for (let before = 0; before < reached.size; ) {
      before = reached.size
      for (const [a, b] of pairs) if (reached.has(a)) reached.add(b)
    }
    return reached
  }
}

/** Where the heat of a piece ends: by itself, its faces and what is inside of it; else as that of what holds it. */
function endsOf({ pieces, conducts, cools }: RandomUnit) {
  const reach = closure([...conducts, ...cools.map(([passage, face]) => [face, passage] as const)])
  const inside = (piece: PhysicalPiece): readonly PhysicalPiece[] => [
    piece,
    ...pieces.filter(({ holder }) => holder === piece.path).flatMap(inside),
  ]
  const ends = (piece: PhysicalPiece): readonly string[] => {
    const starts = inside(piece).flatMap(({ path, faces }) => [path, ...faces])
    const found = starts.flatMap((start) => [...reach(start)]).filter((one) => /^(coolant|ambient)\//.test(one))
    const holder = pieces.find(({ path }) => path === piece.holder)
    return found.length > 0 || !holder ? sorted(found) : ends(holder)
  }
  return { ends, inside }
}

/** Everything that the coolant passes before a passage: what stands before it in each row that it is in. */
function upstreamOf(order: Order, passage: string): readonly string[] | undefined {
  if (typeof order === 'string') return order === passage ? [] : undefined
  for (const [at, one] of order.of.entries()) {
    const within = upstreamOf(one, passage)
    if (within) return order.row ? [...order.of.slice(0, at).flatMap(all), ...within] : within
  }
  return undefined
}
const all = (order: Order): readonly string[] => (typeof order === 'string' ? [order] : order.of.flatMap(all))

describe('walks over random units, beside a second way to the same answers', () => {
  it('what comes in how many pieces, what holds what', () => {
    fc.assert(
      fc.property(unit, (made) => {
        const ask = askingOf(made)
        for (const entry of new Set(made.pieces.map((piece) => piece.entry))) {
          const mine = made.pieces.filter((piece) => piece.entry === entry).map(({ path }) => path)
          expect(ask({ ask: 'pieces', of: entry })).toEqual(mine)
        }
        for (const { path, holder, faces } of made.pieces) {
          expect(ask({ ask: 'holder', piece: path })).toEqual(holder ? [holder] : [])
          expect(sorted(ask({ ask: 'faces', part: path }))).toEqual(sorted(faces))
          const held = made.pieces.filter((one) => one.holder === path).map((one) => one.path)
          expect(sorted(ask({ ask: 'inside', part: path }))).toEqual(sorted(held))
        }
      }),
      RUNS,
    )
  })

  it('what is on a net, and between two', () => {
    fc.assert(
      fc.property(unit, (made) => {
        const ask = askingOf(made)
        const nets = sorted(made.pieces.flatMap(({ terminals }) => Object.values(terminals)))
        const on = (net: string) => made.pieces.filter(({ terminals }) => Object.values(terminals).includes(net))
        for (const net of nets) {
          expect(sorted(ask({ ask: 'on-net', net }))).toEqual(sorted(on(net).map(({ path }) => path)))
          for (const other of nets) {
            const both = on(net).filter((piece) => on(other).includes(piece))
            const found = ask({ ask: 'across', nets: [net, other] })
            expect(sorted(found)).toEqual(sorted(both.map(({ path }) => path)))
          }
        }
        for (const { path, terminals } of made.pieces)
          for (const [terminal, net] of Object.entries(terminals))
            expect(ask({ ask: 'net-of', piece: path, terminal })).toEqual([net])
      }),
      RUNS,
    )
  })

  it('where heat ends, and backwards from a passage', () => {
    let ending = 0
    fc.assert(
      fc.property(unit, (made) => {
        const ask = askingOf(made)
        const { ends, inside } = endsOf(made)
        for (const piece of made.pieces) {
          const found = ends(piece)
          ending += found.length
          expect(sorted(ask({ ask: 'heat-ends', piece: piece.path }))).toEqual(found)
        }
        // What a path starts at, or holds such a face, and all inside of it.
        const giving = made.pieces
          .filter(({ path, faces }) => made.conducts.some(([from]) => from === path || faces.includes(from)))
          .flatMap(inside)
        for (const end of [...made.passages, 'ambient/air', 'ambient/frame']) {
          const heating = giving.filter((piece) => ends(piece).includes(end)).map(({ path }) => path)
          expect(sorted(ask({ ask: 'heated-by', passage: end }))).toEqual(sorted(heating))
        }
      }),
      RUNS,
    )
    expect(ending).toBeGreaterThan(RUNS.numRuns)
  })

  it('heat paths begin and end where they are said to, piece by piece', () => {
    fc.assert(
      fc.property(unit, (made) => {
        const ask = askingOf(made)
        const found = ask({ ask: 'heat-paths' }).map((path) =>
          [ask({ ask: 'heat-start', path })[0], ask({ ask: 'heat-to', path })[0]].join(' → '),
        )
        expect([...found].sort()).toEqual(made.conducts.map((ends) => ends.join(' → ')).sort())
      }),
      RUNS,
    )
  })

  it('everything upstream of a passage, and what enters it directly', () => {
    fc.assert(
      fc.property(unit, (made) => {
        const ask = askingOf(made)
        for (const passage of made.passages) {
          const upstream = sorted(upstreamOf(made.order, passage)!)
          expect(sorted(ask({ ask: 'upstream', passage }))).toEqual(upstream)
          // What enters it is upstream and upstream of nothing else that is upstream, or it is the inlet.
          const direct = upstream.filter(
            (one) => !upstream.some((other) => upstreamOf(made.order, other)!.includes(one)),
          )
          const entered = ask({ ask: 'entered', passage })
          expect(sorted(entered)).toEqual(direct.length > 0 ? direct : ['coolant/inlet'])
          const after = made.passages.filter((other) => upstreamOf(made.order, other)!.includes(passage))
          const next = after.filter((one) => !after.some((other) => upstreamOf(made.order, one)!.includes(other)))
          expect(sorted(ask({ ask: 'flows-to', node: passage }))).toEqual(
            next.length > 0 ? sorted(next) : ['coolant/outlet'],
          )
        }
      }),
      RUNS,
    )
  })
})
