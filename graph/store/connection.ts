import { chmodSync, closeSync, openSync, readSync, statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { Corrupt, ForeignFile, NoFile, TooNew } from './store-error.ts'

/** Marks a file as ours: `Lido` in the four bytes that the file format leaves to applications. */
const APPLICATION_ID = 0x4c69646f
const MAGIC = 'SQLite format 3\0'
const BUSY_MS = 5000
export const OWNER_ONLY = 0o600

export interface OpenFile {
  readonly database: Database.Database
  readonly unclean: boolean
}

/** @param known the newest version of the tables that this program knows */
export function openFile(file: string, choice: { readonly create: boolean; readonly known: number }): OpenFile {
  const bytes = sizeOf(file)
  if (bytes === null) {
    if (!choice.create) throw new NoFile(file, 'there is no database', 'add a first sheet, or name the right file')
    closeSync(openSync(file, 'a', OWNER_ONLY))
  }
  if (!bytes) chmodSync(file, OWNER_ONLY)
  // Before the driver opens it: opening may already write back a log that lies beside a file which is none of ours.
  if (bytes) refuseForeign(file, choice.known)
  const unclean = (sizeOf(`${file}-wal`) ?? 0) > 0
  const database = new Database(file, { timeout: BUSY_MS })
  try {
    claim(database, file)
    configure(database, file)
    const version = versionOf(database)
    if (version > choice.known) throw tooNew(file, version, choice.known)
    return { database, unclean }
  } catch (error) {
    database.close()
    throw error
  }
}

export function versionOf(database: Database.Database): number {
  return Number(database.pragma('user_version', { simple: true }))
}

function sizeOf(file: string): number | null {
  return statSync(file, { throwIfNoEntry: false })?.size ?? null
}

/** Reads the head of the file itself: magic at 0, version at 60, application at 68, as the file format lays down. */
function refuseForeign(file: string, known: number): void {
  const head = Buffer.alloc(100)
  const handle = openSync(file, 'r')
  const read = readSync(handle, head, 0, head.length, 0)
  closeSync(handle)
  const ours =
    read === head.length && head.toString('latin1', 0, 16) === MAGIC && head.readUInt32BE(68) === APPLICATION_ID
  if (!ours) {
    throw new ForeignFile(
      file,
      'this file was not written by this program; it was not touched',
      'name a database of this program, or a new file',
    )
  }
  const version = head.readUInt32BE(60)
  if (version > known) throw tooNew(file, version, known)
}

/** The very first write to a new file, so that even a half-made one is known as ours. */
function claim(database: Database.Database, file: string): void {
  if (database.pragma('application_id', { simple: true }) === APPLICATION_ID) return
  database.pragma(`application_id = ${APPLICATION_ID}`)
  if (database.pragma('application_id', { simple: true }) !== APPLICATION_ID) {
    throw new Corrupt(file, 'the mark of this program could not be written', 'check the disk')
  }
}

/**
 * Set on every open, and read back: this driver's build falls back to NORMAL when a file in WAL mode is opened a
 * second time, and with NORMAL the last writes are lost when the power fails.
 */
const SETTINGS = [
  { name: 'journal_mode', to: 'WAL', reads: 'wal' },
  { name: 'synchronous', to: 'FULL', reads: 2 },
  { name: 'foreign_keys', to: 'ON', reads: 1 },
  { name: 'trusted_schema', to: 'OFF', reads: 0 },
  { name: 'cell_size_check', to: 'ON', reads: 1 },
] as const

function configure(database: Database.Database, file: string): void {
  for (const { name, to, reads } of SETTINGS) {
    database.pragma(`${name} = ${to}`)
    const found = database.pragma(name, { simple: true })
    if (found !== reads) {
      throw new Corrupt(file, `${name} reads ${String(found)} instead of ${reads}`, 'put the file on a local disk')
    }
  }
}

function tooNew(file: string, version: number, known: number): TooNew {
  return new TooNew(
    file,
    `its tables are of version ${version}, this program knows up to ${known}; it was not touched`,
    'use the newer program',
  )
}
