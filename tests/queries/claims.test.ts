import { describe, expect, it } from 'vitest'
import { checksOf } from '../../queries/corpus/materialise.ts'
import { sheetSession } from './demo-session.ts'

/** Whether the claims of one mass, or of the resistance of one device, are said to disagree. */
function disagree(claims: string, property = 'mass'): boolean {
  const session = sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter }
instruments: { scale: { kind: balance, serial: "1", uncertainty: ± 5 % } }
parts:
  - { id: thing, class: ${property === 'mass' ? 'bracket' : 'discrete-power-device'}, ${property}: ${claims} }
`)
  return checksOf(session).some(({ id }) => id === 'claims-disagree')
}

// JCGM 200:2012 2.47: compatible when the difference is smaller than a chosen multiple (here 2) of its standard uncertainty.
describe('claims that disagree', () => {
  it.each([
    ['[ 1 ± 0.1 kg (measured; k=1), 1.2 ± 0.1 kg (measured; k=1) ]', false], // 0.2 < 2·0.141
    ['[ 1 ± 0.1 kg (measured; k=1), 1.3 ± 0.1 kg (measured; k=1) ]', true], // 0.3 > 0.283
    // One balance cannot explain what parts two weighings on it: 0.3 kg against 2·√(2·0.05²) kg and 5 % of the difference.
    ['[ 1 ± 0.05 kg (measured; k=1; with scale), 1.3 ± 0.05 kg (measured; k=1; with scale) ]', true],
    ['[ 1 ± 0.05 kg (measured; k=1), above 0.9 kg (published) ]', false],
    ['[ 1 ± 0.05 kg (measured; k=1), above 1.2 kg (published) ]', true],
    ['[ 1 ± 0.05 kg (measured; k=1), below 0.8 kg (published) ]', true],
    ['[ above 1 kg (published), below 0.8 kg (published) ]', true],
    ['[ above 1 kg (published), above 2 kg (published) ]', false],
    ['[ 1 kg (measured), not looked for ]', false],
  ])('%s: %s', (claims, expected) => {
    expect(disagree(claims)).toBe(expected)
  })

  it('only at equal conditions', () => {
    const at = (value: string, temperature: string): string =>
      `{ value: ${value}, basis: measured, at: { junction: ${temperature} } }`
    const of = (one: string, other: string): string => `[ ${at('10 ± 0.1 mΩ', one)}, ${at('16 ± 0.1 mΩ', other)} ]`
    expect(disagree(of('25 °C', '125 °C'), 'on-resistance')).toBe(false)
    expect(disagree(of('25 °C', '25 °C'), 'on-resistance')).toBe(true)
  })
})
