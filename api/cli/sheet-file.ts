import { readFileSync } from 'node:fs'
import type { Reading } from '../../graph/record/from-tree.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import type { Complaint } from '../../graph/sheet/complaint.ts'
import { readSheet } from '../../graph/sheet/read.ts'

/** A sheet as it was read from a file: the record, or everything that is wrong with it. */
export interface SheetReading {
  readonly file: string
  readonly text: string
  readonly record: TeardownRecord | null
  readonly complaints: readonly Complaint[]
  readonly warnings: readonly Complaint[]
  readonly readings: readonly Reading[]
}

export async function readSheetFile(file: string, stdin: () => Promise<string>): Promise<SheetReading> {
  const text = file === '-' ? await stdin() : readFileSync(file, 'utf8')
  const name = file === '-' ? 'standard input' : file
  const read = readSheet(text, name)
  return 'record' in read
    ? { file: name, text, complaints: [], ...read }
    : { file: name, text, record: null, readings: [], ...read }
}
