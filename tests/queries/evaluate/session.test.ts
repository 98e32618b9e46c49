import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { openSession, type Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { whatIf } from '../../../queries/quantity-input.ts'

const SPECIMEN = asPath('specimen')

/** A sheet of a small link with whatever is put under it. */
function sessionOf(rest: string, head = ''): Session {
  const text = `lidoff: 1
id: bench-unit
title: Small unit
basis: judged
specimen:
  kind: traction-inverter
  dc-voltage: { nominal: 350 V (marked), max: 400 V (published) }
  envelope: 400 x 250 x 100 mm, measured
  mass: 10 kg (measured${head.includes('balance:') ? '; with balance' : ''})
operating-points:
  peak: { power: 100 kW ± 5 % (published), duration: 30 s (published) }
nets:
  plus: { potential: hv-positive }
  minus: { potential: hv-negative }
  mid: { potential: hv-middle }
${head}
${rest}`
  const read = readSheet(text, 'test.yaml')
  if (!('record' in read))
    throw new Error(read.complaints.map((one) => `${one.line} ${one.what}: ${one.mend}`).join('\n'))
  return openSession(read.record)
}

const evaluate = (session: Session, metric: string, subject = SPECIMEN) => session.evaluate(figureById(metric), subject)

const cap = (id: string, rest: string) => `  - { id: ${id}, class: dc-link-film-capacitor, ${rest} }`
const ACROSS = 'terminals: { plus: plus, minus: minus }'

describe('a figure by hand', () => {
  it('power density is power over length × width × height', () => {
    // 100 kW / (0.4 × 0.25 × 0.1 m³ = 10 L) = 10 kW/L
    const result = evaluate(sessionOf('parts: []'), 'POWER_DENSITY')
    expect(result.status).toBe('OK')
    expect(result.atTaken).toBeCloseTo(10, 12)
    expect(result.inputs.map(({ path }) => path).sort()).toEqual([
      'operating-points/peak/power',
      'specimen/envelope/height',
      'specimen/envelope/length',
      'specimen/envelope/width',
    ])
  })

  it('link capacitance follows the nets: two in series beside one', () => {
    // 300 µF in series with 150 µF is 100 µF; beside 50 µF makes 150 µF.
    const session = sessionOf(`parts:
${cap('upper', 'capacitance: 300 µF (marked), terminals: { plus: plus, minus: mid }')}
${cap('lower', 'capacitance: 150 µF (marked), terminals: { plus: mid, minus: minus }')}
${cap('third', `capacitance: 50 µF (marked), ${ACROSS}`)}`)
    expect(evaluate(session, 'LINK_CAPACITANCE').atTaken).toBeCloseTo(150, 9)
    // ½ · 150 µF · (400 V)² = 12 J
    expect(evaluate(session, 'LINK_ENERGY').atTaken).toBeCloseTo(12, 9)
  })
})

describe('uncertainty with shared causes', () => {
  const five = (vary: string) =>
    sessionOf(`parts:\n${cap('link', `count: 5, vary: ${vary}, capacitance: 100 µF ± 10 % (marked), ${ACROSS}`)}`)

  it('pieces that vary together keep the whole tolerance, each on its own share it out', () => {
    // JCGM 100:2008 4.3.7: ± 10 % as limits is 10/√3 = 5.774 %; of five independent pieces 5.774/√5 = 2.582 %.
    const together = evaluate(five('together'), 'LINK_CAPACITANCE')
    const each = evaluate(five('each'), 'LINK_CAPACITANCE')
    expect(together.u! / together.value!).toBeCloseTo(0.1 / Math.sqrt(3), 9)
    expect(each.u! / each.value!).toBeCloseTo(0.1 / Math.sqrt(15), 9)
    expect(each.inputs).toHaveLength(5)
    expect(together.inputs).toHaveLength(1)
  })

  it('ten parts weighed on one balance share its uncertainty', () => {
    // Scale ± 1 % as limits, shared: u of the sum of ten 1 kg masses is 10 kg · 1 %/√3, not a √10th of it.
    const parts = Array.from(
      { length: 10 },
      (_, n) => `  - { id: part-${n}, class: bracket, mass: 1 kg (measured; with balance) }`,
    )
    const session = sessionOf(
      `parts:\n${parts.join('\n')}`,
      'instruments:\n  balance: { kind: balance, serial: "7", uncertainty: ± 1 % }',
    )
    const result = evaluate(session, 'PARTS_MASS')
    expect(result.value).toBeCloseTo(10, 12)
    expect(result.u).toBeCloseTo(0.1 / Math.sqrt(3), 9)
    // 10 kg unit less 10 kg of parts on the same balance: the scale cancels exactly.
    expect(evaluate(session, 'MASS_REMAINDER').u).toBeCloseTo(0, 12)
  })

  it('shares and interaction sum to one', () => {
    const result = evaluate(five('each'), 'LINK_ENERGY')
    const sum = result.inputs.reduce((total, { share }) => total + (share ?? 0), 0)
    expect(sum + result.interaction!).toBeCloseTo(1, 12)
  })

  it('an interval of one bounded input never leaves its stated range', () => {
    // Rectangle 95..105 kW: 95 % of it is 95.25..104.75 kW (JCGM 101:2008 6.4.2, quantiles of a rectangle).
    const session = sessionOf('parts: []').over([whatIf(sessionOf('parts: []').record, 'specimen/mass=10 kg')])
    const result = evaluate(session, 'SPECIFIC_POWER')
    expect(result.low).toBeCloseTo(9.525, 6)
    expect(result.high).toBeCloseTo(10.475, 6)
  })
})

describe('what is lacking', () => {
  it('all gaps are named at once, and a losing way is no gap', () => {
    const result = evaluate(sessionOf(`parts:\n${cap('one', ACROSS)}\n${cap('two', ACROSS)}`), 'LINK_CAPACITANCE')
    expect(result.status).toBe('MISSING')
    expect(JSON.stringify(result.missing)).toContain('parts/one/capacitance')
    expect(JSON.stringify(result.missing)).toContain('parts/two/capacitance')
    expect(result.value).toBeNull()
  })

  it('a bound is not a value', () => {
    const result = evaluate(
      sessionOf(`parts:\n${cap('one', `capacitance: above 100 µF (judged), ${ACROSS}`)}`),
      'LINK_CAPACITANCE',
    )
    expect(result.missing).toEqual([{ path: 'parts/one/capacitance', why: 'bound-only' }])
  })

  it('looked and found none is not applicable, nobody looked is missing', () => {
    expect(evaluate(sessionOf('parts: []'), 'LINK_CAPACITANCE').status).toBe('MISSING')
    const looked = 'census:\n  - { of: capacitor, found: none, looked: everywhere, basis: measured }'
    expect(evaluate(sessionOf(`parts: []\n${looked}`), 'LINK_CAPACITANCE').status).toBe('NOT_APPLICABLE')
  })
})

describe('edits', () => {
  const session = sessionOf(`parts:\n${cap('link', `count: 2, capacitance: 100 µF ± 10 % (marked), ${ACROSS}`)}`)

  it('what-if then undo is identity', () => {
    const before = evaluate(session, 'LINK_CAPACITANCE')
    const edited = session.over([whatIf(session.record, 'link/capacitance=80 µF')])
    expect(evaluate(edited, 'LINK_CAPACITANCE').value).toBeCloseTo(160, 9)
    expect(evaluate(session, 'LINK_CAPACITANCE')).toEqual(before)
  })

  it('an added part makes a stored figure stale, dropping it gives the same bytes again', () => {
    const stored = evaluate(session, 'LINK_CAPACITANCE')
    const entry = {
      id: 'extra',
      class: 'dc-link-film-capacitor',
      capacitance: '10 µF (marked)',
      terminals: { plus: 'plus', minus: 'minus' },
    }
    const added = session.over([{ add: asPath('parts'), entry }])
    expect(session.stale(stored.log)).toBe(false)
    expect(added.stale(stored.log)).toBe(true)
    expect(evaluate(added, 'LINK_CAPACITANCE').value).toBeCloseTo(210, 9)
    const dropped = added.over([{ drop: asPath('parts/extra') }])
    expect(dropped.stale(stored.log)).toBe(false)
    expect(JSON.stringify(evaluate(dropped, 'LINK_CAPACITANCE'))).toBe(JSON.stringify(stored))
  })

  it('a change elsewhere does not make it stale', () => {
    const stored = evaluate(session, 'LINK_CAPACITANCE')
    expect(session.over([whatIf(session.record, 'specimen/mass=9 kg')]).stale(stored.log)).toBe(false)
  })
})
