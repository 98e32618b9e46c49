import type { DerivedFigure } from '../../graph/store/derived.ts'
import type { TeardownWhere } from '../../graph/store/question.ts'
import { leftCounts, type Row } from '../../queries/corpus/benchmark.ts'
import type { Reduction } from '../../queries/corpus/reduce.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { type Comparison, compare } from '../benchmark.ts'
import { cautionsFor } from '../cautions.ts'
import { Fault } from '../errors.ts'
import { groupName } from '../group-name.ts'
import { targetsFor } from '../targets.ts'
import { printCautions } from './cautions.ts'
import { type Call, listOf, type Options, textOf } from './command.ts'
import { conditionsText } from './conditions-text.ts'
import { withCorpus } from './database.ts'
import { doubtful, faint, strong } from './emphasis.ts'
import { conditionsOf, metricsOf, pairOf } from './metrics.ts'
import { intervalText, numberText, shortened, uncertaintyText } from './numbers.ts'
import { type Column, table } from './table.ts'

export function compareUnits(call: Call): Promise<number> {
  const { terminal, options } = call
  const asked = askedFrom(options)
  return withCorpus(call, 'refuse', async (corpus) => {
    const result = await compare(corpus, asked, () => {})
    const targets = targetsFor(asked.metrics)
    const cautions = cautionsFor(asked.metrics)
    terminal.print(faint(conditionsText(asked.conditions)))
    terminal.print('')
    terminal.print(
      result.rows.length > 0 ? table(columnsOf(asked), result.rows, terminal.width) : 'no unit has a value',
    )
    for (const { group, metric, count, low, median, high, unit } of result.groups) {
      terminal.print(
        `${strong(group)} ${metric}: ${numberText(median)} ${unit} in the middle of ${count}, half within ${numberText(low)} … ${numberText(high)}`,
      )
    }
    for (const { metric, value, unit, year, source } of targets) {
      terminal.print(`target ${metric}: ${numberText(value)} ${unit} for ${year} ${faint(source)}`)
    }
    for (const note of result.notes) terminal.print(`${doubtful('note')} ${note}`)
    const counts = leftCounts(result.left)
    if (counts.length > 0) terminal.print(strong('\nleft out'))
    for (const { metric, status, count } of counts) terminal.print(faint(`${count} ${status} of ${metric}`))
    for (const [text, count] of timesOf(
      result.left.map(({ id, metric, status, reason }) => `${id} ${metric}: ${doubtful(status)} ${shortened(reason)}`),
    ))
      terminal.print(count > 1 ? `${text} (${count} subjects)` : text)
    printCautions(cautions, terminal)
    terminal.document({
      conditions: asked.conditions,
      rows: result.rows.map(rowDocument),
      groups: result.groups,
      left: result.left,
      leftCounts: counts,
      notes: result.notes,
      targets,
      cautions,
    })
    return 0
  })
}

/** Equal lines once, with how often they come. */
function timesOf(lines: readonly string[]): ReadonlyMap<string, number> {
  const times = new Map<string, number>()
  for (const line of lines) times.set(line, (times.get(line) ?? 0) + 1)
  return times
}

function askedFrom(options: Options): Comparison {
  const metrics = metricsOf(options) ?? ['POWER_DENSITY', 'SPECIFIC_POWER']
  const group = textOf(options, 'group')
  return {
    metrics,
    where: whereFrom(listOf(options, 'where')),
    conditions: conditionsOf(options),
    per: choice(textOf(options, 'per'), '--per', ['TEARDOWN', 'SUBJECT']) ?? 'TEARDOWN',
    across: choice<Reduction>(textOf(options, 'across'), '--across', ['MAX', 'MIN', 'MEAN', 'SUM']) ?? null,
    orderBy: { metric: metrics[0]!, direction: choice(textOf(options, 'order'), '--order', ['DESC', 'ASC']) ?? 'DESC' },
    groupBy: group === undefined ? null : groupName(group === 'kind' ? { kind: true } : { trait: group }),
  }
}

const LISTS = ['id', 'kind', 'maker', 'class'] as const
const TEXTS = ['text', 'instrument'] as const

/** `kind=traction-inverter`, `trait.cooling-sides=two`: a filter named twice takes either. */
export function whereFrom(filters: readonly string[]): TeardownWhere {
  const where: Record<string, unknown> = {}
  const traits: { id: string; value: string }[] = []
  for (const filter of filters) {
    const [name, value] = pairOf(filter, '--where kind=traction-inverter')
    if (name.startsWith('trait.')) traits.push({ id: name.slice('trait.'.length), value })
    else if (LISTS.some((one) => one === name)) where[name] = [...((where[name] as string[] | undefined) ?? []), value]
    else if (TEXTS.some((one) => one === name)) where[name] = value
    else
      throw new Fault('USAGE', `no filter "${name}"`, `known filters: ${[...LISTS, ...TEXTS].join(', ')}, trait.NAME`)
  }
  return { ...where, ...(traits.length > 0 && { trait: traits }) }
}

function choice<W extends string>(typed: string | undefined, flag: string, words: readonly W[]): W | undefined {
  if (typed === undefined) return undefined
  const found = words.find((word) => word === typed.toUpperCase())
  if (found) return found
  throw new Fault('USAGE', `${flag} cannot be "${typed}"`, `one of: ${words.join(', ').toLowerCase()}`)
}

function columnsOf({ metrics, per }: Comparison): readonly Column<Row>[] {
  const of = (row: Row, metric: string): DerivedFigure | undefined => row.figures.find((one) => one.metric === metric)
  return [
    {
      head: 'rank',
      cell: (row) => (row.rank === null ? '' : `${row.rank}${row.tiedWith.length > 0 ? '=' : ''}`),
      align: 'right',
    },
    {
      head: 'ahead',
      cell: (row) => (row.probabilityAboveNext === null ? '' : chanceText(row.probabilityAboveNext)),
      align: 'right',
    },
    { head: 'unit', cell: (row) => row.unit.id },
    ...(per === 'SUBJECT' ? [{ head: 'subject', cell: (row: Row) => row.subject, wraps: true }] : []),
    ...metrics.flatMap((metric): Column<Row>[] => [
      {
        head: `${metric} [${figureById(metric).unit}]`,
        align: 'point',
        cell: (row) => numberText(of(row, metric)?.value ?? null, of(row, metric)?.uncertainty),
      },
      { head: 'u', align: 'point', cell: (row) => textFor(of(row, metric), uncertaintyText) },
      { head: '95 %', cell: (row) => textFor(of(row, metric), intervalText) },
    ]),
  ]
}

/** A chance that rounds to certainty is not one. */
function chanceText(p: number): string {
  if (p > 0.99) return '>99 %'
  return p < 0.01 ? '<1 %' : `${(100 * p).toFixed(0)} %`
}

const textFor = (figure: DerivedFigure | undefined, text: (one: DerivedFigure) => string): string =>
  figure ? text(figure) : ''

function rowDocument({ unit, subject, figures, rank, tiedWith, probabilityAboveNext }: Row) {
  return {
    teardown: unit.id,
    title: unit.title,
    revision: unit.revision,
    subject,
    rank,
    tiedWith,
    probabilityAboveNext,
    figures: figures.map(({ components: _, body: __, ...figure }) => figure),
  }
}
