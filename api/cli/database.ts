import { openStore } from '../../graph/store/sqlite.ts'
import { databaseFile } from '../config.ts'
import { type Corpus, openCorpus } from '../corpus.ts'
import { refreshDerived } from '../sheets.ts'
import type { Call } from './command.ts'

/** Runs with the database open and closes it whatever happens. What another version derived is computed anew first. */
export async function withCorpus<T>(
  call: Call,
  { create }: { create: boolean },
  act: (corpus: Corpus) => Promise<T>,
): Promise<T> {
  const { value: file } = databaseFile(call.options, call.env)
  const store = await openStore({ file, create })
  try {
    const corpus = openCorpus(store)
    let said = false
    await refreshDerived(corpus, (_id, of) => {
      if (!said)
        call.terminal.say(
          `figures of ${of} record${of === 1 ? '' : 's'} were computed by another version: computing them anew`,
        )
      said = true
    })
    return await act(corpus)
  } finally {
    await store.close()
  }
}
