import type { GraphQLResolveInfo } from 'graphql'
import type { ComponentWhere, Page } from '../../graph/store/question.ts'
import type { ComponentRow, TeardownRow } from '../../graph/store/store.ts'
import { DEFAULT_CONDITIONS } from '../../queries/conditions.ts'
import type { FigureAnswer } from '../answers.ts'
import type { Corpus } from '../corpus.ts'
import { Fault } from '../errors.ts'
import { storedAnswers, storedName } from '../stored-figures.ts'
import { type ConditionsInput, conditionsFrom } from './conditions.ts'
import { type ApiContext, keepTime } from './context.ts'
import { type Selected, selectedUnder } from './needs.ts'
import type { TeardownNode } from './teardown-node.ts'
import { componentWhere } from './where.ts'

/** What a query under a root field will read of each teardown. */
interface Plan {
  readonly body: boolean
  readonly working: boolean
  readonly traits: boolean
  readonly checks: boolean
  /** Metrics by name of stored conditions; null stands for all. */
  readonly figures: ReadonlyMap<string, ReadonlySet<string> | null>
  /** Filters on parts, by themselves as JSON. */
  readonly parts: ReadonlyMap<string, ComponentWhere>
}

/** Metrics asked for below a root field, by the name of stored conditions; null stands for all. */
export function figuresWanted(info: GraphQLResolveInfo): Plan['figures'] {
  const { figures, parts } = planOf(selectedUnder(info))
  if (parts.size === 0) return figures
  throw new Fault('REFUSED', 'filters on parts answer the current revision only', 'leave "where" out, or "asOf"')
}

/** Fetches teardowns as deep as the query below needs them. */
export async function fetchNodes(
  rows: readonly TeardownRow[],
  context: ApiContext,
  info: GraphQLResolveInfo,
): Promise<readonly TeardownNode[]> {
  const plan = planOf(selectedUnder(info))
  const { corpus } = context
  const ids = rows.map(({ id }) => id)
  const traits = plan.traits ? await corpus.store.traitsOf(ids) : []
  const parts = await chosenParts(corpus, ids, plan)
  const checks = plan.checks ? await corpus.store.checksOf(ids) : []
  const nodes: TeardownNode[] = []
  for (const row of rows) {
    keepTime(context)
    nodes.push({
      row,
      opened: plan.body ? await corpus.open(row.id) : null,
      figures: await storedFigures(corpus, row.id, plan),
      traits: traits.filter(({ teardown }) => teardown === row.id),
      checks: checks.filter(({ teardown }) => teardown === row.id),
      parts: parts.get(row.id) ?? new Map(),
    })
  }
  return nodes
}

function planOf(selected: readonly Selected[]): Plan {
  const has = (need: Selected['needs']): boolean => selected.some(({ needs }) => needs === need)
  const figures = new Map<string, Set<string> | null>()
  let computed = false
  for (const { needs, args } of selected) {
    if (needs !== 'figures') continue
    const name = storedNameOf(args)
    if (name === undefined) computed = true
    else figures.set(name, merged(figures.get(name), args.metrics as readonly string[] | null | undefined))
  }
  const parts = selected.flatMap(({ needs, args }) => {
    if (needs !== 'parts' || !args.where) return []
    const where = componentWhere(args.where)
    return [[JSON.stringify(where), where] as const]
  })
  return {
    figures,
    parts: new Map(parts),
    body: computed || has('body') || has('parts'),
    working: has('working'),
    traits: has('traits'),
    checks: has('checks'),
  }
}

/** Name of the stored conditions that a field's arguments ask for; undefined when it must be computed. */
export function storedNameOf(args: Readonly<Record<string, unknown>>): string | undefined {
  if (Array.isArray(args.whatIf) && args.whatIf.length > 0) return undefined
  const input = args.conditions as ConditionsInput | null | undefined
  return storedName(input ? conditionsFrom(input) : DEFAULT_CONDITIONS)
}

/** Metrics of several fields together; undefined so far means none, null means all. */
function merged(
  before: Set<string> | null | undefined,
  metrics: readonly string[] | null | undefined,
): Set<string> | null {
  if (before === null || !metrics) return null
  return new Set([...(before ?? []), ...metrics])
}

async function storedFigures(
  { store }: Corpus,
  id: string,
  plan: Plan,
): Promise<ReadonlyMap<string, readonly FigureAnswer[]>> {
  const found = new Map<string, readonly FigureAnswer[]>()
  for (const [name, metrics] of plan.figures) {
    const rows = await store.figuresOf(id, name)
    const wanted = metrics ? rows.filter(({ metric }) => metrics.has(metric)) : rows
    found.set(name, await storedAnswers(store, wanted, plan.working))
  }
  return found
}

const PARTS_PAGE = 1000

/** Paths of the parts that answer each filter, record by record. */
async function chosenParts(
  { store }: Corpus,
  teardown: readonly string[],
  { parts }: Plan,
): Promise<ReadonlyMap<string, ReadonlyMap<string, ReadonlySet<string>>>> {
  const found = new Map<string, Map<string, Set<string>>>(teardown.map((id) => [id, new Map()]))
  for (const [key, where] of parts) {
    for (const byFilter of found.values()) byFilter.set(key, new Set())
    for (let after: string | null = null, more = true; more; ) {
      const page: Page<ComponentRow> = await store.components({ ...where, teardown }, { first: PARTS_PAGE, after })
      for (const { node } of page.items) found.get(node.teardown)?.get(key)?.add(node.path)
      after = page.items.at(-1)?.cursor ?? null
      more = page.hasNext
    }
  }
  return found
}
