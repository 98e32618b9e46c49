import { readdirSync, readFileSync } from 'node:fs'
import { readSheet } from '../../graph/sheet/read.ts'
import { openSession, type Session } from '../../queries/evaluate/session.ts'

const FOLDER = new URL('../../seeds/', import.meta.url)

/** Ids of the demo units. */
export const DEMO_UNITS: readonly string[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml')
  .map((name) => name.replace('.yaml', ''))

const opened = new Map<string, Session>()

/** A demo unit, opened once for all tests of a file. */
export function demoSession(id: string): Session {
  const known = opened.get(id) ?? openSession(readOrThrow(readFileSync(new URL(`${id}.yaml`, FOLDER), 'utf8')))
  opened.set(id, known)
  return known
}

/** A sheet as a session. */
export function sheetSession(text: string): Session {
  return openSession(readOrThrow(text))
}

function readOrThrow(text: string) {
  const read = readSheet(text, 'test.yaml')
  if ('record' in read) return read.record
  throw new Error(read.complaints.map(({ line, what, mend }) => `line ${line}: ${what}; ${mend}`).join('\n'))
}
