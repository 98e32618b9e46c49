import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { graphql } from 'graphql'
import { type Corpus, openCorpus } from '../../api/corpus.ts'
import { schema } from '../../api/graphql/schema.ts'
import { openStore } from '../../graph/store/sqlite.ts'

export interface TestCorpus extends Corpus {
  /** Answers a query in process; throws when there is any error in the answer. */
  ask<T>(query: string, variables?: Readonly<Record<string, unknown>>): Promise<T>
  /** The first error of a query that is to be refused. */
  refusal(query: string, variables?: Readonly<Record<string, unknown>>): Promise<unknown>
  gone(): Promise<void>
}

export async function testCorpus(): Promise<TestCorpus> {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-api-'))
  const store = await openStore({ file: join(folder, 'test.db') })
  const corpus = openCorpus(store)
  const run = (source: string, variableValues: Readonly<Record<string, unknown>> = {}) =>
    graphql({ schema, source, variableValues, contextValue: { corpus, deadline: null } })
  return {
    ...corpus,
    async ask<T>(query: string, variables?: Readonly<Record<string, unknown>>) {
      const { data, errors } = await run(query, variables)
      if (errors) throw errors[0]
      return data as T
    },
    async refusal(query, variables) {
      const { errors } = await run(query, variables)
      return errors?.[0]?.originalError ?? errors?.[0]
    },
    async gone() {
      await store.close()
      rmSync(folder, { recursive: true })
    },
  }
}
