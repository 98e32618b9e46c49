import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import { partsById } from '../../../graph/record/nets-used.ts'
import { metalNetOf, terminalsOfPiece } from '../../../graph/record/piece-terminals.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { part, record, sheetTree } from '../../fixtures/record.ts'

const faultsOf = (parts: readonly Tree[], more: Record<string, Tree> = {}) => {
  const read = recordFromTree(sheetTree({ parts, ...more }))
  return 'faults' in read ? read.faults.map(({ path, what, mend }) => ({ path, what, mend })) : []
}
const namesOf = (more: Record<string, Tree>) =>
  record({ parts: [part('a', 'screw', more)] }).parts.byId.get('a')?.pieces

describe('pieces of a part', () => {
  it.each([
    ['a single part', {}, []],
    ['a count', { count: '3' }, ['1', '2', '3']],
    ['a count of one', { count: '1' }, []],
    ['as built, not as found', { count: { built: '4 (judged)', found: '3 (measured)' } }, ['1', '2', '3', '4']],
    ['a list', { each: [{}, { state: 'cut' }] }, ['1', '2']],
    ['names', { each: { u: {}, v: {} } }, ['u', 'v']],
    ['some by number', { count: '4', each: { '3': { state: 'cut' } } }, ['1', '2', '3', '4']],
    ['a count that is not known', { count: 'not looked for' }, []],
  ] as const)('come from %s', (_, more, names) => {
    expect(namesOf(more as never)).toEqual(names)
  })

  it('multiply with those of the parts around', () => {
    const made = record({
      parts: [
        part('a', 'assembly', {
          count: '3',
          parts: [part('b', 'assembly', { parts: [part('c', 'screw', { each: { l: {}, r: {} } })] })],
        }),
      ],
    })
    const paths = made.parts.piecesOf(made.parts.byId.get('c') as never).map(({ path }) => path)
    expect(paths).toEqual([
      'parts/a.1/c.l',
      'parts/a.1/c.r',
      'parts/a.2/c.l',
      'parts/a.2/c.r',
      'parts/a.3/c.l',
      'parts/a.3/c.r',
    ])
  })

  it('hold what differs, at their own path', () => {
    const made = record({
      parts: [
        part('a', 'assembly', {
          count: '2',
          parts: [part('b', 'screw', { mass: '1 g', each: { l: { mass: '2 g' }, r: {} } })],
        }),
      ],
    })
    expect([...made.facts.keys()].filter((path) => path.endsWith('mass'))).toEqual([
      'parts/a/b/mass',
      'parts/a/b.l/mass',
    ])
  })

  it.each([
    ['four counted and two named', { count: '4', each: { u: {}, v: {} } }, /4 pieces are counted and 2 are named/],
    ['a number beyond the count', { count: '2', each: { '3': {} } }, /2 pieces are counted and 1 are named/],
    ['half a piece', { count: '4.5' }, /./],
    ['a range', { count: '8..10' }, /./],
    ['fewer than none', { count: '-1' }, /./],
    ['more than one entry can hold', { count: '20000' }, /20000 pieces/],
    ['more found than built', { count: { built: '3', found: '4' } }, /4 found of 3 built/],
    ['a mistyped key', { count: { built: '3', foun: '3' } }, /unknown key "foun"/],
    ['a name with a capital', { each: { U: {} } }, /cannot name a piece/],
    ['a state that is none', { state: 'broken' }, /"broken" is not known here/],
    ['a key of one piece that is none', { each: { u: { mas: '1 g' } } }, /unknown key "mas"/],
  ] as const)('are refused with %s', (_, more, what) => {
    const faults = faultsOf([part('a', 'screw', more as never)])
    expect(faults).toHaveLength(1)
    expect(faults[0]?.what).toMatch(what)
    expect(faults[0]?.mend).not.toBe('')
  })

  it('warn when as many are missing as are not', () => {
    const read = recordFromTree(
      sheetTree({
        parts: [
          part('a', 'screw', { count: { built: '3', found: '3' }, each: { u: { state: 'missing' }, v: {}, w: {} } }),
        ],
      }),
    )
    expect(read.warnings).toContainEqual(
      expect.objectContaining({ what: expect.stringContaining('1 of 3 have state: missing') }),
    )
  })
})

describe('faces', () => {
  const faces = (typed: Tree) =>
    record({ parts: [part('a', 'cold-plate', { faces: typed })] }).parts.byId.get('a')?.faces

  it('may come in pieces, by each or by dotted keys', () => {
    const expected = [{ name: 'seat', pieces: ['u', 'v'] }]
    expect(faces({ seat: { each: { u: {}, v: {} } } })).toEqual(expected)
    expect(faces({ 'seat.u': {}, 'seat.v': { area: '5 cm²' } })).toEqual(expected)
    expect(faces({ deck: {} })).toEqual([{ name: 'deck', pieces: [] }])
  })

  it('hold what differs at the path of the piece', () => {
    const made = record({
      parts: [part('a', 'cold-plate', { faces: { seat: { area: '5 cm²', each: { u: { area: '6 cm²' }, v: {} } } } })],
    })
    expect([...made.facts.keys()]).toEqual(['parts/a/seat/area', 'parts/a/seat.u/area'])
  })
})

describe('terminals', () => {
  const switches = {
    nets: {
      'dc-plus': {},
      'phase-*': { potential: 'hv-switching' },
      'g-*-high': { 'rides-on': 'phase-*', offset: '-8..15 V' },
    },
    parts: [
      part('module', 'half-bridge-module', {
        terminals: {
          'dc-plus': { net: 'dc-plus', at: '-6 / 0 / 8 mm', basis: 'measured' },
          ac: 'phase-*',
          'gate-high': 'g-*-high (judged; likely)',
          'gate-low': 'not looked for',
        },
        each: { u: {}, v: { terminals: { ac: 'phase-u' } } },
        parts: [part('tab', 'power-terminal', { net: 'phase-*' })],
      }),
    ],
  }
  const made = record(switches)
  const piecesOf = (id: string) => {
    const typed = partsById(made.sheet.parts).get(id)
    const entry = made.parts.byId.get(id)
    if (!typed || !entry) throw new Error(id)
    return made.parts.piecesOf(entry).map((piece) => ({ typed, piece }))
  }

  it('are those of the entry, those of the piece before them, a star being the name of the piece', () => {
    const nets = piecesOf('module').map(({ typed, piece }) =>
      terminalsOfPiece(typed, piece).map(({ name, net }) => [name, net]),
    )
    expect(nets).toEqual([
      [
        ['dc-plus', 'dc-plus'],
        ['ac', 'phase-u'],
        ['gate-high', 'g-u-high'],
        ['gate-low', undefined],
      ],
      [
        ['dc-plus', 'dc-plus'],
        ['ac', 'phase-u'],
        ['gate-high', 'g-v-high'],
        ['gate-low', undefined],
      ],
    ])
  })

  it('take the name of the part around where their own comes once', () => {
    expect(piecesOf('tab').map(({ typed, piece }) => metalNetOf(typed, piece))).toEqual(['phase-u', 'phase-v'])
  })

  it('carry how we know them: by eye unless they say otherwise', () => {
    const terminals = partsById(made.sheet.parts).get('module')?.terminals
    expect(terminals?.ac?.evidence).toMatchObject({ basis: 'judged' })
    expect(terminals?.['dc-plus']?.evidence).toMatchObject({ basis: 'measured' })
    expect(terminals?.['gate-high']?.evidence).toMatchObject({ basis: 'judged', confidence: 'likely' })
    expect(terminals?.['gate-low']).toMatchObject({ nothing: 'not-looked-for' })
  })

  it('make the nets of a form that something is on, with what they ride on', () => {
    expect(Object.keys(made.sheet.nets ?? {}).toSorted()).toEqual([
      'dc-plus',
      'g-u-high',
      'g-v-high',
      'phase-u',
      'phase-v',
    ])
    expect(made.sheet.nets?.['g-v-high']?.['rides-on']?.is).toBe('phase-v')
    expect(made.facts.has('nets/g-v-high/offset' as never)).toBe(true)
  })

  it('of chips are pins, in lists and ranges', () => {
    const chip = record({
      nets: { gnd: {}, x: {} },
      parts: [part('mcu', 'microcontroller', { terminals: { '1 12 44..47': 'gnd (measured)', '60': 'x' } })],
    })
    expect(Object.keys(chip.sheet.parts?.[0]?.terminals ?? {})).toEqual(['1', '12', '44', '45', '46', '47', '60'])
  })

  it.each([
    [
      'a name of another class',
      part('a', 'half-bridge-module', { terminals: { dcplus: 'n' } }),
      /no terminal "dcplus"/,
      /dc-plus/,
    ],
    [
      'a pin of a part without pins',
      part('a', 'bleed-resistor', { terminals: { '3': 'n' } }),
      /no terminal "3"/,
      /1, 2/,
    ],
    [
      'any on a part without',
      part('a', 'screw', { terminals: { '1': 'n' } }),
      /a screw has no terminals/,
      /another class/,
    ],
    [
      'a range that runs backwards',
      part('a', 'microcontroller', { terminals: { '9..5': 'n' } }),
      /"9\.\.5" is no pin/,
      /44\.\.47/,
    ],
    [
      'a pin twice',
      part('a', 'microcontroller', { terminals: { '1..3': 'n', '2': 'n' } }),
      /terminal "2" stands here twice/,
      /./,
    ],
    [
      'a net that is not declared',
      part('a', 'bleed-resistor', { terminals: { '1': 'm' } }),
      /no net has the id "m"/,
      /nets:/,
    ],
    [
      'a net of one piece that is not declared',
      part('a', 'bleed-resistor', { each: { u: { terminals: { '1': 'm' } } } }),
      /no net has the id "m"/,
      /./,
    ],
    ['no net', part('a', 'bleed-resistor', { terminals: { '1': { at: '1 / 2 / 3 mm' } } }), /without a net/, /net:/],
  ])('are refused with %s', (_, typed, what, mend) => {
    const faults = faultsOf([typed], { nets: { n: {} } })
    expect(faults).toHaveLength(1)
    expect(faults[0]?.what).toMatch(what)
    expect(faults[0]?.mend).toMatch(mend)
  })
})
