import { records } from './001-records.ts'
import { packedWorkings } from './002-packed-workings.ts'
import type { Migration } from './migration.ts'

/** In order, without gaps. */
export const MIGRATIONS: readonly Migration[] = [records, packedWorkings]
