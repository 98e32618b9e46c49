import { pMapIterable } from 'p-map'
import type { TeardownRecord } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import type { Expected, Store, Write } from '../graph/store/store.ts'
import { Conflict, NotFound } from '../graph/store/store-error.ts'
import type { Corpus } from './corpus.ts'
import { openDeriving } from './deriving.ts'
import type { Fault } from './errors.ts'
import { faultOf } from './fault-of.ts'
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

/** A record whose figures could not be computed anew, and why. */
export interface LeftAsItWas {
  readonly id: string
  readonly fault: Fault
}

/**
 * Computes anew what was derived by another version. A record that this version does not read keeps what it has, and is
 * named; one that another process wrote or withdrew meanwhile is that process's.
 *
 * @param begun told once before the first, with how many there are
 */
export async function refreshDerived(
  { store, open }: Corpus,
  begun: (count: number) => void,
): Promise<readonly LeftAsItWas[]> {
  const outdated = await store.outdated(DERIVED_STAMP)
  if (outdated.length === 0) return []
  begun(outdated.length)
  const deriving = openDeriving(outdated.length)
  const left: LeftAsItWas[] = []
  const derived = async (id: string) => {
    try {
      const { record, revision } = await open(id)
      return { id, revision, rows: await deriving.derive(record) }
    } catch (error) {
      left.push({ id, fault: faultOf(error) })
      return null
    }
  }
  try {
    for await (const one of pMapIterable(outdated, derived, deriving.ahead)) {
      if (one) await replace(store, one)
    }
  } finally {
    await deriving.close()
  }
  return left
}

async function replace(store: Store, { id, revision, rows }: { id: string; revision: number; rows: Derived }) {
  try {
    await store.replaceDerived(id, revision, rows, DERIVED_STAMP)
  } catch (error) {
    if (!(error instanceof Conflict || error instanceof NotFound)) throw error
  }
}
