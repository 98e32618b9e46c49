import type { GraphQLResolveInfo } from 'graphql'
import { cursorsOf } from '../../graph/store/cursor.ts'
import type { DerivedFigure } from '../../graph/store/derived.ts'
import type { Conditions } from '../../queries/conditions.ts'
import type { Benchmark, Row } from '../../queries/corpus/benchmark.ts'
import type { FigureAnswer, Working } from '../answers.ts'
import { figureId } from '../answers.ts'
import { type Comparison, compare } from '../benchmark.ts'
import { type Target, targetsFor } from '../targets.ts'
import { type ApiContext, keepTime } from './context.ts'
import { fetchNodes } from './fetch.ts'
import type { ConnectionOf } from './refs.ts'
import type { TeardownNode } from './teardown-node.ts'

export interface RowAnswer {
  readonly teardown: TeardownNode
  readonly subject: string
  readonly figures: readonly FigureAnswer[]
  readonly rank: number | null
  readonly tiedWith: readonly string[]
  readonly probabilityAboveNext: number | null
}

export interface BenchmarkAnswer extends Pick<Benchmark, 'groups' | 'left' | 'notes'> {
  readonly conditions: Conditions
  readonly rows: readonly RowAnswer[]
  readonly targets: readonly Target[]
  readonly page: ConnectionOf<Row>
}

/** A comparison, one page of it with the units it names. */
export async function benchmarkPage(
  asked: Comparison,
  span: { readonly first: number; readonly after: string | null | undefined },
  context: ApiContext,
  info: GraphQLResolveInfo,
): Promise<BenchmarkAnswer> {
  const result = await compare(context.corpus, asked, () => keepTime(context))
  const page = pageOfRows(result.rows, asked, span)
  const ids = [...new Set(page.edges.map(({ node }) => node.unit.id))]
  const nodes = await fetchNodes(await context.corpus.store.teardownRows(ids), context, info)
  const byId = new Map(nodes.map((node) => [node.row.id, node]))
  return {
    ...result,
    conditions: asked.conditions,
    targets: targetsFor(asked.metrics),
    page,
    rows: page.edges.map(({ node: { unit, subject, figures, rank, tiedWith, probabilityAboveNext } }) => ({
      teardown: byId.get(unit.id)!,
      subject,
      rank,
      tiedWith,
      probabilityAboveNext,
      figures: figures.map((figure) => answerOf(unit.id, figure, asked.conditions)),
    })),
  }
}

/**
 * A page after the row that a cursor names. When that row has gone meanwhile, the page goes on from where it stood: at
 * the first row that comes after its value and name in the order.
 */
function pageOfRows(
  rows: readonly Row[],
  asked: Comparison,
  { first, after }: { readonly first: number; readonly after: string | null | undefined },
): ConnectionOf<Row> {
  const cursors = cursorsOf({ list: 'benchmark', ...asked })
  const start = after ? placeAfter(rows, cursors.read(after)) : 0
  const shown = rows.slice(start, start + first)
  return {
    edges: shown.map((row) => ({ cursor: cursors.write(positionOf(row)), node: row })),
    hasNext: start + first < rows.length,
    hasPrevious: start > 0,
    total: rows.length,
  }
}

type Position = readonly (string | number | bigint | null)[]

/** What a row is found again by: its name, and the value it was sorted by. */
function positionOf({ unit, subject, figures }: Row): Position & readonly [string, string, number | null] {
  return [unit.id, subject, figures[0]?.value ?? null]
}

function placeAfter(rows: readonly Row[], [id, subject, value]: Position): number {
  const same = rows.findIndex((row) => row.unit.id === id && row.subject === subject)
  if (same >= 0) return same + 1
  const descending = isDescending(rows)
  const beyond = rows.findIndex((row) => {
    const own = row.figures[0]?.value ?? null
    if (own === null || value === null || own === value)
      return own === value && `${row.unit.id} ${row.subject}` > `${id} ${subject}`
    return descending ? own < Number(value) : own > Number(value)
  })
  return beyond < 0 ? rows.length : beyond
}

function isDescending(rows: readonly Row[]): boolean {
  const values = rows.flatMap((row) => row.figures[0]?.value ?? [])
  return (values[0] ?? 0) >= (values.at(-1) ?? 0)
}

function answerOf(teardown: string, figure: DerivedFigure, used: Conditions): FigureAnswer {
  const { components: _, body, conditions: __, ...head } = figure
  const { metric, subject } = head
  return {
    ...head,
    id: figureId({ teardown, metric, subject, used }),
    teardown,
    used,
    working: () => JSON.parse(body) as Working,
  }
}
