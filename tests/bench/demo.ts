import { readdirSync, readFileSync } from 'node:fs'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { readSheet } from '../../graph/sheet/read.ts'

/** Ids of the demo sheets. */
export const DEMO_SHEETS: readonly string[] = readdirSync('seeds')
  .filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml')
  .map((name) => name.replace('.yaml', ''))
  .toSorted()

/** The sheet with the most values. */
export const RICHEST = 'ferry-7-drive'

export const sheetText = (id: string): string => readFileSync(`seeds/${id}.yaml`, 'utf8')

export function demoRecord(id: string): TeardownRecord {
  const read = readSheet(sheetText(id), `${id}.yaml`)
  if (!('record' in read)) throw new Error(`${id} is not read`)
  return read.record
}
