import { createRequire } from 'node:module'
import { Worker } from 'node:worker_threads'

/** What the database says of itself; empty when all is well. */
export interface Integrity {
  readonly pages: readonly string[]
  readonly references: readonly string[]
}

/**
 * Reads the whole file for damage in a thread of its own: over a large file this takes seconds, during which requests
 * must still be answered.
 *
 * @param depth `quick` leaves out that every index agrees with its table
 */
export function integrityOf(file: string, depth: 'quick' | 'full'): Promise<Integrity> {
  const driver = createRequire(import.meta.url).resolve('better-sqlite3')
  return new Promise((resolve, reject) => {
    const worker = new Worker(CHECK, { eval: true, workerData: { driver, file, depth } })
    worker.once('message', resolve)
    worker.once('error', reject)
  })
}

/** As text, so that it needs no file of its own beside a bundle. A damaged file can fail at any step: that is an answer. */
const CHECK = `
const { parentPort, workerData: { driver, file, depth } } = require('node:worker_threads')
const pages = []
const references = []
try {
  const database = new (require(driver))(file, { readonly: true, timeout: 5000 })
  const check = depth === 'full' ? 'integrity_check' : 'quick_check'
  for (const row of database.pragma(check)) if (row[check] !== 'ok') pages.push(row[check])
  for (const row of database.pragma('foreign_key_check')) {
    references.push(row.table + ' row ' + row.rowid + ' refers to no ' + row.parent)
  }
  database.close()
} catch (error) {
  pages.push(error.message)
}
parentPort.postMessage({ pages, references })
`
