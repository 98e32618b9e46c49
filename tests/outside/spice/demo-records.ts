import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { demoSheets } from '../../../api/demo.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { openSession, type Session } from '../../../queries/evaluate/session.ts'

/** A session on a sheet; what is wrong with the sheet is thrown. */
export function sessionOf(text: string, file: string): Session {
  const read = readSheet(text, file)
  if (!('record' in read))
    throw new Error(read.complaints.map(({ line, what }) => `${file}:${line} ${what}`).join('\n'))
  return openSession(read.record)
}

/** Every demo record, by the name of its sheet. */
export function demoRecords(): readonly { readonly name: string; readonly session: Session }[] {
  return demoSheets().map((file) => ({
    name: basename(file, '.yaml'),
    session: sessionOf(readFileSync(file, 'utf8'), basename(file)),
  }))
}
