import { checksOf, traitsOf } from '../../queries/corpus/materialise.ts'
import { summaryOf } from '../../queries/corpus/searchable.ts'
import { computeFigures, type FigureAnswer } from '../answers.ts'
import type { Corpus, Opened } from '../corpus.ts'
import { namedConditions } from '../stored-figures.ts'
import type { TeardownNode } from './teardown-node.ts'

/** Named conditions under which figures of a revision may be asked for. */
type Wanted = ReadonlyMap<string, ReadonlySet<string> | null>

/**
 * A revision that need not be the current one, as a teardown: nothing of an old one is stored but its text, so what is
 * asked of it is computed now.
 */
export async function fetchOpened(
  { store }: Corpus,
  opened: Opened,
  wanted: Wanted = new Map(),
): Promise<TeardownNode> {
  const { hash, at } = await store.revision(opened.id, opened.revision)
  const { title, kind, maker, model } = summaryOf(opened.record)
  const session = opened.session()
  const figures = new Map<string, readonly FigureAnswer[]>()
  for (const [name, metrics] of wanted) {
    const conditions = namedConditions(name)
    figures.set(name, computeFigures(opened, { conditions, ...(metrics && { metrics: [...metrics] }) }))
  }
  return {
    row: { id: opened.id, revision: opened.revision, hash, at, title, kind, maker, model },
    opened,
    figures,
    traits: traitsOf(session).map((one) => ({ ...one, teardown: opened.id })),
    checks: checksOf(session).map((one) => ({ ...one, teardown: opened.id })),
    parts: new Map(),
  }
}
