import { createHash } from 'node:crypto'
import { pMapIterable } from 'p-map'
import type { TeardownRecord } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import type { Expected, Write } from '../graph/store/store.ts'
import { checks } from '../queries/checks/registry.ts'
import { figures } from '../queries/figures/registry.ts'
import { traits } from '../queries/traits/registry.ts'
import type { Corpus } from './corpus.ts'
import { openDeriving } from './deriving.ts'
import { VERSION } from './place.ts'

/**
 * Version of what is computed from a record. A record whose derived rows bear another stamp is computed anew; whoever
 * changes how a figure is computed without touching its words raises the version of the package.
 */
export const DERIVED_STAMP = `${VERSION} ${fingerprint()}`

function fingerprint(): string {
  const said = [
    figures.map(({ id, unit, definition, method, honours }) => [id, unit, definition, method, honours]),
    traits.map(({ id, definition, values }) => [id, definition, values]),
    checks.map(({ id, title, severity }) => [id, title, severity]),
  ]
  return createHash('sha256').update(JSON.stringify(said)).digest('hex').slice(0, 12)
}

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
    for await (const { id, revision, derived: rows } of pMapIterable(outdated, derived, {
      concurrency: deriving.width,
    })) {
      await store.replaceDerived(id, revision, rows, DERIVED_STAMP)
      done(id, outdated.length)
    }
  } finally {
    await deriving.close()
  }
  return outdated.length
}
