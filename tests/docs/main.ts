import { readFileSync, writeFileSync } from 'node:fs'
import { replayed } from './readme.ts'

/** Runs every example of README and writes what it printed under it. */
writeFileSync('README.md', replayed(readFileSync('README.md', 'utf8')))
