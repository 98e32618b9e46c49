import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { symbolTable } from '../../../graph/quantity/customary.ts'
import { DIMENSIONS, fieldOf, fits } from '../../../graph/quantity/dimension.ts'
import { UnitError } from '../../../graph/quantity/unit.ts'
import { NAMED, ROWS, SPELLINGS } from '../../../graph/quantity/unit-table.ts'
import {
  convert,
  dimensionOf,
  fromSI,
  isUcum,
  parseUcum,
  readUnit,
  symbolOf,
  toSI,
  ucumOf,
  unitOf,
} from '../../../graph/quantity/units.ts'

// UCUM functional tests, version of 31-May-2010 (archived copy in the public repository niquola/ruby-ucum; EPL-1.0), cases
// 1-113, 1-102, 1-107, 1-263, 1-114, 1-257, 1-120 for those marked *; the others follow from the grammar of the UCUM
// specification §2 (from memory) and were compared with a second, independent implementation of it.
const VALIDITY: readonly (readonly [code: string, valid: boolean])[] = [
  ['m3.kg-1.s-2', true], // *
  ['m/', false], // *
  ['10*+3/ul', true], // *
  ['g/12h', false], // *
  ['4.[pi].10*-7.N/A2', true], // *
  ['Cel', true], // *
  ['%', true], // *
  ['/m', true],
  ['(/m)', false],
  ['(8.h)', true],
  ['g/(12.h)', true],
  ['rad2{a}', true],
  ['{a}rad2', false],
  ['100{mg}', true],
  ['10+3/ul', false],
  ['10*', true],
  ['10^-6', true],
  ['m.', false],
  ['m//s', false],
  ['m..s', false],
  ['(m', false],
  ['m)', false],
  ['', false],
  ['-1.m', false],
  ['m+2', true],
  ['mm[Hg]', true],
  ['m[H2O]', true],
  ["[in_i'H2O]", true],
  ['[gal_us]/min', true],
  ['K.mW-1', true],
  ['kOhm', true],
  ['kohm', false],
  ['khz', false],
  ['µm', false],
  ['mm²', false],
  ['k[in_i]', false],
  ['{turn}', true],
  ['{un closed', false],
]

describe('UCUM codes', () => {
  it.each(VALIDITY)('%s', (code, valid) => expect(isUcum(code)).toBe(valid))

  // The same suite, cases 3-103, 3-105, 3-114, 3-119, 3-120, 3-126 (3-119 is rounded to 16.0 there).
  it.each([
    [6.3, 'mm', 'cm', 0.63],
    [6.3, 's.mm-1', 's.m-1', 6300],
    [6.3, '4.s/m', 's/m', 25.2],
    [6.3, '[in_i]', 'cm', 16.002],
    [6.3, 'g.m.s-2.A-2', 'g.m.C-2', 6.3],
    [1, 'S', 'g-1.m-2.C2.s', 0.001],
    // SI Brochure 2.3.1; NIST SP 811 appendix B (from memory).
    [37, 'Cel', '[degF]', 98.6],
    [1, 'bar', '[psi]', 14.503773773020923],
    [1, 'kW.h', 'MJ', 3.6],
    [1, 'Oe', 'A/m', 79.57747154594767],
    [100, 'kA/m', 'Oe', 1256.6370614359173],
    [1, 'atm', 'mm[Hg]', 101325 / 133.322],
  ] as const)('%d %s in %s', (value, from, to, wanted) => {
    expect(Math.abs(convert(value, from, to) / wanted - 1)).toBeLessThan(1e-12)
  })

  // In that suite 3-108 to 3-111 and 3-115 convert between units that differ in dimension: s/m/g against s.m-1.g, and s/4.m,
  // read from left to right, against s/m. A strict converter refuses them.
  it.each([
    ['s/m/g', 's.m-1.g'],
    ['s.m-1.g', 's/m/g'],
    ['s/4.m', 's/m'],
    ['mm', 'kg'],
    ['deg', '1'],
    ['dB', '%'],
    ['{px}', '1'],
  ])('%s does not convert to %s', (from, to) => expect(() => convert(1, from, to)).toThrow(UnitError))
})

// Every unit that is given out reads back, by its code and by its symbol (the whole table, prefixes included).
describe('round trip', () => {
  const everyUnit = [
    ...[...symbolTable().keys()].map((symbol) => unitOf(symbol)),
    ...NAMED.map(({ symbol }) => unitOf(symbol)),
    ...ROWS.map(({ code }) => parseUcum(code)),
    ...DIMENSIONS.flatMap((dimension) => [fieldOf(dimension).si, fieldOf(dimension).print]),
    ...DIMENSIONS.flatMap((dimension) => fieldOf(dimension).offer.map((symbol) => unitOf(symbol))),
    ...Object.keys(SPELLINGS).map((word) => unitOf(word)),
  ]

  it('covers the table', () => expect(everyUnit.length).toBeGreaterThan(1000))

  it('reads every code and every symbol back as the same unit', () => {
    for (const unit of everyUnit) {
      expect(parseUcum(unit.code ?? ''), unit.symbol).toEqual(unit)
      expect(unitOf(unit.symbol), unit.symbol).toEqual(unit)
    }
  })

  it('reads products of any of them back', () => {
    const simple = everyUnit.filter(({ code, offset }) => offset === 0 && /^[a-zA-Z]+$/.test(code ?? ''))
    fc.assert(
      fc.property(
        fc.constantFrom(...simple),
        fc.constantFrom(...simple),
        fc.constantFrom(...simple),
        fc.integer({ min: 1, max: 4 }),
        (a, b, c, power) => {
          const unit = parseUcum(`${a.code}${power}/(${b.code}.${c.code})`)
          expect(parseUcum(unit.code ?? '')).toEqual(unit)
          expect(unitOf(unit.symbol)).toEqual(unit)
        },
      ),
      { numRuns: 300 },
    )
  })

  it('keeps numbers through SI and back', () => {
    const numbers = fc.double({ min: -1e9, max: 1e9, noNaN: true })
    fc.assert(
      fc.property(fc.constantFrom(...everyUnit), numbers, (unit, value) => {
        const back = fromSI(toSI(value, unit), unit)
        return Math.abs(back - value) <= 1e-12 * Math.max(Math.abs(value), unit.offset === 0 ? 1e-240 : 1000)
      }),
    )
  })
})

describe('customary symbols', () => {
  it.each([
    ['W/(m·K)', 'W/(m.K)'],
    ['W/m/K', 'W/(m.K)'],
    ['µF/kW', 'uF/kW'],
    ['mm²/kW', 'mm2/kW'],
    ['cm^2', 'cm2'],
    ['Nm', 'N.m'],
    ['N m', 'N.m'],
    ['ft·lb', '[lbf_av].[ft_i]'],
    ['m³/h', 'm3/h'],
    ['1/K', '1/K'],
    ['Ω/V', 'Ohm/V'],
    ['rpm', '{rev}/min'],
    ['kVA', 'kV.A'],
    ['px', '{px}'],
    ['ft', '[ft_i]'],
    ['psi', '[psi]'],
  ])('%s is %s', (symbol, code) => expect(ucumOf(symbol)).toBe(code))

  it.each([
    ['uF/kW', 'µF/kW'],
    ['W/(m2.K)', 'W/(m²·K)'],
    ['Cel', '°C'],
    ['kOhm', 'kΩ'],
    ['[in_i]', 'in'],
    ['W.h/kg', 'W·h/kg'],
  ])('%s prints as %s', (code, symbol) => expect(symbolOf(code)).toBe(symbol))

  it.each([
    ['kVA', 'apparent-power'],
    ['kW', 'power'],
    ['N·m', 'torque'],
    ['J', 'energy'],
    ['°C', 'temperature'],
    ['K', 'temperature-difference'],
    ['K/W', 'thermal-resistance'],
    ['W/K', 'thermal-conductance'],
    ['W/(m·K)', 'thermal-conductivity'],
    ['kW/L', 'power-density'],
    ['kW/m³', 'core-loss-density'],
    ['%', 'fraction'],
    ['rpm', 'rotational-speed'],
    ['kHz', 'frequency'],
    ['oz/ft²', 'areal-mass'],
    ['V/ns', 'voltage-slope'],
    ['A²·s', 'melting-integral'],
  ] as const)('%s measures %s', (symbol, dimension) => expect(dimensionOf(symbol)).toBe(dimension))

  it('never folds case', () => {
    expect(unitOf('mΩ').factor).toBe(1e-3)
    expect(unitOf('MΩ').factor).toBe(1e6)
    for (const wrong of ['KW', 'khz', 'MM', 'hz', 'PSI', 'KG']) expect(readUnit(wrong).ok, wrong).toBe(false)
  })

  it('takes a temperature and a difference for two things', () => {
    expect(toSI(65, '°C')).toBe(338.15)
    expect(unitOf('K/W').offset).toBe(0)
    expect(unitOf('°C/W')).toMatchObject({ factor: 1, offset: 0 })
    expect(unitOf('W/°C')).toMatchObject({ factor: 1, offset: 0 })
  })

  it('holds every printed unit to its dimension', () => {
    for (const dimension of DIMENSIONS) {
      const { print, si, offer } = fieldOf(dimension)
      expect(fits(print, dimension), dimension).toBe(true)
      expect(si.factor, dimension).toBe(dimension === 'level' ? 1 : si.code === '1/s' ? 1 : si.factor)
      for (const symbol of offer)
        expect(fits({ ...unitOf(symbol), offset: 0 }, dimension), `${dimension} ${symbol}`).toBe(true)
    }
  })

  it('has no symbol with two meanings', () => {
    const seen = new Map<string, string>()
    for (const { code, symbols = [] } of ROWS) {
      for (const symbol of symbols) {
        expect(seen.get(symbol), symbol).toBeUndefined()
        seen.set(symbol, code)
      }
    }
  })

  it.each(['(', 'm.', '/', 'W/m·K', 'K', '{'])('refuses a text of ten thousand "%s"', (piece) => {
    expect(readUnit(piece.repeat(10_000)).ok).toBe(false)
    expect(isUcum(piece.repeat(10_000))).toBe(false)
  })
})
