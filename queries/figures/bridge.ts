import type { Path } from '../../graph/quantity/quantity.ts'
import type { Model } from '../../graph/view.ts'
import type { NumericName } from '../conditions.ts'
import { operating } from './paths.ts'

/** The loops of the three-phase two-level bridge that makes the output, and the net that each switches. */
export interface ThreePhase {
  readonly loops: readonly Path[]
  readonly phases: readonly Path[]
}

/** Closed forms of the bridge hold for three phases: anything else is not applicable, and says what is there. */
export const threePhase: Model<ThreePhase> = {
  id: 'three-phase bridge',
  compute(view) {
    const loops = view.some({ ask: 'bridge-loops' }).paths
    const phases = [...new Set(loops.flatMap((loop) => view.find({ ask: 'loop-output', loop }).paths))]
    if (phases.length !== 3)
      view.fail(
        `the closed forms are for a three-phase bridge; ${phases.length} switched output(s) are on record`,
        'not-applicable',
      )
    return { loops, phases }
  },
}

export interface BridgePoint {
  readonly phaseCurrent: number
  readonly modulationIndex: number
  readonly powerFactor: number
}

/** Current, modulation and displacement at the operating point that the `power` setting picks. */
export const bridgePoint: Model<BridgePoint> = {
  id: 'bridge operating point',
  compute: (view) =>
    view.need({
      phaseCurrent: operating(view, 'phase-current'),
      modulationIndex: operating(view, 'modulation-index'),
      powerFactor: operating(view, 'power-factor'),
    }),
}

/** Numeric conditions behind {@link bridgePoint}. */
export const BRIDGE_CONDITIONS: readonly NumericName[] = ['phaseCurrent', 'modulationIndex', 'powerFactor']
