import { describe, expect, it } from 'vitest'
import { asking, structureOf } from '../structure-fixture.ts'

const passages = (...ids: readonly string[]) =>
  `  passages: [ ${ids.map((id) => `{ id: ${id}, pipe: {} }`).join(', ')} ]`
const water = (sequence: string, ...ids: readonly string[]) =>
  asking(`parts: []\ncoolant:\n  fluid: water\n${passages(...ids)}\n  sequence: ${sequence}\n`)
const upstream = (ask: ReturnType<typeof water>, passage: string) =>
  ask
    .paths({ ask: 'upstream', passage: `coolant/${passage}` })
    .map((path) => path.replace('coolant/', ''))
    .toSorted()
    .join(' ')

describe('the order of the coolant', () => {
  it('levels alternate: in a row, side by side, in a row', () => {
    const ask = water('[inlet, a, [[b, c], d, [e, [f, g], h]], i, outlet]', ...'abcdefghi')
    expect(Object.fromEntries([...'abcdefghi'].map((one) => [one, upstream(ask, one)]))).toEqual({
      a: '',
      b: 'a',
      c: 'a b',
      d: 'a',
      e: 'a',
      f: 'a e',
      g: 'a e',
      h: 'a e f g',
      i: 'a b c d e f g h',
    })
    expect(ask.paths({ ask: 'entered', passage: 'coolant/i' }).toSorted()).toEqual([
      'coolant/c',
      'coolant/d',
      'coolant/h',
    ])
    expect(ask.paths({ ask: 'entered', passage: 'coolant/a' })).toEqual(['coolant/inlet'])
    expect(ask.paths({ ask: 'flows-to', node: 'coolant/e' })).toEqual(['coolant/f', 'coolant/g'])
    expect(ask.paths({ ask: 'flows-to', node: 'coolant/i' })).toEqual(['coolant/outlet'])
    expect(ask.paths({ ask: 'flows-to', node: 'coolant/inlet' })).toEqual(['coolant/a'])
  })

  it('two groups side by side after each other: each of the second comes after each of the first', () => {
    const ask = water('[inlet, [a, b], [c, d], outlet]', ...'abcd')
    expect(upstream(ask, 'c')).toBe('a b')
    expect(upstream(ask, 'd')).toBe('a b')
  })

  it('a passage that nothing enters has nothing before it and no position', () => {
    const structure = structureOf(
      `parts: []\ncoolant:\n  fluid: water\n${passages('a', 'b', 'c', 'lost')}\n  sequence: [inlet, a, [b, c], outlet]\n`,
    )
    const stage = (id: string) => structure.stageOf(`coolant/${id}` as never)
    expect(['a', 'b', 'c', 'lost'].map(stage)).toEqual([0, 1, 1, null])
    const entered = structure.answer({ ask: 'entered', passage: 'coolant/lost' as never }, { counts: 'BUILT' })
    expect(entered.paths).toEqual([])
  })

  it('the position counts the longest way', () => {
    const structure = structureOf(
      `parts: []\ncoolant:\n  fluid: water\n${passages(...'abcd')}\n  sequence: [inlet, [[a, b], c], d, outlet]\n`,
    )
    expect([...'abcd'].map((id) => structure.stageOf(`coolant/${id}` as never))).toEqual([0, 1, 0, 2])
  })

  it('doubt about a single flow is doubt about what comes after it', () => {
    const ask = asking(`parts: []
coolant:
  fluid: water
  basis: measured
  passages: [ { id: a, pipe: {} }, { id: low, each: { u: {}, v: {} }, pipe: {} }, { id: b, pipe: {} } ]
  sequence: [inlet, a, [low.u, low.v], b, outlet]
  doubts: [ { flow: a to low.u, basis: assumed, rests-on: even } ]
findings: [ { id: even, about: [low.u], observation: alike, reading: even split, status: held, confidence: likely } ]
`)
    const of = (passage: string) => ask({ ask: 'upstream', passage: `coolant/${passage}` })
    expect(of('low.u')).toMatchObject({ paths: ['coolant/a'], basis: 'assumed', restsOn: ['findings/even'] })
    expect(of('low.v').restsOn).toEqual([])
    expect(of('b')).toMatchObject({ basis: 'assumed', restsOn: ['findings/even'] })
    expect(ask({ ask: 'flows-to', node: 'coolant/a' }).basis).toBe('assumed')
  })
})

describe('several circuits', () => {
  const ask = asking(`parts: [ { id: plate, class: cold-plate, faces: { wet: {}, air: {} } } ]
coolant:
  - { id: glycol, fluid: ethylene-glycol-water, passages: [ { id: a, pipe: {}, cools: [ { face: plate/wet } ] }, { id: b, jets: {} } ], sequence: [inlet, a, b, outlet] }
  - { id: breeze, fluid: air, passages: [ { id: duct, fins: {}, minor-losses: [ { kind: contraction, loss-factor: 0.5 } ], cools: [ { face: plate/air } ] } ], sequence: [inlet, duct, outlet] }
`)
  it.each([
    [{ ask: 'circuits' } as const, ['coolant/glycol', 'coolant/breeze']],
    [{ ask: 'circuit-of', passage: 'coolant/duct' } as const, ['coolant/breeze']],
    [{ ask: 'passages' } as const, ['coolant/a', 'coolant/b', 'coolant/duct']],
    [{ ask: 'passages', circuit: 'coolant/glycol' } as const, ['coolant/a', 'coolant/b']],
    [{ ask: 'upstream', passage: 'coolant/duct' } as const, []],
    [{ ask: 'upstream', passage: 'coolant/b' } as const, ['coolant/a']],
    [{ ask: 'entered', passage: 'coolant/duct' } as const, ['coolant/breeze/inlet']],
    [{ ask: 'form-of', passage: 'coolant/b' } as const, ['jets']],
    [{ ask: 'form-of', passage: 'coolant/duct' } as const, ['fins']],
    [{ ask: 'minor-losses', passage: 'coolant/duct' } as const, ['coolant/duct/minor-losses/contraction']],
    [{ ask: 'minor-losses', passage: 'coolant/a' } as const, []],
    [{ ask: 'passage-of', face: 'parts/plate/air' } as const, ['coolant/duct']],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })

  it('one circuit without a name is the coolant itself', () => {
    const one = water('[inlet, a, outlet]', 'a')
    expect(one.paths({ ask: 'circuits' })).toEqual(['coolant'])
    expect(one.paths({ ask: 'circuit-of', passage: 'coolant/a' })).toEqual(['coolant'])
  })
})

describe('pieces of a passage', () => {
  const ask = asking(`parts:
  - { id: module, class: half-bridge-module, each: { u: {}, v: {} }, faces: { wet: {} } }
  - { id: plate, class: cold-plate, faces: { seat: {} } }
coolant:
  fluid: water
  passages:
    - { id: run, each: { u: {}, v: { fins: {}, minor-losses: [ { kind: bend, loss-factor: 1 } ], cools: [ { face: plate/seat } ] } }, fins: {}, minor-losses: [ { kind: contraction, loss-factor: 0.5 } ], cools: [ { face: module.*/wet } ] }
  sequence: [inlet, [run.u, run.v], outlet]
`)
  it.each([
    [{ ask: 'cooled-by', passage: 'coolant/run.u' } as const, ['parts/module.u/wet']],
    // What one piece says of itself stands instead of what all have.
    [{ ask: 'cooled-by', passage: 'coolant/run.v' } as const, ['parts/plate/seat']],
    [{ ask: 'minor-losses', passage: 'coolant/run.u' } as const, ['coolant/run.u/minor-losses/contraction']],
    [{ ask: 'minor-losses', passage: 'coolant/run.v' } as const, ['coolant/run.v/minor-losses/bend']],
    [{ ask: 'passage-of', face: 'parts/module.v/wet' } as const, []],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })
})
