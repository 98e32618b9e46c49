import { barrierChecks } from './barrier.ts'
import type { Check } from './check.ts'
import { claimChecks } from './claims.ts'
import { closureChecks } from './closure.ts'
import { coolantChecks } from './coolant.ts'
import { heatChecks } from './heat.ts'
import { insulationChecks } from './insulation.ts'
import { metalChecks } from './metal.ts'
import { netChecks } from './nets.ts'
import { observedChecks } from './observed.ts'
import { plausibilityChecks } from './plausibility.ts'
import { rangeChecks } from './ranges.ts'
import { sealChecks } from './seals.ts'
import { sisterChecks } from './sisters.ts'
import { stressChecks } from './stress.ts'
import { totalChecks } from './totals.ts'

/** Every check, in the order in which they are run and listed. */
export const checks: readonly Check[] = [
  ...netChecks,
  ...metalChecks,
  ...barrierChecks,
  ...insulationChecks,
  ...stressChecks,
  ...sisterChecks,
  ...heatChecks,
  ...coolantChecks,
  ...sealChecks,
  ...closureChecks,
  ...claimChecks,
  ...plausibilityChecks,
  ...totalChecks,
  ...observedChecks,
  ...rangeChecks,
]
