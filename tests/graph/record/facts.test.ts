import { describe, expect, it } from 'vitest'
import { standardUncertainty } from '../../../graph/quantity/quantity.ts'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import type { TeardownRecord, Tree } from '../../../graph/record/record.ts'
import { part, record, sheetTree } from '../../fixtures/record.ts'

const factOf = (of: TeardownRecord, path: string) => of.facts.get(path as never)
const siOf = (of: TeardownRecord, path: string) => factOf(of, path)?.taken.quantity?.value
const termsOf = (of: TeardownRecord, path: string) =>
  (factOf(of, path)?.taken.quantity?.terms ?? []).map((term) => ({ ...term, cause: of.influences.get(term.influence) }))
/** Standard uncertainty of a fact, its causes taken as independent (JCGM 100:2008 5.1.2). */
const uOf = (of: TeardownRecord, path: string) => {
  const value = siOf(of, path) ?? 0
  const parts = termsOf(of, path).map(({ mode, weight, cause }) => {
    const u = weight * standardUncertainty(cause?.shape ?? { kind: 'normal', u: Number.NaN })
    return mode === 'scale' ? u * value : u
  })
  return Math.hypot(...parts)
}
const one = (property: string, tree: Tree, more: Record<string, Tree> = {}, sections: Record<string, Tree> = {}) =>
  record({ parts: [part('a', 'inductor', { [property]: tree, ...more })], ...sections })

describe('facts by canonical path', () => {
  it('makes one fact of each number of a box, and of a place', () => {
    const made = one('size', '62 x 48 x 4.6 mm (measured)', { at: '-1 / 0 / 2.5 mm' })
    expect(['length', 'width', 'height'].map((side) => siOf(made, `parts/a/size/${side}`))).toEqual([
      0.062, 0.048, 0.0046,
    ])
    expect(['x', 'y', 'z'].map((axis) => siOf(made, `parts/a/at/${axis}`))).toEqual([-0.001, 0, 0.0025])
    expect(factOf(made, 'parts/a/size')).toBeUndefined()
  })

  it('knows a box of two sides', () => {
    const made = one('size', '62 x 48 mm (measured)')
    expect(siOf(made, 'parts/a/size/width')).toBe(0.048)
    expect(factOf(made, 'parts/a/size/height')).toBeUndefined()
  })

  it('makes one fact of an area typed as two sides, with a cause of doubt for each', () => {
    const made = one('area', '58 ± 0.5 x 44 ± 0.5 mm (measured)')
    expect(siOf(made, 'parts/a/area')).toBeCloseTo(58e-3 * 44e-3, 12)
    expect(termsOf(made, 'parts/a/area').map(({ mode }) => mode)).toEqual(['scale', 'scale'])
    // Product of two lengths: relative variances add (JCGM 100:2008 5.1.6).
    const relative = Math.hypot(0.5 / 58, 0.5 / 44) / Math.sqrt(3)
    expect(uOf(made, 'parts/a/area') / (58e-3 * 44e-3)).toBeCloseTo(relative, 6)
  })

  it('puts conditions below the claim that is taken, and those of another below its number', () => {
    const claims = [
      { value: '19.4 µH ± 2 %', basis: 'measured', at: { frequency: '10 kHz' } },
      { value: '9.6 µH ± 3 %', basis: 'measured', at: { frequency: '200 kHz' } },
    ]
    const made = one('inductance', { claims, take: '1', because: 'nearest' })
    expect(siOf(made, 'parts/a/inductance')).toBeCloseTo(19.4e-6, 12)
    expect(siOf(made, 'parts/a/inductance/at/frequency')).toBe(10_000)
    expect(siOf(made, 'parts/a/inductance#2/at/frequency')).toBe(200_000)
    expect(factOf(made, 'parts/a/inductance')?.claims[1]?.at).toEqual({
      frequency: 'parts/a/inductance#2/at/frequency',
    })
    expect(factOf(made, 'parts/a/inductance')?.because).toBe('nearest')
  })

  it('takes a condition as defined, not as known with doubt', () => {
    const made = one('inductance', {
      value: '19 µH',
      basis: 'measured',
      at: { frequency: '10 kHz', temperature: '25 ± 2 °C' },
    })
    expect(termsOf(made, 'parts/a/inductance/at/frequency')).toEqual([])
    expect(termsOf(made, 'parts/a/inductance/at/temperature')).toHaveLength(1)
  })

  it('stores a peak current as rms', () => {
    const made = one('inductance', { value: '19 µH', basis: 'measured', at: { current: '100 A peak' } })
    expect(siOf(made, 'parts/a/inductance/at/current')).toBeCloseTo(100 / Math.SQRT2, 9)
  })

  it('keeps words with how we know them, a marking as read off the part', () => {
    const made = record({
      basis: 'assumed',
      specimen: { kind: 'combined', maker: 'Whinfield Works (invented)', marking: 'WX-28 / 2.2' },
      parts: [part('a', 'screw', { material: 'steel (judged; likely)', role: { value: 'holds', basis: 'reported' } })],
    })
    const word = (path: string) => [factOf(made, path)?.taken.word, factOf(made, path)?.taken.evidence.basis]
    expect(word('specimen/maker')).toEqual(['Whinfield Works (invented)', 'assumed'])
    expect(word('specimen/marking')).toEqual(['WX-28 / 2.2', 'marked'])
    expect(word('parts/a/material')).toEqual(['steel', 'judged'])
    expect(factOf(made, 'parts/a/material')?.taken.evidence.confidence).toBe('likely')
    expect(word('parts/a/role')).toEqual(['holds', 'reported'])
  })

  it.each([
    ['not looked for', 'not-looked-for'],
    ['absent', 'absent'],
    ['not applicable', 'not-applicable'],
    ['unreadable', 'unreadable'],
  ])('knows the nothing "%s", for numbers, boxes and words', (text, nothing) => {
    const made = one('mass', text, { size: text, marking: text })
    for (const path of ['mass', 'size/length', 'size/height', 'marking']) {
      expect(factOf(made, `parts/a/${path}`)?.taken).toMatchObject({ nothing })
      expect(factOf(made, `parts/a/${path}`)?.taken.quantity).toBeUndefined()
    }
  })

  it('keeps a bound apart from a value', () => {
    expect(factOf(one('mass', 'below 5 g (judged)'), 'parts/a/mass')?.taken.quantity).toMatchObject({
      bound: '<',
      terms: [],
    })
  })

  it('asks for the computed loss by its word, and knows one loss for each operating point', () => {
    expect(factOf(one('loss', 'computed'), 'parts/a/loss')?.taken).toMatchObject({ word: 'computed' })
    const made = one('loss', { peak: '19 W', continuous: 'computed' })
    expect(siOf(made, 'parts/a/loss/peak')).toBe(19)
    expect(factOf(made, 'parts/a/loss/continuous')?.taken.word).toBe('computed')
  })

  it('puts short forms where the operating points are', () => {
    const specimen = { kind: 'combined', 'peak-power': '5 kW', 'switching-frequency': '8 kHz (measured)' }
    const made = record({ specimen, 'operating-points': { continuous: { power: '3 kW' } } })
    expect(siOf(made, 'operating-points/peak/power')).toBe(5000)
    expect(siOf(made, 'operating-points/peak/switching-frequency')).toBe(8000)
    expect(siOf(made, 'operating-points/continuous/switching-frequency')).toBe(8000)
    expect([...made.facts.keys()].filter((path) => path.startsWith('specimen/'))).toEqual([])
  })

  it('refuses a short form beside the same value at the operating point', () => {
    const tree = sheetTree({
      specimen: { kind: 'combined', 'peak-power': '5 kW' },
      'operating-points': { peak: { power: '6 kW' } },
    })
    expect(recordFromTree(tree)).toMatchObject({
      faults: [{ path: 'operating-points/peak/power', what: expect.stringContaining('twice') }],
    })
  })

  it('counts as built and as found, exact', () => {
    const each = { a: {}, b: {}, c: {}, d: { state: 'missing' } }
    const made = record({
      parts: [
        part('y', 'y-capacitor', { count: { built: '4 (judged)', found: '3 (measured)', because: 'pads' }, each }),
        part('s', 'screw', { count: '22' }),
        part('n', 'nut', { each }),
      ],
    })
    const count = (path: string) => [
      siOf(made, path),
      factOf(made, path)?.taken.evidence.basis,
      termsOf(made, path).length,
    ]
    expect(count('parts/y/count/built')).toEqual([4, 'judged', 0])
    expect(count('parts/y/count/found')).toEqual([3, 'measured', 0])
    expect(count('parts/s/count/found')).toEqual([22, 'judged', 0])
    expect(count('parts/n/count/built')).toEqual([4, 'judged', 0])
    expect(count('parts/n/count/found')).toEqual([3, 'judged', 0])
  })
})

describe('what is taken', () => {
  it('goes by the rank of bases, and by "take" where the sheet says so', () => {
    expect(siOf(one('mass', ['5 g (judged)', '6 g (published)', '7 g (marked)']), 'parts/a/mass')).toBe(0.007)
    const taken = one('mass', {
      claims: ['5 g (judged)', '6 g (marked)'],
      take: '1',
      because: 'the label is of another',
    })
    expect(siOf(taken, 'parts/a/mass')).toBe(0.005)
    expect(factOf(taken, 'parts/a/mass')?.claims).toHaveLength(2)
  })

  it('prefers a value to a bound, and a bound to a nothing', () => {
    expect(siOf(one('mass', ['above 4 g (measured)', '5 g (assumed)']), 'parts/a/mass')).toBe(0.005)
    expect(factOf(one('mass', ['not looked for', 'above 4 g (assumed)']), 'parts/a/mass')?.taken.quantity?.bound).toBe(
      '>',
    )
  })

  const cans = (state: string) =>
    record({
      parts: [
        part('can', 'dc-link-film-capacitor', {
          count: '4',
          capacitance: ['130 µF ± 10 % (marked)', { value: '120 ± 1 µF', basis: 'measured', of: 'can.3' }],
          each: { '3': { state } },
        }),
      ],
    })

  it('a claim on one piece holds for it, and is assumed for its sisters', () => {
    const made = cans('whole')
    expect(factOf(made, 'parts/can.3/capacitance')?.taken).toMatchObject({ evidence: { basis: 'measured' } })
    expect(siOf(made, 'parts/can.3/capacitance')).toBeCloseTo(120e-6, 12)
    expect(siOf(made, 'parts/can/capacitance')).toBeCloseTo(130e-6, 12)
    expect(factOf(made, 'parts/can/capacitance')?.claims[1]).toMatchObject({
      of: 'parts/can.3',
      evidence: { basis: 'assumed' },
    })
  })

  it.each(['damaged', 'cut'])('a claim on a %s piece never outranks one on the whole type', (state) => {
    expect(siOf(cans(state), 'parts/can.3/capacitance')).toBeCloseTo(130e-6, 12)
    expect(siOf(cans(state), 'parts/can/capacitance')).toBeCloseTo(130e-6, 12)
  })

  it('the only claim, on one piece, is all there is for its sisters', () => {
    const made = record({
      parts: [part('can', 'inductor', { count: '2', mass: { value: '5 g', basis: 'measured', of: 'can.1' } })],
    })
    expect(factOf(made, 'parts/can/mass')?.taken).toMatchObject({ evidence: { basis: 'assumed' } })
    expect(factOf(made, 'parts/can.1/mass')?.taken).toMatchObject({ evidence: { basis: 'measured' } })
  })
})

describe('bases', () => {
  it('come from the value, else the part, else the sheet; what is bare is assumed, with a warning', () => {
    const parts = [
      part('a', 'assembly', { basis: 'published', mass: '1 kg', parts: [part('b', 'screw', { mass: '1 g' })] }),
      part('c', 'screw', { mass: '1 g (measured)' }),
    ]
    const basis = (of: TeardownRecord, path: string) => factOf(of, path)?.taken.evidence.basis
    const made = record({ basis: 'judged', parts })
    expect(['a', 'b', 'c'].map((id) => basis(made, `parts/${id}/mass`))).toEqual(['published', 'published', 'measured'])
    const bare = recordFromTree(sheetTree({ basis: undefined, parts: [part('d', 'screw', { mass: '1 g' })] }))
    if (!('record' in bare)) throw new Error('not read')
    expect(basis(bare.record, 'parts/d/mass')).toBe('assumed')
    expect(bare.warnings).toContainEqual(
      expect.objectContaining({ path: 'parts/d/mass', what: expect.stringContaining('read as assumed') }),
    )
  })

  it('cannot be measured or marked for a whole sheet', () => {
    expect(recordFromTree(sheetTree({ basis: 'measured' }))).toMatchObject({ faults: [{ path: 'basis' }] })
  })
})

describe('doubt', () => {
  it('is the own tolerance, private to the claim', () => {
    const [term] = termsOf(one('mass', '12 ± 0.3 g (measured)'), 'parts/a/mass')
    expect(term).toMatchObject({
      mode: 'add',
      weight: 1,
      cause: { scope: 'claim', shape: { kind: 'rectangular', low: expect.closeTo(-3e-4), high: expect.closeTo(3e-4) } },
    })
  })

  it('is the documented default of basis and dimension where none is written, and says so', () => {
    const made = one('mass', '12.0 g (judged)')
    expect(factOf(made, 'parts/a/mass')?.taken.quantity?.defaulted).toBe(true)
    expect(termsOf(made, 'parts/a/mass')[0]?.cause?.about).toMatch(/default of judged/)
  })

  it('of a coordinate does not grow with its distance', () => {
    const [near, far] = ['1 / 0 / 0 mm', '900 / 0 / 0 mm'].map((at) => uOf(one('at', at), 'parts/a/at/x'))
    expect(far).toBe(near)
  })

  it('can be set by the sheet, by basis and dimension', () => {
    const set = { defaults: { judged: { mass: '± 1 %', else: '± 2 %' } } }
    // Half-width a of a rectangle: a/√3 (JCGM 100:2008 4.3.7).
    expect(uOf(one('mass', '100.0 g (judged)', {}, set), 'parts/a/mass')).toBeCloseTo((0.1 * 0.01) / Math.sqrt(3), 9)
    expect(uOf(one('inductance', '100.0 nH (judged)', {}, set), 'parts/a/inductance')).toBeCloseTo(
      (1e-7 * 0.02) / Math.sqrt(3),
      15,
    )
    expect(recordFromTree(sheetTree({ defaults: { judged: { mass: '± 1 mm' }, guessed: {} } }))).toHaveProperty(
      'faults.length',
      2,
    )
  })

  // JCGM 100:2008 4.4.3, table 1 (from memory): twenty readings of a temperature, mean 100.14 °C, s = 1.49 °C, u = s/√20 = 0.33 °C.
  it('of several readings is the scatter of their mean', () => {
    const seen =
      '96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07 100.33 100.42 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72'
    const readings = seen.split(' ').map((number) => `${number} °C`)
    const made = one('temperature-limit', { readings, basis: 'measured' })
    expect(siOf(made, 'parts/a/temperature-limit')).toBeCloseTo(273.15 + 100.145, 3)
    expect(termsOf(made, 'parts/a/temperature-limit')).toMatchObject([
      { cause: { shape: { kind: 'student', dof: 19 } } },
    ])
    expect(uOf(made, 'parts/a/temperature-limit')).toBeCloseTo(0.333, 3)
  })
})
