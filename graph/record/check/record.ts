import type { Book } from '../book.ts'
import type { TeardownRecord } from '../record.ts'
import { checkCoolant } from './coolant.ts'
import { warnOfDoubts } from './doubts.ts'
import { checkElectric } from './electric.ts'
import { checkEvidence } from './evidence.ts'
import { checkHeat } from './heat.ts'
import { knownOf } from './known.ts'
import { checkLog } from './log.ts'
import { checkParts } from './parts.ts'
import { checkRuns } from './runs.ts'

/** What must hold across the entries of a record. Faults and warnings go into the book. */
export function checkRecord(record: TeardownRecord, book: Book): void {
  const known = knownOf(record, book)
  checkParts(known)
  checkElectric(known)
  checkHeat(known)
  checkCoolant(known)
  checkLog(known)
  checkEvidence(known, book)
  checkRuns(known, book)
  warnOfDoubts(known)
}
