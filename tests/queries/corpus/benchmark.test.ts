import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { DerivedFigure } from '../../../graph/store/derived.ts'
import { type BenchmarkAsk, benchmark, leftCounts, type Unit } from '../../../queries/corpus/benchmark.ts'
import { figureById } from '../../../queries/figures/registry.ts'

const figure = (
  metric: string,
  subject: string,
  value: number | null,
  more: Partial<DerivedFigure> = {},
): DerivedFigure => ({
  metric,
  subject: asPath(subject),
  conditions: 'default',
  status: value === null ? 'MISSING' : 'OK',
  unit: '1',
  value,
  atTaken: value,
  uncertainty: null,
  low: value,
  high: value,
  how: 'exact',
  basis: 'measured',
  reason: value === null ? 'not on record' : null,
  components: {},
  body: '',
  ...more,
})

const unit = (id: string, figures: readonly DerivedFigure[]): Unit => ({
  id,
  title: id,
  revision: 1,
  kind: 'traction-inverter',
  traits: {},
  figures,
})

const ask = (metric: string, more: Partial<BenchmarkAsk> = {}): BenchmarkAsk => ({
  figures: [figureById(metric)],
  per: 'TEARDOWN',
  across: null,
  orderBy: { metric, direction: 'DESC' },
  groupBy: null,
  set: figureById(metric).operating ?? [],
  ...more,
})

describe('one row a unit', () => {
  const passages = unit('a', [
    figure('COOLANT_RISE', 'specimen', 5),
    figure('COOLANT_RISE', 'coolant/first', 2),
    figure('COOLANT_RISE', 'coolant/second', 3),
  ])

  it('is of the unit as a whole where the figure has one', () => {
    const { rows, left } = benchmark([passages], ask('COOLANT_RISE'))
    expect(rows.map(({ figures }) => figures[0]!.value)).toEqual([5])
    expect(left).toEqual([])
  })

  it('across its subjects leaves the whole out, which would count them twice', () => {
    const sum = benchmark([passages], ask('COOLANT_RISE', { across: 'SUM' }))
    expect(sum.rows[0]!.figures[0]!.value).toBe(5)
    expect(benchmark([passages], ask('COOLANT_RISE', { across: 'MAX' })).rows[0]!.figures[0]!.value).toBe(3)
  })

  it('never stands a passage in for a whole that has no value', () => {
    const broken = unit('b', [figure('COOLANT_RISE', 'specimen', null), figure('COOLANT_RISE', 'coolant/first', 2)])
    const { rows, left } = benchmark([broken], ask('COOLANT_RISE'))
    expect(rows).toEqual([])
    expect(left).toEqual([{ id: 'b', metric: 'COOLANT_RISE', status: 'MISSING', reason: 'not on record' }])
  })

  it('says when the hottest is the hottest of some only', () => {
    const dies = (id: string, values: readonly (number | null)[]): Unit =>
      unit(
        id,
        values.map((value, at) => figure('JUNCTION_TEMPERATURE', `parts/die.${at}`, value)),
      )
    const { rows, notes, left } = benchmark(
      [dies('whole', [80, 90]), dies('part', [70, null, null])],
      ask('JUNCTION_TEMPERATURE', { across: 'MAX' }),
    )
    expect(rows.map(({ unit: { id } }) => id)).toEqual(['whole', 'part'])
    expect(notes).toEqual(['part: JUNCTION_TEMPERATURE is of 1 subject(s); 2 more of it have no value'])
    expect(leftCounts(left)).toEqual([{ metric: 'JUNCTION_TEMPERATURE', status: 'MISSING', count: 2 }])
  })

  it('with several subjects and no way to take them together is left out, and told how', () => {
    const two = unit('a', [figure('HEAT_FLUX', 'parts/x', 1), figure('HEAT_FLUX', 'parts/y', 2)])
    const { rows, left } = benchmark([two], ask('HEAT_FLUX'))
    expect(rows).toEqual([])
    expect(left[0]!.reason).toMatch(/2 subjects: ask per SUBJECT/)
  })

  it('what is known between bounds only has no place in a column', () => {
    const bounds = figure('TRACE_IMPEDANCE', 'parts/flex/traces/t1', null, {
      status: 'OK',
      reason: null,
      low: 40,
      high: 60,
    })
    expect(benchmark([unit('a', [bounds])], ask('TRACE_IMPEDANCE')).left[0]!.reason).toMatch(/between bounds/)
  })
})
