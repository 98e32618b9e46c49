import type { DerivedFigure } from '../graph/store/derived.ts'
import type { TeardownWhere } from '../graph/store/question.ts'
import type { Store, TeardownRow } from '../graph/store/store.ts'
import { type Conditions, conditionsKey } from '../queries/conditions.ts'
import { type Benchmark, type BenchmarkAsk, benchmark, type Unit } from '../queries/corpus/benchmark.ts'
import { derivedFigure } from '../queries/corpus/materialise.ts'
import { figureById } from '../queries/figures/registry.ts'
import { sessionFor } from './answers.ts'
import type { Corpus } from './corpus.ts'
import { storedName } from './stored-figures.ts'

/** A comparison as it is asked for, from the command line and the API alike. */
export interface Comparison {
  readonly metrics: readonly string[]
  readonly where: TeardownWhere
  readonly conditions: Conditions
  readonly per: BenchmarkAsk['per']
  readonly across: BenchmarkAsk['across']
  readonly orderBy: BenchmarkAsk['orderBy']
  readonly groupBy: string | null
}

/** Under conditions that are not stored every record is evaluated anew: so many at most in one question. */
export const EVALUATED_AT_MOST = 100
const PAGE = 1000

/** Comparisons of stored figures that were asked last: the next page of one is not compared anew. */
const KEPT = 16
const kept = new WeakMap<Store, Map<string, Benchmark>>()

/** Compares the records that a question selects. Stored figures where the conditions are stored ones, else computed. */
export async function compare(corpus: Corpus, asked: Comparison, keepTime: () => void): Promise<Benchmark> {
  if (storedName(asked.conditions) === undefined) return compareNow(corpus, asked, keepTime)
  const { revisions } = await corpus.store.state()
  const known = kept.get(corpus.store) ?? new Map<string, Benchmark>()
  kept.set(corpus.store, known)
  const key = JSON.stringify([revisions, asked])
  const result = known.get(key) ?? (await compareNow(corpus, asked, keepTime))
  known.delete(key)
  known.set(key, result)
  if (known.size > KEPT) known.delete(known.keys().next().value!)
  return result
}

async function compareNow(corpus: Corpus, asked: Comparison, keepTime: () => void): Promise<Benchmark> {
  const rows = await allRows(corpus.store, asked.where)
  const name = storedName(asked.conditions)
  const traits = await traitsBy(corpus.store, rows, asked)
  const taken = name === undefined ? rows.slice(0, EVALUATED_AT_MOST) : rows
  const figures =
    name === undefined
      ? await computedFigures(corpus, taken, asked, keepTime)
      : await storedFigures(corpus.store, asked, name)
  const units = taken.map(({ id, title, revision, kind }): Unit => {
    return { id, title, revision, kind, traits: traits.get(id) ?? {}, figures: figures.get(id) ?? [] }
  })
  const result = benchmark(units, {
    figures: asked.metrics.map(figureById),
    per: asked.per,
    across: asked.across,
    orderBy: asked.orderBy,
    groupBy: asked.groupBy,
    set: Object.keys(asked.conditions.numeric),
  })
  return { ...result, left: [...result.left, ...beyondBudget(rows.slice(taken.length), asked)] }
}

/** The one trait that rows are gathered by; others are not needed. */
async function traitsBy(
  store: Store,
  rows: readonly TeardownRow[],
  { groupBy }: Comparison,
): Promise<ReadonlyMap<string, Readonly<Record<string, string>>>> {
  if (groupBy === null || groupBy === 'kind') return new Map()
  const traits = await store.traitsOf(rows.map(({ id }) => id))
  return new Map(
    traits.filter(({ id }) => id === groupBy).map(({ teardown, id, value }) => [teardown, { [id]: value }]),
  )
}

async function allRows(store: Store, where: TeardownWhere): Promise<readonly TeardownRow[]> {
  const rows: TeardownRow[] = []
  for (let after: string | null = null; ; ) {
    const page = await store.teardowns(where, { by: 'id' }, { first: PAGE, after })
    rows.push(...page.items.map(({ node }) => node))
    if (!page.hasNext) return rows
    after = page.items.at(-1)?.cursor ?? null
  }
}

type ByTeardown = ReadonlyMap<string, readonly DerivedFigure[]>

async function storedFigures(store: Store, { metrics, where }: Comparison, conditions: string): Promise<ByTeardown> {
  const rows = await store.figures({ metrics, conditions, where })
  const details = await store.figureDetails(rows)
  const all = new Map<string, DerivedFigure[]>()
  rows.forEach(({ teardown, revision: _, ...row }, at) => {
    const { components = {}, body = '' } = details[at] ?? {}
    const list = all.get(teardown) ?? []
    list.push({ ...row, components, body })
    all.set(teardown, list)
  })
  return all
}

async function computedFigures(
  corpus: Corpus,
  rows: readonly TeardownRow[],
  asked: Comparison,
  keepTime: () => void,
): Promise<ByTeardown> {
  const all = new Map<string, readonly DerivedFigure[]>()
  const name = conditionsKey(asked.conditions)
  for (const { id } of rows) {
    keepTime()
    const session = sessionFor(await corpus.open(id), asked.conditions)
    all.set(
      id,
      session.evaluateAll(asked.metrics).map((result) => derivedFigure(result, name)),
    )
  }
  return all
}

function beyondBudget(rows: readonly TeardownRow[], { metrics }: Comparison): Benchmark['left'] {
  const reason = `not evaluated: under conditions that are not stored ${EVALUATED_AT_MOST} records are evaluated at most; narrow "where"`
  return rows.flatMap(({ id }) => metrics.map((metric) => ({ id, metric, status: 'MISSING', reason })))
}
