import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore } from '../../graph/store/sqlite.ts'
import type { Store } from '../../graph/store/store.ts'
import { NoFile } from '../../graph/store/store-error.ts'
import { databaseFile } from '../config.ts'
import { type Corpus, openCorpus } from '../corpus.ts'
import { refreshDerived } from '../sheets.ts'
import type { Call } from './command.ts'
import type { Terminal } from './terminal.ts'

/** What to do when there is no database: make it, refuse, or answer as from an empty one without leaving a file. */
type WhenNone = 'make' | 'refuse' | 'empty'

/** Runs with the database open and closes it whatever happens. What another version derived is computed anew first. */
export async function withCorpus<T>(call: Call, none: WhenNone, act: (corpus: Corpus) => Promise<T>): Promise<T> {
  const { value: file } = databaseFile(call.options, call.env)
  const { store, gone } = await opened(file, none)
  try {
    const corpus = openCorpus(store)
    await refresh(corpus, call.terminal)
    return await act(corpus)
  } finally {
    await store.close()
    gone()
  }
}

/** Brings figures of another version up to date, and says so. */
export async function refresh(corpus: Corpus, { say }: Terminal): Promise<void> {
  const left = await refreshDerived(corpus, (count) =>
    say(`${count} of the records bear figures of another version: these are computed anew`),
  )
  for (const { id, fault } of left)
    say(`${id} keeps the figures of another version: ${fault.message}${fault.mend ? `; ${fault.mend}` : ''}`)
}

async function opened(file: string, none: WhenNone): Promise<{ readonly store: Store; readonly gone: () => void }> {
  try {
    return { store: await openStore({ file, create: none === 'make' }), gone: () => {} }
  } catch (error) {
    if (!(error instanceof NoFile) || none !== 'empty') throw error
    const folder = mkdtempSync(join(tmpdir(), 'lidoff-'))
    const store = await openStore({ file: join(folder, 'empty.db') })
    return { store, gone: () => rmSync(folder, { recursive: true }) }
  }
}
