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
    const worker = new Worker(CHECK, { eval: true, workerData: { driver, file, depth, words: WORDS } })
    worker.once('message', resolve)
    worker.once('error', reject)
  })
}

/** Rows of the tables that the indexes of words do not know, and the other way round. */
const WORDS = [
  ['summary', 'teardown', 'summary_text', 'TRUE'],
  ['part', 'part', 'part_text', 'TRUE'],
  ['part', 'part', 'part_marking', 'marking_normal IS NOT NULL'],
].map(([table, key, index, having]) => ({
  index,
  count: `SELECT (SELECT count(*) FROM ${table} WHERE ${having} AND ${key} NOT IN (SELECT id FROM ${index}_docsize))
    + (SELECT count(*) FROM ${index}_docsize WHERE id NOT IN (SELECT ${key} FROM ${table} WHERE ${having}))`,
}))

/**
 * As text, so that it needs no file of its own beside a bundle. A damaged file can fail at any step: that is an answer
 * too, and what was found before it is kept.
 */
const CHECK = `
const { parentPort, workerData: { driver, file, depth, words } } = require('node:worker_threads')
const pages = []
const references = []
const trying = (act) => { try { act() } catch (error) { pages.push(error.message) } }
trying(() => {
  const database = new (require(driver))(file, { readonly: true, timeout: 5000 })
  const check = depth === 'full' ? 'integrity_check' : 'quick_check'
  trying(() => {
    for (const row of database.prepare('PRAGMA ' + check).iterate()) if (row[check] !== 'ok') pages.push(row[check])
  })
  trying(() => {
    for (const row of database.prepare('PRAGMA foreign_key_check').iterate()) {
      references.push(row.table + ' row ' + row.rowid + ' refers to no ' + row.parent)
    }
  })
  for (const { index, count } of words) trying(() => {
    const odd = database.prepare(count).pluck().get()
    if (odd > 0) references.push(index + ' and its table differ in ' + odd + ' rows')
  })
  database.close()
})
parentPort.postMessage({ pages, references })
`
