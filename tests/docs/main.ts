import { readFileSync, writeFileSync } from 'node:fs'
import { loopTables } from './loop-by-hand.ts'
import { methodTables } from './methods.ts'
import { replayed } from './readme.ts'
import { withTables } from './tables.ts'

/** Computes the tables of the pages again, runs every example of README, and writes what came out under each. */
for (const [file, tables] of [
  ['api/docs/loop-inductance-by-hand.md', loopTables()],
  ['api/docs/methods.md', methodTables()],
] as const) {
  writeFileSync(file, withTables(readFileSync(file, 'utf8'), tables))
}
writeFileSync('README.md', replayed(readFileSync('README.md', 'utf8')))
