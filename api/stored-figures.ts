import { DEFAULT_SETTINGS } from '../graph/settings.ts'
import type { FigureKey, FigureRow, Store } from '../graph/store/store.ts'
import { type Conditions, DEFAULT_CONDITIONS } from '../queries/conditions.ts'
import { NAMED_CONDITIONS } from '../queries/corpus/materialise.ts'
import { figures } from '../queries/figures/registry.ts'
import { isNamed } from '../queries/subject-names.ts'
import { computeFigures, type FigureAnswer, type FigureRequest, figureId, type Working } from './answers.ts'
import type { Corpus } from './corpus.ts'

/** Name of the stored set of conditions that equals these; undefined when they must be computed. */
export function storedName(conditions: Conditions): string | undefined {
  if (Object.keys(conditions.numeric).length > 0) return undefined
  const asked = JSON.stringify(conditions.settings)
  return Object.keys(NAMED_CONDITIONS).find((name) => JSON.stringify(namedConditions(name).settings) === asked)
}

export function namedConditions(name: string): Conditions {
  return name === 'default'
    ? DEFAULT_CONDITIONS
    : { settings: { ...DEFAULT_SETTINGS, ...NAMED_CONDITIONS[name] }, numeric: {} }
}

/** Stored rows as figures; their workings are fetched along when they will be read. */
export async function storedAnswers(
  store: Store,
  rows: readonly FigureRow[],
  withWorking: boolean,
): Promise<readonly FigureAnswer[]> {
  const keys: FigureKey[] = withWorking ? [...rows] : []
  const details = keys.length > 0 ? await store.figureDetails(keys) : []
  return rows.map((row, at) => storedAnswer(row, details[at]?.body))
}

function storedAnswer(row: FigureRow, body: string | undefined): FigureAnswer {
  const { teardown, metric, subject, conditions, revision: _, ...head } = row
  const used = namedConditions(conditions)
  let working: Working | undefined
  return {
    ...head,
    metric,
    subject,
    teardown,
    used,
    id: figureId({ teardown, metric, subject, used }),
    working: () => {
      if (body === undefined) throw new Error(`the working of ${metric} was not fetched`)
      working ??= JSON.parse(body) as Working
      return working
    },
  }
}

/** Figures of one record: the stored ones where the question is one of those that are stored, else computed now. */
export async function figuresFor(
  { store, open }: Corpus,
  id: string,
  request: FigureRequest,
): Promise<readonly FigureAnswer[]> {
  const { metrics, subjects, conditions = DEFAULT_CONDITIONS, whatIf = [] } = request
  const name = whatIf.length === 0 ? storedName(conditions) : undefined
  if (name === undefined) return computeFigures(await open(id), request)
  const all = await store.figuresOf(id, name)
  const wanted = (metrics ?? figures.map((figure) => figure.id)).flatMap((metric) =>
    all.filter((row) => row.metric === metric && (subjects === undefined || isNamed(row.subject, subjects))),
  )
  return storedAnswers(store, wanted, true)
}
