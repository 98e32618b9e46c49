import { readFileSync, writeFileSync } from 'node:fs'
import { loopTables } from './loop-by-hand.ts'
import { replayed } from './readme.ts'
import { withTables } from './tables.ts'

const BY_HAND = 'api/docs/loop-inductance-by-hand.md'

/** Computes the tables of the pages again, runs every example of README, and writes what came out under each. */
writeFileSync(BY_HAND, withTables(readFileSync(BY_HAND, 'utf8'), loopTables()))
writeFileSync('README.md', replayed(readFileSync('README.md', 'utf8')))
