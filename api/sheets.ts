import { pMapIterable } from 'p-map'
import type { TeardownRecord } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import type { Expected, Write } from '../graph/store/store.ts'
import type { Corpus } from './corpus.ts'
import { openDeriving } from './deriving.ts'
import { VERSION } from './place.ts'

/** Set where the sources are bundled: a fingerprint of all that figures are computed with. */
declare global {
  var COMPUTED_WITH: string | undefined
}

/** Version of what is computed from a record. A record whose derived rows bear another stamp is computed anew. */
export const DERIVED_STAMP = `${VERSION} ${globalThis.COMPUTED_WITH ?? 'sources as they are'}`

/** What is written of a sheet that was read without an error. */
export function writeOf(
  record: TeardownRecord,
  sheetText: string,
  derived: Derived,
  { at, expected, by }: { at: Date; expected: Expected; by?: string },
): Write {
  return {
    id: record.id,
    sheetText,
    body: JSON.stringify(record.tree),
    expected,
    derived,
    stamp: DERIVED_STAMP,
    at: at.toISOString(),
    ...(by && { by }),
  }
}

/** Computes anew what was derived by another version; says which record is done. */
export async function refreshDerived({ store, open }: Corpus, done: (id: string, of: number) => void): Promise<number> {
  const outdated = await store.outdated(DERIVED_STAMP)
  const deriving = openDeriving(outdated.length)
  const derived = async (id: string) => {
    const { record, revision } = await open(id)
    return { id, revision, derived: await deriving.derive(record) }
  }
  try {
    for await (const { id, revision, derived: rows } of pMapIterable(outdated, derived, deriving.ahead)) {
      await store.replaceDerived(id, revision, rows, DERIVED_STAMP)
      done(id, outdated.length)
    }
  } finally {
    await deriving.close()
  }
  return outdated.length
}
