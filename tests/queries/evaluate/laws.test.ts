import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import type { Result } from '../../../queries/evaluate/result.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { changesFrom } from '../../../queries/what-if.ts'
import { DEMO_UNITS, demoSession, sheetSession } from '../demo-session.ts'

const SPECIMEN = asPath('specimen')

/** A figure of the test's own on a recorded value. */
const ask = (session: Session, id: string, compute: (view: View) => number, unit = 'kg'): Result =>
  session.evaluate({ ...figureById('PARTS_MASS'), id, unit, honours: [], compute }, SPECIMEN)

const masses = (texts: readonly string[], head = ''): Session =>
  sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter }
${head}
parts:
${texts.map((text, at) => `  - { id: part-${at + 1}, class: bracket, mass: "${text}" }`).join('\n')}
`)

const mass = (at: number): Path => asPath(`parts/part-${at}/mass`)

describe('laws of propagation', () => {
  const doubts = fc.record({
    value: fc.double({ min: 0.1, max: 100, noNaN: true }),
    relative: fc.double({ min: 1e-4, max: 0.3, noNaN: true }),
  })
  const text = ({ value, relative }: { value: number; relative: number }): string =>
    `${value} ± ${value * relative} kg (measured; k=1)`

  it('x − x is 0 ± 0, and independent copies are not (JCGM 100:2008 5.2.2)', () => {
    fc.assert(
      fc.property(doubts, (one) => {
        const session = masses([text(one), text(one)])
        const itself = ask(session, 'ITSELF', (view) => view.need({ x: mass(1) }).x - view.need({ x: mass(1) }).x)
        const copies = ask(session, 'COPIES', (view) => view.need({ x: mass(1) }).x - view.need({ x: mass(2) }).x)
        expect([itself.value, itself.u]).toEqual([0, 0])
        expect(copies.u! / (Math.SQRT2 * one.value * one.relative)).toBeCloseTo(1, 9)
      }),
      { numRuns: 40 },
    )
  })

  it('a figure k times as large has k times the uncertainty and interval', () => {
    fc.assert(
      fc.property(doubts, doubts, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (a, b, k) => {
        const session = masses([text(a), text(b)])
        const of = (view: View): number => {
          const { x, y } = view.need({ x: mass(1), y: mass(2) })
          return (x * x) / y
        }
        const plain = ask(session, 'PLAIN', of)
        const scaled = ask(session, 'SCALED', (view) => k * of(view))
        for (const key of ['value', 'u', 'low', 'high'] as const)
          expect(scaled[key]! / (k * plain[key]!)).toBeCloseTo(1, 6)
      }),
      { numRuns: 25 },
    )
  })

  it('sensitivity times uncertainty is the component: the budget sums to the variance', () => {
    // u² = (2x/y·u_x)² + (x²/y²·u_y)², JCGM 100:2008 5.1.2, here 3 kg ± 1 % over 5 kg ± 2 %.
    const session = masses(['3 ± 0.03 kg (measured; k=1)', '5 ± 0.1 kg (measured; k=1)'])
    const result = ask(session, 'RATIO', (view) => {
      const { x, y } = view.need({ x: mass(1), y: mass(2) })
      return (x * x) / y
    })
    const [first, second] = [mass(1), mass(2)].map((path) => result.inputs.find((one) => one.path === path)!)
    expect(first!.sensitivity).toBeCloseTo((2 * 3) / 5, 3)
    expect(second!.sensitivity).toBeCloseTo(-9 / 25, 3)
    expect(first!.remaining! / Math.abs(second!.sensitivity! * 0.1)).toBeCloseTo(1, 6)
    const squares = result.inputs.reduce(
      (sum, { sensitivity, uncertainty }) => sum + (sensitivity! * uncertainty!) ** 2,
      0,
    )
    expect(Math.sqrt(squares) / result.u!).toBeCloseTo(1, 9)
  })

  it('a tolerance that is not even moves the interval, not the value (JCGM 100:2008 4.3.8)', () => {
    // 1 kg −10/+30 %: a rectangle 0.9 … 1.3 kg; u = 0.4/√12; its 95 % is 0.91 … 1.29 kg.
    const session = masses(['1 kg -10/+30 % (marked)'])
    const result = ask(session, 'MASS', (view) => view.need({ x: mass(1) }).x)
    expect(result.value).toBe(1)
    expect(result.u).toBeCloseTo(0.4 / Math.sqrt(12), 9)
    expect([result.low, result.high]).toEqual([expect.closeTo(0.91, 6), expect.closeTo(1.29, 6)])
  })

  it.each([
    ['1/x', (x: number) => 1 / x],
    ['x²', (x: number) => x * x],
    ['√x', (x: number) => Math.sqrt(x)],
    ['1/√x', (x: number) => 1 / Math.sqrt(x)],
  ] as const)('an interval of %s never leaves what a bounded input allows, by first order', (_, of) => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.22, noNaN: true }), (half) => {
        const session = masses([`1 ± ${half} kg (judged)`])
        const { how, low, high } = ask(session, 'BENT', (view) => of(view.need({ x: mass(1) }).x))
        const ends = [1 - half, 1 + half].map(of).toSorted((a, b) => a - b)
        expect(how).toBe('first-order')
        expect(low!).toBeGreaterThan(ends[0]!)
        expect(high!).toBeLessThan(ends[1]!)
        // Monotonic: its 95 % is that of the rectangle, carried over (JCGM 101:2008 5.3.4).
        const exact = [1 - 0.95 * half, 1 + 0.95 * half].map(of).toSorted((a, b) => a - b)
        const width = exact[1]! - exact[0]!
        expect(Math.abs(low! - exact[0]!) / width).toBeLessThan(0.02)
        expect(Math.abs(high! - exact[1]!) / width).toBeLessThan(0.02)
      }),
      { numRuns: 30 },
    )
  })

  it('an interval never leaves what a bounded input allows, sampled', () => {
    // x² of a rectangle 0 … 2 about 1: sampled; no draw can lie beyond 0 … 4.
    const session = masses(['1 ± 1 kg (judged)'])
    const result = ask(session, 'SQUARE', (view) => view.need({ x: mass(1) }).x ** 2)
    expect(result.how).toBe('sampled')
    expect(result.low!).toBeGreaterThanOrEqual(0)
    expect(result.high!).toBeLessThanOrEqual(4)
    // Quantiles of x²: (2·0.025)² and (2·0.975)².
    expect(result.low!).toBeCloseTo(0.0025, 2)
    expect(result.high!).toBeCloseTo(3.8025, 1)
    // Moments of x² on 0 … 2: variance 16/5 − 16/9.
    expect(Math.abs(result.u! / Math.sqrt(16 / 5 - 16 / 9) - 1)).toBeLessThan(0.04)
  })

  it('few draws do not end the interval short of where the inputs reach', () => {
    // 1/x of a rectangle 0.7 … 1.3: its 95 % is 1/1.285 … 1/0.715 (JCGM 101:2008 5.3.4).
    const { how, draws, low, high } = ask(
      masses(['1 ± 0.3 kg (judged)']),
      'INVERSE',
      (view) => 1 / view.need({ x: mass(1) }).x,
    )
    expect(how).toBe('sampled')
    expect(draws!).toBeLessThan(500)
    const [least, most] = [1 / 1.285, 1 / 0.715]
    expect(Math.abs(low! - least) / (most - least)).toBeLessThan(0.03)
    expect(Math.abs(high! - most) / (most - least)).toBeLessThan(0.03)
    expect(low!).toBeGreaterThan(1 / 1.3)
    expect(high!).toBeLessThan(1 / 0.7)
  })

  it('gives the same digits whatever else is asked with it', () => {
    const session = demoSession('sweeper-14-auxiliary')
    const all = session.evaluateAll()
    const sampled = all.find(({ how }) => how === 'sampled')!
    const alone = session.over([]).evaluate(figureById(sampled.metric), sampled.subject)
    expect(alone).toEqual(sampled)
  })
})

/** Every recorded value, as an edit that says what is there already. */
const ownValues = ({ record }: Session) =>
  [...record.facts].flatMap(([set, { taken }]) => (taken.quantity ? [{ set, to: taken.quantity }] : []))

describe('on every demo unit', () => {
  it.each(DEMO_UNITS)('the budgets of %s sum to the variance', { timeout: 60_000 }, (id) => {
    // By first order nothing is left over: Σ shares is one, and so is Σ components² over u² (JCGM 100:2008 5.1.2).
    // Of a sampled figure the straight line explains what the shares say, the rest is `interaction`.
    const off = demoSession(id)
      .evaluateAll()
      .filter(({ u }) => u !== null && u > 0)
      .flatMap(({ metric, subject, how, u, inputs, interaction, components }) => {
        const shares = inputs.reduce((sum, { share }) => sum + share!, 0)
        const straight = Object.values(components).reduce((sum, c) => sum + c * c, 0) / u! ** 2
        const left = [shares - straight, 1 - shares - interaction!, ...(how === 'first-order' ? [interaction!] : [])]
        return left.every((one) => Math.abs(one) < 1e-9) ? [] : [`${metric} ${subject}: ${left.join(' ')}`]
      })
    expect(off).toEqual([])
  })

  it.each(DEMO_UNITS)('overlaying every value of %s by itself changes nothing', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const edits = ownValues(session)
    expect(edits.length).toBeGreaterThan(30)
    const again = session.over(edits).evaluateAll()
    expect(again.map((one) => ({ ...one, edits: [] }))).toEqual(session.evaluateAll())
  })

  it.each(DEMO_UNITS)('a value of %s replaced and put back is identity', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const before = session.evaluateAll().find(({ inputs, u }) => u !== null && inputs.length > 1)!
    const [own] = ownValues(session).filter(({ set }) => set === before.inputs[0]!.path)
    const figure = figureById(before.metric)
    const other = session.over([{ set: own!.set, to: { ...own!.to, value: 1.1 * own!.to.value } }])
    expect(other.evaluate(figure, before.subject).value).not.toBe(before.value)
    expect({ ...other.over([own!]).evaluate(figure, before.subject), edits: [] }).toEqual(before)
  })

  it.each([
    ['sweeper-14-auxiliary', 'screw'],
    ['ferry-7-drive', 'link-cap'],
  ])('what-if on %s and back is identity', { timeout: 60_000 }, (id, part) => {
    const metrics = ['PARTS_MASS', 'PART_COUNT', 'FASTENER_COUNT', 'LINK_CAPACITANCE']
    const session = demoSession(id)
    const before = session.evaluateAll(metrics)
    const more = session.over(changesFrom(session.record, `${part}=one more`))
    expect(more.evaluateAll(metrics)).not.toEqual(before)
    const back = more.over(changesFrom(more.record, `${part}=one fewer`))
    expect(back.evaluateAll(metrics)).toEqual(before)
  })
})
