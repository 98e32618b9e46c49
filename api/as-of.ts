import { revisionAsOf } from '../queries/history.ts'
import type { Corpus, Opened } from './corpus.ts'
import { Fault } from './errors.ts'

/**
 * A record as it was: by the number of a revision, by a date (its end) or a moment; the current one when nothing is said.
 * @throws Fault when it is neither, or there was no record then
 */
export async function revisionAt(corpus: Corpus, id: string, when: string | undefined): Promise<Opened> {
  if (when === undefined) return corpus.open(id)
  const revisions = await corpus.store.history(id)
  const first = revisions[0]
  if (/^[1-9]\d{0,8}$/.test(when)) return corpus.openAt(id, Number(when))
  if (!/^\d{4}-\d{2}-\d{2}/.test(when) || Number.isNaN(Date.parse(when)))
    throw new Fault('USAGE', `"${when}" is no date and no revision`, 'write 2026-11-20, or the number of a revision')
  const found = revisionAsOf(revisions, when)
  if (found && !found.withdrawn) return corpus.openAt(id, found.revision)
  throw new Fault(
    'NOT_FOUND',
    found ? `${id} was withdrawn on ${when}` : `there was no record of ${id} on ${when}`,
    first ? `the first revision was written ${first.at}` : '',
  )
}
