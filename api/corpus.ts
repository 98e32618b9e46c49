import { recordFromTree } from '../graph/record/from-tree.ts'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import type { Revision, Store } from '../graph/store/store.ts'
import { openSession, type Session } from '../queries/evaluate/session.ts'
import { Fault } from './errors.ts'

/** A stored record, read and ready to be asked. Its graph is built at the first question. */
export interface Opened {
  readonly id: string
  readonly title: string
  readonly revision: number
  readonly record: TeardownRecord
  session(): Session
}

/** The database with the records that were opened last. */
export interface Corpus {
  readonly store: Store
  /** @throws Fault NOT_FOUND, with the ids that come close */
  open(id: string): Promise<Opened>
  /** A revision that need not be the current one. */
  openAt(id: string, revision: number): Promise<Opened>
}

/** Records kept open: a few tens of megabytes, and a person looks at fewer at a time. */
const KEPT_OPEN = 32

export function openCorpus(store: Store): Corpus {
  const kept = new Map<string, Opened>()
  return {
    store,
    open: async (id) => openKept(id, (await store.head(id)).revision),
    openAt: openKept,
  }

  async function openKept(id: string, revision: number): Promise<Opened> {
    const key = `${id}@${revision}`
    const known = kept.get(key)
    kept.delete(key)
    const opened = known ?? openRevision(await store.revision(id, revision))
    kept.set(key, opened)
    if (kept.size > KEPT_OPEN) kept.delete(kept.keys().next().value!)
    return opened
  }
}

function openRevision({ id, revision, body }: Revision): Opened {
  const read = recordFromTree(JSON.parse(body) as Tree)
  if ('faults' in read) {
    throw new Fault(
      'REFUSED',
      `the stored record "${id}" is not read by this version: ${read.faults[0]?.what}`,
      'add its sheet again after mending it; "lidoff show" prints the sheet as it was typed',
    )
  }
  let session: Session | undefined
  return {
    id,
    revision,
    title: read.record.title,
    record: read.record,
    session: () => {
      session ??= openSession(read.record)
      return session
    },
  }
}
