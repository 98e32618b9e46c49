import type { Check } from './check.ts'
import { claimChecks } from './claims.ts'
import { closureChecks } from './closure.ts'
import { coolantChecks } from './coolant.ts'
import { heatChecks } from './heat.ts'
import { netChecks } from './nets.ts'
import { plausibilityChecks } from './plausibility.ts'

/** Every check, in the order in which they are run and listed. */
export const checks: readonly Check[] = [
  ...netChecks,
  ...heatChecks,
  ...coolantChecks,
  ...closureChecks,
  ...claimChecks,
  ...plausibilityChecks,
]
