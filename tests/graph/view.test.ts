import { describe, expect, it } from 'vitest'
import type { Lack } from '../../graph/lack.ts'
import { openView, seenOf } from '../../graph/open-view.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import { DEFAULT_SETTINGS } from '../../graph/settings.ts'
import type { Draw } from '../../graph/values.ts'
import { openValues } from '../../graph/values.ts'
import type { FigureCompute, Model, View } from '../../graph/view.ts'
import { paths, structureOf } from './structure-fixture.ts'

const structure = structureOf(`parts:
  - { id: a, class: bracket, mass: 2 kg ± 0.1 kg (measured), material: steel-sheet }
  - { id: b, class: bracket, mass: 3 kg ± 0.1 kg (measured) }
  - { id: bound, class: bracket, mass: above 1 kg (judged) }
  - { id: blank, class: bracket, mass: not looked for }
  - { id: gone, class: bracket, mass: absent }
  - { id: none, class: bracket, mass: not applicable }
  - { id: pieces, class: screw, count: 2, mass: 5 g ± 1 g (measured) }
census: [ { of: inductor, found: none, basis: measured } ]
`)

const noFigure: FigureCompute = () => {
  throw new Error('no figure here')
}

/** A view of its own for each test, so that nothing is remembered from another. */
function open(compute: FigureCompute = noFigure) {
  const values = openValues(structure.record, [], structure.variesEach)
  return { values, ...openView(values, structure.answer, DEFAULT_SETTINGS, compute) }
}

const mass = (id: string): Path => asPath(`parts/${id}/mass`)
const lackOf = (run: (view: View) => unknown): Lack | undefined => open().record(run).lack
const draw = (moved: Exclude<Draw, null>['moved'], by = 1): Draw => ({ moved, deviation: () => by })

describe('numbers that are needed', () => {
  it('come in SI, together', () => {
    const { value } = open().record((view) => view.need({ a: mass('a'), b: mass('b') }))
    expect(value).toEqual({ a: 2, b: 3 })
  })

  it.each<[string, string]>([
    ['bound', 'bound-only'],
    ['blank', 'not-looked-for'],
    ['gone', 'absent'],
    ['none', 'not-applicable'],
    ['nothing', 'no-such-key'],
  ])('%s lacks: %s', (id, why) => {
    expect(lackOf((view) => view.need({ it: mass(id) }))).toEqual({ path: mass(id), why })
  })

  it('all that are lacking are told at once', () => {
    expect(lackOf((view) => view.need({ a: mass('a'), x: mass('blank'), y: mass('gone') }))).toEqual({
      allOf: [
        { path: mass('blank'), why: 'not-looked-for' },
        { path: mass('gone'), why: 'absent' },
      ],
    })
  })

  it('a word is no number, and a number no word', () => {
    const material = asPath('parts/a/material')
    expect(lackOf((view) => view.need({ it: material }))).toEqual({ path: material, why: 'not-a-number' })
    expect(open().record((view) => view.word(material)).value).toBe('steel-sheet')
    expect(lackOf((view) => view.word(asPath('parts/b/material')))).toMatchObject({ why: 'no-such-key' })
    expect(
      open().record((view) => [view.mayWord(mass('a')), view.may(material), view.may(mass('bound'))]).value,
    ).toEqual([undefined, undefined, undefined])
  })
})

describe('several reads', () => {
  it('go on past a lack and report all of them, each once', () => {
    const lack = lackOf((view) =>
      view.all(
        () => view.need({ x: mass('blank') }),
        () => view.each(['a', 'gone', 'blank'], (id) => view.need({ m: mass(id) }).m),
        () => view.some({ ask: 'parts', class: 'bleed-resistor' }),
      ),
    )
    expect(lack).toEqual({
      allOf: [
        { path: mass('blank'), why: 'not-looked-for' },
        { path: mass('gone'), why: 'absent' },
        { query: { ask: 'parts', class: 'bleed-resistor' }, why: 'census-open' },
      ],
    })
  })

  it('give their results in order', () => {
    const { value } = open().record((view) =>
      view.all(
        () => view.each(['b', 'a'], (id) => view.need({ m: mass(id) }).m),
        () => view.word(asPath('parts/a/material')),
      ),
    )
    expect(value).toEqual([[3, 2], 'steel-sheet'])
  })

  it('the first way that works is taken, and a way that lost is no lack', () => {
    let tried = 0
    const { value, lack, trail } = open().record((view) =>
      view.first([
        { name: 'weighed', read: () => view.need({ m: mass('blank') }).m },
        { name: 'stated', read: () => view.need({ m: mass('a') }).m },
        { name: 'never', read: () => ++tried },
      ]),
    )
    expect({ value, lack, tried }).toEqual({ value: { way: 'stated', value: 2 }, lack: undefined, tried: 0 })
    // Both were read: had the first been there, the answer would be another.
    expect([...trail.reads.keys()]).toEqual([`v:${mass('blank')}`, `v:${mass('a')}`])
  })

  it('where no way works, one lack names all of them', () => {
    const ways = (...ids: readonly string[]) =>
      lackOf((view) => view.first(ids.map((id) => ({ name: id, read: () => view.need({ m: mass(id) }) }))))
    expect(ways('blank', 'gone')).toEqual({
      anyOf: [
        { path: mass('blank'), why: 'not-looked-for' },
        { path: mass('gone'), why: 'absent' },
      ],
    })
    expect(ways('blank')).toEqual({ path: mass('blank'), why: 'not-looked-for' })
  })

  it('a fault that is no lack is not swallowed', () => {
    const broken = (): never => {
      throw new TypeError('a fault of the program')
    }
    const runs: readonly ((view: View) => unknown)[] = [
      (view) => view.first([{ name: 'x', read: broken }]),
      (view) => view.each([1], broken),
      (view) => view.all(broken),
    ]
    for (const run of runs) expect(() => open().record(run)).toThrow(TypeError)
  })
})

describe('structural questions', () => {
  it('empty and nobody looked is missing, empty and looked is not applicable', () => {
    expect(lackOf((view) => view.some({ ask: 'parts', class: 'inductor' }))).toMatchObject({ why: 'none-found' })
    expect(lackOf((view) => view.some({ ask: 'parts', class: 'transformer' }))).toMatchObject({ why: 'census-open' })
    expect(lackOf((view) => view.find({ ask: 'parts', class: 'transformer' }))).toBeUndefined()
  })

  it('are logged with what came back', () => {
    const { trail } = open().record((view) => view.find({ ask: 'pieces', of: asPath('parts/pieces') }))
    expect([...trail.reads.values()]).toEqual([
      {
        kind: 'query',
        query: { ask: 'pieces', of: 'parts/pieces' },
        seen: expect.stringContaining('parts/pieces.1 parts/pieces.2'),
      },
    ])
  })

  it('have another fingerprint when the answer, its evidence or what it rests on is another', () => {
    const found = {
      paths: paths('parts/a'),
      census: 'complete',
      basis: 'measured',
      restsOn: paths('findings/f'),
    } as const
    const others = [
      { ...found, paths: paths('parts/a', 'parts/b') },
      { ...found, census: 'open' },
      { ...found, basis: 'judged' },
      { ...found, restsOn: [] },
      { ...found, restsOn: paths('findings/g') },
      { ...found, fallen: paths('findings/f') },
    ] as const
    expect(new Set([found, ...others].map(seenOf)).size).toBe(7)
    expect(seenOf({ ...found })).toBe(seenOf(found))
  })

  it('settings are logged with what they were', () => {
    const { trail, value } = open().record((view) => view.setting('power'))
    expect(value).toBe('PEAK')
    expect([...trail.reads.values()]).toEqual([{ kind: 'setting', name: 'power', seen: 'PEAK' }])
  })
})

describe('what is shared', () => {
  const counting = () => {
    const seen: string[] = []
    const model: Model<number> = {
      id: 'sum',
      compute(view, subject) {
        seen.push(subject)
        view.note(`sum of ${subject}`)
        const { m } = view.need({ m: asPath(`${subject}/mass`) })
        return m
      },
    }
    return { seen, model }
  }
  const A = asPath('parts/a')
  const B = asPath('parts/b')

  it('a model is computed once for each subject, and its log joins that of each that uses it', () => {
    const { seen, model } = counting()
    const viewer = open()
    const first = viewer.record((view) => view.model(model, A) + view.model(model, A))
    const second = viewer.record((view) => view.model(model, A) + view.model(model, B))
    expect([first.value, second.value, seen]).toEqual([4, 5, [A, B]])
    expect([...first.trail.reads.keys()]).toEqual([`v:${mass('a')}`])
    expect([...second.trail.reads.keys()].sort()).toEqual([`v:${mass('a')}`, `v:${mass('b')}`])
    expect([...second.trail.notes]).toEqual([`sum of ${A}`, `sum of ${B}`])
  })

  it('what is read quietly is read, but what it notes is heard only by who asks for it aloud', () => {
    const { model } = counting()
    const viewer = open()
    const quiet = viewer.record((view) => view.quietly(() => view.model(model, A)) + view.model(model, B))
    expect(quiet.value).toBe(5)
    expect([...quiet.trail.reads.keys()].sort()).toEqual([`v:${mass('a')}`, `v:${mass('b')}`])
    expect([...quiet.trail.notes]).toEqual([`sum of ${B}`])
    const both = viewer.record((view) => view.quietly(() => view.model(model, A)) + view.model(model, A))
    expect([...both.trail.notes]).toEqual([`sum of ${A}`])
    expect([...both.trail.influences]).toEqual([
      ...viewer.record((view) => view.quietly(() => view.model(model, A))).trail.influences,
    ])
    expect(both.trail.influences.size).toBe(1)
  })

  it('what it lacks is remembered as well', () => {
    const { seen, model } = counting()
    const viewer = open()
    const subject = asPath('parts/blank')
    for (let n = 0; n < 3; n++)
      expect(viewer.record((view) => view.model(model, subject)).lack).toMatchObject({ why: 'not-looked-for' })
    expect(seen).toEqual([subject])
  })

  it('under a draw it is computed again only where the draw reaches it, and once for each draw', () => {
    const { seen, model } = counting()
    const viewer = open()
    const both = (view: View): number => view.model(model, A) * 100 + view.model(model, B)
    const { trail } = viewer.record(both)
    const ofA = [...viewer.record((view) => view.need({ m: mass('a') })).trail.influences]
    expect(ofA).toHaveLength(1)
    expect(trail.influences.size).toBe(2)
    seen.length = 0
    const moved = draw(new Set(ofA), 0.5)
    expect(viewer.under(moved, both)).toBe(2.5 * 100 + 3)
    expect(viewer.under(moved, both)).toBe(2.5 * 100 + 3)
    expect(seen).toEqual([A])
    expect(viewer.under(draw('all', 0.5), both)).toBe(2.5 * 100 + 3.5)
    expect(seen).toEqual([A, A, B])
    expect(viewer.record(both).value).toBe(203)
    expect(seen).toHaveLength(3)
  })

  it('notes and logs are made at the values written, not under draws', () => {
    const viewer = open()
    const noting = (view: View): number => {
      view.note(String(view.need({ m: mass('a') }).m))
      return 0
    }
    const { trail } = viewer.record((view) => {
      viewer.under(draw('all'), noting)
      return noting(view)
    })
    expect([...trail.notes]).toEqual(['2'])
  })

  it('a figure that depends on itself is refused with the way it does', () => {
    const viewer = open((view, id, subject) => view.figure(id === 'X' ? 'Y' : 'X', subject))
    expect(() => viewer.record((view) => view.figure('X', A))).toThrow(
      /figure X parts\/a → figure Y parts\/a → figure X parts\/a/,
    )
    // The view can go on afterwards.
    expect(viewer.record((view) => view.need({ m: mass('a') })).value).toEqual({ m: 2 })
  })

  it('a figure known only between bounds gives no number to another', () => {
    const viewer = open(() => ({ low: 1, high: 2 }))
    expect(viewer.record((view) => view.figure('X', A)).lack).toMatchObject({ kind: 'refused' })
  })
})

describe('a discrete choice', () => {
  const heavier = (view: View): string =>
    view.choice('heavier', () => (view.need({ a: mass('a') }).a > view.need({ b: mass('b') }).b ? 'a' : 'b'))

  it('made at the values written stays under every draw', () => {
    const viewer = open()
    expect(viewer.record(heavier).value).toBe('b')
    // a is lifted to 12 kg, b stays.
    const ofA = new Set(viewer.record((view) => view.need({ m: mass('a') })).trail.influences)
    expect(viewer.under(draw(ofA, 10), heavier)).toBe('b')
  })

  it('that only a draw asks for is made at the values written all the same', () => {
    const viewer = open()
    const ofA = new Set(viewer.record((view) => view.need({ m: mass('a') })).trail.influences)
    expect(viewer.under(draw(ofA, 10), heavier)).toBe('b')
    expect(viewer.record(heavier).value).toBe('b')
  })

  it('names what it stands on, and is not perturbed by it', () => {
    const { trail } = open().record(heavier)
    expect([...trail.reads.keys()].sort()).toEqual([`v:${mass('a')}`, `v:${mass('b')}`])
    expect(trail.influences.size).toBe(0)
  })
})

describe('doubts that stand in no record', () => {
  const path = asPath('tables/films')
  const shape = { kind: 'normal', u: 0.1 } as const

  it('are zero at the values written, move under a draw, and are logged', () => {
    const viewer = open()
    const factor = (view: View): number => 1 + view.doubt(path, shape, 'films within 10 %')
    const { value, trail } = viewer.record(factor)
    expect(value).toBe(1)
    expect(trail.influences.size).toBe(1)
    expect(viewer.under(draw(trail.influences, 0.1), factor)).toBeCloseTo(1.1, 12)
    expect(viewer.values.influence([...trail.influences][0]!)).toMatchObject({ id: path, scope: 'corpus', u: 0.1 })
  })
})

describe('shares of a cause by where it stands', () => {
  it('a draw restricted to one home moves that home alone', () => {
    const viewer = open()
    const sum = (view: View): number => {
      const { a, b } = view.need({ a: mass('a'), b: mass('b') })
      return a + b
    }
    viewer.record(sum)
    const only = (home: string): Draw => ({ moved: 'all', deviation: () => 1, only: mass(home) })
    expect(viewer.under(draw('all'), sum)).toBe(7)
    expect(viewer.under(only('a'), sum)).toBe(6)
    expect(viewer.under(only('pieces'), sum)).toBe(5)
  })
})

describe('evidence of figures', () => {
  it('the values they stand on, with their basis; those that lack are left out, and watched', () => {
    const viewer = open((view, id) => view.need({ m: mass(id) }).m)
    const { value, trail } = viewer.record((view) =>
      view.evidence(['a', 'blank'].map((id) => ({ id, subject: asPath('specimen') }))),
    )
    expect(value).toEqual([{ path: mass('a'), basis: 'measured' }])
    expect([...trail.reads.keys()].sort()).toEqual([`v:${mass('a')}`, `v:${mass('blank')}`])
  })
})

describe('what cannot be told', () => {
  it('is refused with a reason and a place, or not applicable', () => {
    expect(lackOf((view) => view.fail('no current', 'refused', asPath('parts/a')))).toEqual({
      reason: 'no current',
      kind: 'refused',
      at: 'parts/a',
    })
    expect(lackOf((view) => view.fail('no link', 'not-applicable'))).toEqual({
      reason: 'no link',
      kind: 'not-applicable',
    })
  })

  it('under a draw is undefined, and the next draw is not touched by it', () => {
    const viewer = open()
    expect(viewer.under(draw('all'), (view) => view.fail('no'))).toBeUndefined()
    expect(viewer.under(null, (view) => view.need({ m: mass('a') }).m)).toBe(2)
  })
})
