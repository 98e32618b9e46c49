import { DEFAULT_SETTINGS } from '../graph/settings.ts'
import type { FigureKey, FigureRow, Store } from '../graph/store/store.ts'
import { type Conditions, DEFAULT_CONDITIONS } from '../queries/conditions.ts'
import { NAMED_CONDITIONS } from '../queries/corpus/materialise.ts'
import { type FigureAnswer, figureId, type Working } from './answers.ts'

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
