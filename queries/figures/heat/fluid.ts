import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { boilingPoint } from '../../physics/boiling.ts'
import { coolantPropertiesMethod, FLUIDS, type Fluid } from '../../physics/coolant-fluid.ts'
import { glycolMassFraction } from '../../physics/coolant-fluid-glycol.ts'
import { apply } from '../apply.ts'
import { below } from '../paths.ts'
import { sound } from './reading.ts'

export interface CircuitFluid {
  readonly fluid: Fluid
  readonly inlet: number
  readonly density: number
  readonly specificHeat: number
  readonly viscosity: number
  readonly thermalConductivity: number
}

/** Half-width by which two published tables of one author differ in the viscosity of glycol mixtures. */
const GLYCOL_VISCOSITY = 0.038

/** Properties of the coolant of a circuit at its inlet temperature, with the doubt of the formulas themselves. */
export const circuitFluid: Model<CircuitFluid> = {
  id: 'coolant',
  compute: (view, circuit) => sound(view, circuit, () => propertiesAt(view, circuit)),
}

function propertiesAt(view: View, circuit: Path): CircuitFluid {
  const [{ inlet }, fluid, share] = view.all(
    () => view.need({ inlet: below(circuit, 'inlet') }),
    () => fluidOf(view, circuit),
    () => glycolShare(view, circuit),
  )
  const stated = view.may(below(circuit, 'pressure'))
  const pressure = fluid === 'air' ? stated : undefined
  if (fluid !== 'air' && stated !== undefined && stated > 0) sayBoiling(view, { inlet, pressure: stated, share })
  const own = apply(view, coolantPropertiesMethod, {
    fluid,
    temperature: inlet,
    ...(share !== null && { glycolMassFraction: share }),
    ...(pressure !== undefined && { pressure }),
  })
  const doubted = (name: string, value: number, u: number): number =>
    value *
    (1 + view.doubt(`tables/${fluid}/${name}` as Path, { kind: 'normal', u }, `formula for the ${name} of ${fluid}`))
  const viscosity = fluid === 'ethylene-glycol-water' ? GLYCOL_VISCOSITY : own.viscosityUncertainty
  return {
    fluid,
    inlet,
    density: doubted('density', own.density, own.densityUncertainty),
    specificHeat: doubted('specific-heat', own.specificHeat, own.specificHeatUncertainty),
    viscosity: doubted('viscosity', own.viscosity, viscosity),
    thermalConductivity: doubted('conductivity', own.thermalConductivity, own.thermalConductivityUncertainty),
  }
}

/** No formula of a liquid holds above its boiling point, which the pressure sets. */
function sayBoiling(
  view: View,
  { inlet, pressure, share }: { readonly inlet: number; readonly pressure: number; readonly share: number | null },
): void {
  const boiling = boilingPoint({ pressure, glycolMassFraction: share ?? 0 })
  if (inlet < boiling) return
  const [given, limit] = [inlet, boiling].map((one) => (one - 273.15).toFixed(0))
  view.beyond(`the coolant enters at ${given} °C, above its boiling point at the stated pressure, ${limit} °C`)
}

function fluidOf(view: View, circuit: Path): Fluid {
  const word = view.word(below(circuit, 'fluid'))
  const fluid = FLUIDS.find((one) => one === word)
  return fluid ?? view.fail(`no properties are built in for the coolant "${word}"; known: ${FLUIDS.join(', ')}`)
}

/** Glycol share by mass; null for a fluid that has none. */
function glycolShare(view: View, circuit: Path): number | null {
  if (fluidOf(view, circuit) !== 'ethylene-glycol-water') return null
  return view.first([
    { name: 'by mass', read: () => view.need({ share: below(circuit, 'glycol-by-mass') }).share },
    {
      name: 'by volume',
      read: () =>
        glycolMassFraction({ glycolVolumeFraction: view.need({ share: below(circuit, 'glycol-by-volume') }).share }),
    },
  ]).value
}

/** Heat capacity per volume of the stream [J/(m³.K)]. */
export const heatPerVolume = ({ density, specificHeat }: CircuitFluid): number => density * specificHeat
