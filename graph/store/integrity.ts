import { createRequire } from 'node:module'
import { Worker } from 'node:worker_threads'

/** What the database says of itself; empty when all is well. */
export interface Integrity {
  readonly pages: readonly string[]
  readonly references: readonly string[]
}

/**
 * Reads the whole file for damage. Like copying, this takes seconds over a large file, during which requests must
 * still be answered: both run in a thread of their own, with a connection of their own.
 *
 * @param depth `quick` leaves out that every index agrees with its table
 */
export function integrityOf(file: string, depth: 'quick' | 'full'): Promise<Integrity> {
  return inThread(CHECK, { file, depth, words: WORDS })
}

/** Copies the database as it stands at this moment into an empty file, while writing goes on. @returns revisions in it */
export function copyInto(file: string, to: string): Promise<number> {
  return inThread(COPY, { file, to })
}

function inThread<T>(code: string, data: Readonly<Record<string, unknown>>): Promise<T> {
  const driver = createRequire(import.meta.url).resolve('better-sqlite3')
  return new Promise((resolve, reject) => {
    const worker = new Worker(code, { eval: true, workerData: { ...data, driver } })
    worker.once('message', ({ answer, failed }) => {
      if (failed) reject(Object.assign(new Error(failed.message), { code: failed.code }))
      else resolve(answer)
    })
    worker.once('error', reject)
    worker.once('exit', () => reject(new Error('the thread ended without an answer')))
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
parentPort.postMessage({ answer: { pages, references } })
`

/** VACUUM INTO reads one state of the database throughout, and writes a file that needs no log beside it. */
const COPY = `
const { parentPort, workerData: { driver, file, to } } = require('node:worker_threads')
const Database = require(driver)
try {
  const database = new Database(file, { timeout: 5000 })
  database.pragma('trusted_schema = OFF')
  database.prepare('VACUUM INTO ?').run(to)
  database.close()
  const copy = new Database(to, { readonly: true })
  const answer = copy.prepare('SELECT count(*) FROM revision').pluck().get()
  copy.close()
  parentPort.postMessage({ answer })
} catch ({ message, code }) {
  parentPort.postMessage({ failed: { message, code } })
}
`
