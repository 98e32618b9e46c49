import { describe, expect, it } from 'vitest'
import { resolutionUncertainty } from '../../../graph/quantity/defaults.ts'
import type { Dimension } from '../../../graph/quantity/dimension.ts'
import { parseQuantity } from '../../../graph/quantity/parse.ts'
import { refusalOf, scalarOf, uOf } from './reading-of.ts'

// SI Brochure, 9th edition (tables 4, 7, 8; 2.3.1; 5.4), ucum-essence.xml 2.2 (2024-06-17) for customary factors,
// ASTM B258 (from memory) for wire gauge, common practice for spellings.
const VALUES: readonly (readonly [text: string, si: number, dimension?: Dimension])[] = [
  ['480 µF', 480e-6],
  ['480 μF', 480e-6],
  ['480 uF', 480e-6],
  ['5 mΩ', 5e-3],
  ['5 MΩ', 5e6],
  ['2.2 mOhm', 2.2e-3],
  ['30 kΩ', 30e3],
  ['30 k\u2126', 30e3],
  ['15 nH', 15e-9],
  ['17.4 kW/L', 17.4e6],
  ['120 W/cm2', 1.2e6],
  ['120 W/cm²', 1.2e6],
  ['3.2 W/(m·K)', 3.2],
  ['3.2 W/(m.K)', 3.2],
  ['3.2 W/m/K', 3.2],
  ['3500 W/(m²·K)', 3500],
  ['0.12 K/W', 0.12],
  ['0.12 °C/W', 0.12],
  ['25 mm²·K/W', 25e-6],
  ['65 °C', 338.15, 'temperature'],
  ['338.15 K', 338.15, 'temperature'],
  ['10 °C', 10, 'temperature-difference'],
  ['10 K', 10, 'temperature-difference'],
  ['149 °F', 338.15, 'temperature'],
  ['−40 °C', 233.15, 'temperature'],
  ['9 L/min', 9e-3 / 60],
  ['9 l/min', 9e-3 / 60],
  ['45 m³/h', 45 / 3600],
  ['2.5 [gal_us]/min', 0.000157725491],
  ['2.5 US gal/min', 0.000157725491],
  ['2.5 imp gal/min', (2.5 * 4.54609e-3) / 60],
  ['1.5 bar', 150e3],
  ['18 kPa', 18e3],
  ['15 psi', 103421.3593975254],
  ['3.5 in', 0.0889],
  ['5 mil', 127e-6],
  ['2 oz/ft2', 0.6103034545478813],
  ['10 AWG', 0.0025881867280128632],
  ['AWG 10', 0.0025881867280128632],
  ['4/0 AWG', 0.011684],
  ['6.5 A/mm²', 6.5e6],
  ['2.3 Ah', 8280],
  ['12 kV/µs', 12e9],
  ['3.1 kA/µs', 3.1e9],
  ['12 Nm', 12],
  ['12 nm', 12e-9],
  ['4200 G', 0.42],
  ['20.6 lb', 9.344002822000002],
  ['500 Ohm/V', 500],
  ['4.1 µF/kW', 4.1e-9],
  ['7.5 mm²/kW', 7.5e-9],
  ['20 A²s', 20],
  ['45 deg', Math.PI / 4],
  ['20 kV/mm', 20e6],
  ['7.3 g/cm³', 7300],
  ['58 MS/m', 58e6],
  ['20 ppm/K', 20e-6],
  ['1,5 mm', 1.5e-3],
  ['12\u202f400 rpm', 12400 / 60],
  ['12\u2009400 rpm', 12400 / 60],
  ['12 400 rpm', 12400 / 60],
  ['1e-3 H', 1e-3],
  ['1.5×10⁻³ H', 1.5e-3],
  ['1.5 x 10^-3 H', 1.5e-3],
  ['16.5·10⁻⁶ 1/K', 16.5e-6],
  ['１２．４ ｍｍ', 12.4e-3],
  ['3/8 in', 0.009525],
  ['1 1/2 in', 0.0381],
  ['1½ in', 0.0381],
  ['0.80', 0.8],
  ['50 %', 0.5, 'fraction'],
  ['12.4mm', 12.4e-3],
  ['.5 mm', 0.5e-3],
  ['1.234,5 mm', 1.2345],
  ['0,500 mm', 0.5e-3],
]

describe('parseQuantity, values', () => {
  it.each(VALUES.map(([text, si, dimension]) => ({ text, si, dimension })))('$text', ({ text, si, dimension }) => {
    const { value } = scalarOf(text, dimension ? { dimension } : {})
    expect(Math.abs(value / si - 1)).toBeLessThan(1e-9)
  })

  it('gives both micro signs the same unit bytes', () => {
    expect(scalarOf('480 μF').unit.symbol).toBe(scalarOf('480 µF').unit.symbol)
    expect(scalarOf('480 μF').unit.code).toBe('uF')
  })

  it('keeps the decimal: the double nearest to 0.0124', () => {
    expect(scalarOf('12.4 mm').value).toBe(0.0124)
    expect(scalarOf('−40 °C').value).toBe(233.15)
  })

  // Foil suppliers quoting the foil standard, ±10 %; 35 µm nominal, 34.06 µm from mass and density (common practice).
  it.each(['1 oz copper', '1 oz/ft² copper'])('reads %s as a thickness, with a warning and ± 10 %', (text) => {
    const read = scalarOf(text)
    expect(Math.abs(read.value / 34.06e-6 - 1)).toBeLessThan(2e-3)
    expect(read.own?.shape).toEqual({ kind: 'rectangular', low: -0.1, high: 0.1 })
    expect(read.warnings.join()).toContain('copper weight')
  })

  it('reads a copper weight where a length is asked for, and keeps a stated tolerance', () => {
    expect(scalarOf('2 oz/ft2', { dimension: 'length' }).value).toBeCloseTo(68.1142e-6, 10)
    expect(scalarOf('2 oz', { dimension: 'length' }).value).toBeCloseTo(68.1142e-6, 10)
    expect(uOf(scalarOf('2 oz/ft2 ± 3 µm', { dimension: 'length' }))).toBeCloseTo(3e-6 / Math.sqrt(3), 12)
  })
})

// JCGM 100:2008 (GUM) 4.3.7 (limits, a/√3), 4.3.9 (triangle, a/√6), 6.2.1 and 7.2.4 (k), 7.2.2 (digits in brackets).
const UNCERTAIN: readonly (readonly [text: string, si: number, u: number])[] = [
  ['12.4 ± 0.2 mm', 0.0124, 0.00011547005383792516],
  ['12.4 mm ± 0.2 mm', 0.0124, 0.00011547005383792516],
  ['(12.4 ± 0.2) mm', 0.0124, 0.00011547005383792516],
  ['12.4 +/- 0.2 mm', 0.0124, 0.00011547005383792516],
  ['10 ± 0.6 mm', 0.01, 0.34641016e-3],
  ['10 ± 0.6 mm (triangular)', 0.01, 0.24494897e-3],
  ['0.8 ± 0.1 mm (k=2)', 0.0008, 5e-5],
  ['12.4(2) mm', 0.0124, 0.0002],
  ['470(20) µF', 0.00047, 2e-5],
  ['1.24(2)e-2 m', 0.0124, 0.0002],
  ['100.02147(35) g', 0.10002147, 3.5e-7],
  ['100.02147(0.00035) g', 0.10002147, 3.5e-7],
  ['(100.02147 ± 0.00035) g, k=1', 0.10002147, 3.5e-7],
  ['480 µF ± 10 %', 0.00048, 2.7712813e-5],
  ['480 ± 10 % µF', 0.00048, 2.7712813e-5],
  ['8..10 L/min', 0.00015, 9.6225045e-6],
  ['20 ± 1 ppm/K', 20e-6, 1e-6 / Math.sqrt(3)],
  ['0.39 ± 10 % %/K', 0.0039, 0.00039 / Math.sqrt(3)],
  ['8 L/min..10 L/min', 0.00015, 9.6225045e-6],
  ['8-10 L/min', 0.00015, 9.6225045e-6],
  ['65 ± 2 °C', 338.15, 1.1547005],
  ['65 °C ± 2 K', 338.15, 1.1547005],
  ['12.41, 12.38, 12.44 mm', 0.01241, 0.017320508e-3], // s = 0.03, u = s/√3, JCGM 100:2008 4.2
]

describe('parseQuantity, uncertainties', () => {
  it.each(UNCERTAIN)('%s', (text, si, u) => {
    const read = scalarOf(text)
    expect(Math.abs(read.value / si - 1)).toBeLessThan(1e-9)
    expect(Math.abs((uOf(read) ?? 0) / u - 1)).toBeLessThan(1e-7)
  })

  // The nominal is the taken value and not the middle (common practice for electrolytics; the GUM's own reading is 4.3.8).
  it.each([
    ['470 µF -10/+30 %', 0.00047, 0.000423, 0.000611],
    ['480 µF -20/+80 %', 0.00048, 0.000384, 0.000864],
    ['480 µF -20 % / +80 %', 0.00048, 0.000384, 0.000864],
    ['480 -20/+80 % µF', 0.00048, 0.000384, 0.000864],
    ['12.4 +0.1/-0.2 mm', 0.0124, 0.0122, 0.0125],
    ['12.4 mm +0.1 mm/-0.2 mm', 0.0124, 0.0122, 0.0125],
    ['12.4 ± 0.2 mm', 0.0124, 0.0122, 0.0126],
    ['8..10 L/min', 0.00015, 0.00013333333333333334, 0.00016666666666666666],
    ['-8..15 V', 3.5, -8, 15],
    ['-40..85 °C', 295.65, 233.15, 358.15],
  ] as const)('%s keeps its limits', (text, si, low, high) => {
    const read = scalarOf(text)
    const near = (found: number | undefined, wanted: number) =>
      expect(Math.abs((found ?? NaN) - wanted)).toBeLessThan(1e-9 * Math.abs(wanted))
    near(read.value, si)
    near(read.interval?.[0], low)
    near(read.interval?.[1], high)
    expect(read.own?.shape.kind).toBe('rectangular')
  })

  // -20/+80 %: rectangular on 384..864 µF, (b₊ + b₋)²/12 of JCGM 100:2008 4.3.8.
  it('gives an asymmetric tolerance the deviation of its whole width', () => {
    expect(uOf(scalarOf('480 µF -20/+80 %'))).toBeCloseTo(0.00013856406, 10)
    expect(uOf(scalarOf('16.52e-6 -0.12e-6/+0.40e-6 1/K'))).toBeCloseTo(1.50111e-7, 11)
  })

  it('says how a tolerance was read', () => {
    expect(scalarOf('12.4 ± 0.2 mm').readBack).toBe('± 0.2 mm read as limits; standard uncertainty 0.12 mm')
    expect(scalarOf('0.8 ± 0.1 mm (k=2)').readBack).toContain('expanded')
    expect(scalarOf('5 mil').readBack).toContain('127.0 µm')
    expect(scalarOf('65 ± 2 °C').readBack).toContain('1.2 K')
  })

  it('makes few readings a Student shape', () => {
    expect(scalarOf('12.41, 12.38, 12.44 mm').own?.shape).toMatchObject({ kind: 'student', dof: 2 })
    expect(scalarOf('12.4 ± 0.2 mm (k=2; n=5)').own?.shape).toEqual({ kind: 'student', u: 0.0001, dof: 4 })
    expect(scalarOf('12.4(2) mm (n=3)').own?.shape).toEqual({ kind: 'student', u: 0.0002, dof: 2 })
    expect(scalarOf('12.4 ± 0.2 mm (n=3)').own?.shape).toEqual({ kind: 'student', u: 0.0002, dof: 2 })
  })

  // JCGM 100:2008 F.2.2.1: 0.29 of the step.
  it('keeps the step of the last digit', () => {
    const { step, digits } = scalarOf('12.40 mm')
    expect(step).toBe(1e-5)
    expect(digits).toBe(4)
    expect(resolutionUncertainty(scalarOf('12.4 mm').step ?? 0)).toBeCloseTo(0.028867513e-3, 12)
  })
})

// Common practice; what the message must name so that it mends.
const REFUSED: readonly (readonly [text: string, dimension: Dimension | undefined, ...names: string[]])[] = [
  ['118 KW', undefined, 'kW'],
  ['3.2 W/mK', undefined, 'W/(m·K)', 'ambiguous'],
  ['3.2 W/m·K', undefined, 'W/(m·K)', 'ambiguous'],
  ['65 °C ± 5 %', 'temperature', '%', '°C'],
  ['65 °C ± 3 %', undefined, '%', '°C'],
  ['2.5 gal/min', undefined, 'US', 'imp'],
  ['1,500 mm', undefined, '1.500', '1500'],
  ['NaN mm', undefined, 'NaN'],
  ['∞ mm', undefined, 'finite'],
  ['Infinity V', undefined, 'finite'],
  ['1e999 mm', undefined, 'finite'],
  ['1e308 km', undefined, 'finite'],
  ['TBD', undefined, 'leave'],
  ['?', undefined, 'leave'],
  ['', undefined, 'leave'],
  ['n/a', undefined, 'not applicable'],
  ['12.4', 'length', 'unit', 'mm'],
  ['12.4 ± 0.2', 'length', 'unit', 'mm'],
  ['12.4 kg', 'length', 'length', 'mass'],
  ['126 kVA', 'power', 'apparent power', 'kW'],
  ['12 J', 'torque', 'torque', 'energy'],
  ['65 C', 'temperature', '°C'],
  ['104 K', 'capacitance', '100 nF ± 10 %', 'marking'],
  ['4k7', 'resistance', '4.7 k'],
  ['4.7k', 'resistance', 'kΩ'],
  ['470 µF -30/-10 %', undefined, '-30', '-10'],
  ['10..8 L/min', undefined, '10', '8'],
  ['12 kHhz', undefined, 'kHz'],
  ['12 khz', undefined, 'kHz'],
  ['10 MFD', undefined, 'µF'],
  ['12 flurbs', undefined, 'flurbs', 'column 4'],
  ['2026-11-16', undefined, 'date'],
  ['16.11.2026', undefined, 'date'],
  ['2 x 100 µF', 'capacitance', 'count'],
  ['12.4 (2) mm', undefined, '12.4(2)'],
  ['< 5 ± 1 mm', undefined, 'bound'],
  ['8..10 ± 1 mm', undefined, 'range'],
  ['12.4 ± -0.2 mm', undefined, 'negative'],
  ['12.4 mm ± 2 K', undefined, 'mm'],
  ['12.4 mm measured', undefined, 'comma'],
  ['40 mΩ at 25 °C', undefined, 'at:'],
  ['40 mΩ (published; at 25 °C)', undefined, 'at:'],
  ['up to 12 A', undefined, 'at most'],
  ['12 A max', undefined, 'at most'],
  ['12.4 mm (measurd)', undefined, 'measured'],
  ['12.4 mm (estimated)', undefined, 'judged'],
  ['12.4 mm (on 2026-02-30)', undefined, '2026-02-30'],
  ['12.4 mm (measured; judged)', undefined, 'measured', 'judged'],
  ['12.4 mm (k=2)', undefined, 'k=2'],
  ['470 µF -10/+30 % (k=2)', undefined, 'symmetric'],
  ['1_000 mm', undefined, '1000'],
  ['0x1F mm', undefined, 'decimal'],
  ['-300 °C', 'temperature', 'absolute zero'],
  ['0 ± 10 % mm', undefined, 'zero'],
  ['80', 'fraction', '80 %'],
  ['12 kg peak', undefined, 'peak'],
  ['12.4\u200bmm', undefined, 'U+200B'],
  ['± 0.2 mm', undefined, 'value'],
  ['5 mil (= 120 µm)', undefined, '120 µm'],
  ['1/0 mm', undefined, 'zero'],
  ['10 MF', undefined, 'µF'],
  ['12.4 Mm', undefined, 'mm'],
  ["5'", undefined, 'ft', 'arcmin'],
  ['1e-400 mm', undefined, 'small'],
  ['12 34 mm', undefined, 'two numbers'],
  ['62 x 48 x mm', undefined, 'missing'],
  ['62 x 48 x 4.6', undefined, 'unit'],
  ['12.4 mm, 13 mm', undefined, 'claims'],
  ['12.4 mm (measured', undefined, 'bracket'],
  ['4n7', 'capacitance', '4.7 nF'],
  ['2R2', 'resistance', '2.2 Ω'],
  ['3 W per K', undefined, 'W/K'],
]

describe('parseQuantity, refusals', () => {
  it.each(REFUSED.map(([text, dimension, ...names]) => ({ text, dimension, names })))(
    '$text',
    ({ text, dimension, names }) => {
      const { said } = refusalOf(text, dimension ? { dimension } : {})
      for (const name of names) expect(said).toContain(name)
    },
  )

  it('points at the place', () => {
    expect(refusalOf('12.4 flurbs, measured').at).toBe(5)
    expect(refusalOf('12.4 mm (measured; wth caliper)').at).toBe(19)
    expect(refusalOf('１２ ｆｌｕｒｂｓ').at).toBe(3)
  })

  it('suggests the likely unit and nothing absurd', () => {
    expect(refusalOf('12 kHhz').suggest).toBe('kHz')
    expect(refusalOf('10 MFD').suggest).toBe('µF')
    expect(refusalOf('12 mhz', { dimension: 'frequency' }).suggest).toBe('MHz')
    expect(refusalOf('12 flurbs').suggest).toBeUndefined()
    expect(refusalOf('12 khz', { dimension: 'length' }).suggest).toBeUndefined()
  })
})

describe('parseQuantity, relations and doubts', () => {
  it.each([
    ['< 15 nH', '<'],
    ['below 15 nH', '<'],
    ['at most 15 nH', '<'],
    ['≤ 15 nH', '<'],
    ['<= 15 nH', '<'],
    ['> 15 nH', '>'],
    ['above 15 nH', '>'],
    ['at least 15 nH', '>'],
    ['≥ 15 nH', '>'],
  ] as const)('%s is a bound', (text, bound) => {
    expect(scalarOf(text)).toMatchObject({ value: 15e-9, bound })
    expect(scalarOf(text).own).toBeUndefined()
  })

  it('marks ≈ and leaves the width to the basis', () => {
    expect(scalarOf('≈ 15 nH (judged)')).toMatchObject({ value: 15e-9, approx: true, note: { basis: 'judged' } })
    expect(scalarOf('about 15 nH').approx).toBe(true)
  })

  it.each([
    ['3.2 W/mK', 'thermal-conductivity', 'W/(m·K)'],
    ['3.2 W/m·K', 'thermal-conductivity', 'W/(m·K)'],
    ['3500 W/m²K', 'film-coefficient', 'W/(m²·K)'],
    ['40 K', 'temperature', '°C'],
    ['97 % ± 1 %', 'fraction', 'points'],
  ] as const)('reads %s with a warning', (text, dimension, says) => {
    expect(scalarOf(text, { dimension }).warnings.join()).toContain(says)
  })

  it('reads % behind a bare number by the field', () => {
    expect(scalarOf('97 ± 1 %', { dimension: 'fraction' })).toMatchObject({ value: 0.97, own: { mode: 'add' } })
    expect(scalarOf('3.4 ± 5 %', { dimension: 'one' })).toMatchObject({ value: 3.4, own: { mode: 'scale' } })
    expect(scalarOf('0.80 ± 10 %')).toMatchObject({ value: 0.8, own: { mode: 'scale' } })
  })

  // Sine: peak over √2. Common practice.
  it('stores currents as rms and keeps the word', () => {
    expect(scalarOf('400 A rms')).toMatchObject({ value: 400, qualifier: 'rms' })
    expect(scalarOf('516 A peak').value).toBeCloseTo(516 / Math.SQRT2, 9)
    expect(scalarOf('516 A peak').readBack).toContain('364.9 A rms')
    expect(scalarOf('400 V peak')).toMatchObject({ value: 400, qualifier: 'peak' })
    expect(scalarOf('365 A', { kind: 'phase-current' }).warnings.join()).toContain('rms')
    expect(scalarOf('365 A rms', { kind: 'phase-current' }).warnings).toEqual([])
    expect(scalarOf('1000 Vdc')).toMatchObject({ value: 1000, qualifier: 'dc' })
  })

  it('reads the four nothings, and a note with them', () => {
    expect(parseQuantity('not looked for')).toMatchObject({ form: 'nothing', nothing: 'not-looked-for' })
    expect(parseQuantity('absent (judged)')).toMatchObject({ nothing: 'absent', note: { basis: 'judged' } })
    expect(parseQuantity('not applicable')).toMatchObject({ nothing: 'not-applicable' })
    expect(parseQuantity('unreadable, photo p3')).toMatchObject({ nothing: 'unreadable', note: { photo: 'p3' } })
  })

  it('reads a count as a whole number', () => {
    expect(scalarOf('4 (judged)', { kind: 'count' })).toMatchObject({ value: 4, note: { basis: 'judged' } })
    expect(refusalOf('4.5', { kind: 'count' }).said).toContain('whole')
    expect(refusalOf('4 mm', { kind: 'count' }).said).toContain('count')
  })

  it('reads a note whole', () => {
    const text =
      '650 V (published; from data sheet (rev 2), page 4; rests on split-even; photo p31/r1; by M. Reed; on 2026-11-16; likely)'
    expect(scalarOf(text).note).toEqual({
      basis: 'published',
      from: 'data sheet (rev 2), page 4',
      restsOn: ['split-even'],
      photo: 'p31/r1',
      by: 'M. Reed',
      on: '2026-11-16',
      confidence: 'likely',
    })
    expect(scalarOf('12.4 ± 0.2 mm, measured, k=2, with caliper').note).toEqual({
      basis: 'measured',
      k: 2,
      with: 'caliper',
      restsOn: [],
    })
  })
})

describe('parseQuantity, several numbers', () => {
  it.each([
    '380 x 240 x 110 mm',
    '380 X 240 X 110 mm',
    '380×240×110 mm',
    '380 mm x 240 mm x 110 mm',
    '38 x 24 x 11 cm',
  ])('%s', (text) => {
    const read = parseQuantity(text, { kind: 'box' })
    expect(read.ok && read.form === 'box' && read.sides.map(({ value }) => value)).toEqual([0.38, 0.24, 0.11])
  })

  it('gives each side its tolerance, or all of them the one behind', () => {
    const own = (text: string) => {
      const read = parseQuantity(text)
      return read.ok && read.form === 'box' ? read.sides.map((side) => side.own?.shape) : []
    }
    const limits = (half: number) => ({ kind: 'rectangular', low: -half, high: half })
    expect(own('62 ± 0.1 x 48 ± 0.2 x 4.6 mm')).toEqual([limits(1e-4), limits(2e-4), undefined])
    expect(own('62 x 48 x 4.6 mm ± 0.1 mm')).toEqual([limits(1e-4), limits(1e-4), limits(1e-4)])
  })

  it('multiplies sides where an area or a volume is asked for', () => {
    expect(parseQuantity('58 x 44 mm (measured)', { dimension: 'area' })).toMatchObject({
      form: 'area',
      value: 0.002552,
      note: { basis: 'measured' },
    })
    expect(parseQuantity('10 x 10 x 10 cm', { dimension: 'volume' })).toMatchObject({ form: 'volume' })
    expect(refusalOf('58 x 44 x 3 mm', { dimension: 'area' }).said).toContain('two')
    expect(refusalOf('58 x 44 mm', { dimension: 'length', kind: 'scalar' }).said).toContain('one')
  })

  it.each([
    ['(0, 120, 250) mm', [0, 0.12, 0.25]],
    ['(0,120,250) mm', [0, 0.12, 0.25]],
    ['0 / 120 / 250 mm', [0, 0.12, 0.25]],
    ['0/120/250 mm', [0, 0.12, 0.25]],
    ['-6 / 0 / 8 mm', [-0.006, 0, 0.008]],
    ['(1,5; 2,5; -3) mm', [0.0015, 0.0025, -0.003]],
  ] as const)('%s is a place', (text, wanted) => {
    const read = parseQuantity(text, { kind: 'place', dimension: 'length' })
    expect(read.ok && read.form === 'place' && read.coordinates.map(({ value }) => value)).toEqual(wanted)
  })

  it('refuses a place of two numbers', () => {
    expect(refusalOf('0 / 120 mm', { kind: 'place' }).said).toContain('three')
    expect(refusalOf('12 mm', { kind: 'place' }).said).toContain('place')
  })

  it('reads places and boxes of a picture', () => {
    expect(parseQuantity('120 1904 px')).toMatchObject({ form: 'pixels', pixels: [120, 1904] })
    expect(parseQuantity('812 430 640 420 px', { kind: 'pixels' })).toMatchObject({ pixels: [812, 430, 640, 420] })
    expect(refusalOf('120 1904 px', { dimension: 'length' }).said).toContain('length')
  })
})
