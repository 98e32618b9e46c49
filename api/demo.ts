import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { projectFolder } from './place.ts'

/** Sheets of the demo corpus; the published targets beside them are no sheet. */
export function demoSheets(): readonly string[] {
  const folder = join(projectFolder(), 'seeds')
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml')
    .sort()
    .map((name) => join(folder, name))
}
