import type { Adapter } from '../case.ts'
import { sheetAdapters } from './sheets.ts'
import { uncertainty } from './uncertainty.ts'
import { units } from './units.ts'

/** Every adapter; the first that takes a topic and can answer does. */
export const adapters: readonly Adapter[] = [...sheetAdapters, units, uncertainty]
