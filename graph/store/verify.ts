import { setImmediate as pause } from 'node:timers/promises'
import type Database from 'better-sqlite3'
import { integrityOf } from './integrity.ts'
import { contentHash, type RevisionContent, type RevisionLine, sealOf } from './revision-hash.ts'
import type { Verified } from './store.ts'

type Problem = Verified['problems'][number]

interface Line extends RevisionLine, RevisionContent {
  readonly key: number
  readonly seal: string
  readonly current: number
  readonly derivedRevision: number | null
  readonly withdrawn: 0 | 1
}

/** Pages, references, and the hash and seal of every revision. Reads on after a problem, to name them all. */
export async function verify(database: Database.Database, file: string): Promise<Verified> {
  const { pages, references } = await integrityOf(file, 'quick')
  const problems: Problem[] = [
    ...pages.map((what) => ({ place: file, what, mend: 'restore a backup; keep the damaged file' })),
    ...references.map((what) => ({ place: file, what, mend: 'compute the derived rows anew' })),
  ]
  let revisions = 0
  try {
    const keys = database.prepare<[], number>('SELECT key FROM teardown ORDER BY key').pluck().all()
    const lines = database.prepare<[number], Line>(LINES)
    for (const key of keys) {
      const found = lines.all(key)
      revisions += found.length
      problems.push(...historyProblems(found))
      // Between two records others have their turn.
      await pause()
    }
  } catch (error) {
    problems.push({ place: file, what: `reading stopped: ${String(error)}`, mend: 'restore a backup' })
  }
  return { revisions, problems }
}

const LINES = `
  SELECT t.key, t.id, t.revision AS current, t.derived_revision AS derivedRevision, r.revision, r.withdrawn, r.sheet,
    r.body, r.hash, r.seal, r.at, r.by, r.note
  FROM teardown t JOIN revision r ON r.teardown = t.key WHERE t.key = ? ORDER BY r.revision`

function historyProblems(lines: readonly Line[]): Problem[] {
  const problems: Problem[] = []
  let before: string | null = null
  lines.forEach((line, at) => {
    const say = (what: string, mend: string) =>
      problems.push({ place: `${line.id} revision ${line.revision}`, what, mend })
    if (line.revision !== at + 1) say(`revision ${at + 1} was expected here`, 'restore a backup')
    if (contentHash(line) !== line.hash)
      say('the content is not what was written: its hash differs', 'restore a backup')
    if (sealOf(before, line) !== line.seal)
      say('this line of the history, or one before, was altered', 'restore a backup')
    before = line.seal
  })
  const last = lines.at(-1)
  if (last && last.current !== last.revision) {
    problems.push({ place: last.id, what: `revision ${last.current} is called current`, mend: 'restore a backup' })
  }
  if (last && last.derivedRevision !== (last.withdrawn ? null : last.revision)) {
    problems.push({
      place: last.id,
      what: 'derived rows are of another revision',
      mend: 'compute the derived rows anew',
    })
  }
  return problems
}
