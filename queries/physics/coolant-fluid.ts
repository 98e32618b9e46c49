import { FLUID_UNCERTAINTY } from './coolant-data.ts'
import { airProperties } from './coolant-fluid-air.ts'
import {
  glycolFreezingPoint,
  glycolMassToVolume,
  glycolVolumeToMass,
  glycolWaterProperties,
} from './coolant-fluid-glycol.ts'
import type { FluidCore } from './coolant-fluid-water.ts'
import { waterProperties, waterViscosityMethod } from './coolant-fluid-water.ts'
import { DomainError, defineMethod } from './method.ts'

/** The coolants whose properties are built in. */
export const FLUIDS = ['water', 'ethylene-glycol-water', 'air'] as const
export type Fluid = (typeof FLUIDS)[number]

/** Temperatures that the data behind each formula cover [K]; glycol from its freezing point. */
const DATA_RANGE = { water: [273.15, 383.15], 'ethylene-glycol-water': [200, 373.15], air: [200, 1000] } as const

export type FluidInputs = { fluid: Fluid; temperature: number; glycolMassFraction?: number; pressure?: number }

export type FluidProperties = FluidCore & {
  readonly prandtl: number
  /** [K]; absent for air. */
  readonly freezingPoint?: number
  /** Temperature less freezing point [K]; negative means slush or ice, where the properties do not hold. */
  readonly freezingMargin?: number
  /** How far the temperature lies inside the range of the formulas' data [K]; negative outside. */
  readonly formulaMargin: number
  /** Standard uncertainties of the formulas themselves, relative [1]. */
  readonly densityUncertainty: number
  readonly specificHeatUncertainty: number
  readonly viscosityUncertainty: number
  readonly thermalConductivityUncertainty: number
}

/**
 * Density, specific heat, viscosity, thermal conductivity and Prandtl number c_p μ/λ of a coolant, with the standard
 * uncertainty of each formula.
 *
 * @param fluid              water, ethylene-glycol-water or air
 * @param temperature        [K]
 * @param glycolMassFraction by MASS [1]; required with glycol, refused without
 * @param pressure           absolute [Pa]; only air uses it (0.1 MPa liquids: 3 MPa shifts density by 0.13 %)
 * @throws {DomainError} on an impossible temperature or fraction, or a fraction that is missing or does not belong
 *
 * @example coolantProperties({ fluid: 'water', temperature: 338.15 }).prandtl // 2.765
 */
export function coolantProperties(inputs: FluidInputs): FluidProperties {
  const { fluid, temperature } = inputs
  const core = coreProperties(inputs)
  const freezing = fluid === 'air' ? undefined : freezingPoint(inputs)
  const uncertainty = FLUID_UNCERTAINTY[fluid]
  const [low, high] = DATA_RANGE[fluid]
  return {
    ...core,
    prandtl: (core.specificHeat * core.viscosity) / core.thermalConductivity,
    ...(freezing === undefined ? {} : { freezingPoint: freezing, freezingMargin: temperature - freezing }),
    formulaMargin: Math.min(temperature - low, high - temperature),
    densityUncertainty: uncertainty.density,
    specificHeatUncertainty: uncertainty.specificHeat,
    viscosityUncertainty: uncertainty.viscosity,
    thermalConductivityUncertainty: uncertainty.thermalConductivity,
  }
}

function coreProperties(inputs: FluidInputs): FluidCore {
  const { fluid, temperature, pressure } = inputs
  if (fluid === 'ethylene-glycol-water') {
    return glycolWaterProperties({ glycolMassFraction: glycolShare(inputs), temperature })
  }
  if (inputs.glycolMassFraction !== undefined) {
    throw new DomainError('coolantProperties', 'glycolMassFraction', inputs.glycolMassFraction, `left out for ${fluid}`)
  }
  if (fluid === 'water') return waterProperties(temperature)
  if (fluid === 'air') return airProperties({ temperature, ...(pressure === undefined ? {} : { pressure }) })
  throw new DomainError('coolantProperties', 'fluid', fluid, FLUIDS.join(', '))
}

function glycolShare({ glycolMassFraction }: FluidInputs): number {
  if (glycolMassFraction !== undefined) return glycolMassFraction
  throw new DomainError('coolantProperties', 'glycolMassFraction', glycolMassFraction, 'given, by mass, 0 … 1')
}

function freezingPoint(inputs: FluidInputs): number {
  return inputs.fluid === 'water' ? 273.15 : glycolFreezingPoint(glycolShare(inputs))
}

const percent = (about: string) => ({ unit: '1', print: '%', about: `standard uncertainty of the ${about}, relative` })

export const coolantPropertiesMethod = defineMethod<FluidInputs, FluidProperties>({
  id: 'coolant-properties',
  title: 'Properties of water, ethylene glycol in water, and air',
  takes: {
    fluid: { words: FLUIDS, about: 'the coolant' },
    temperature: { unit: 'K', about: 'temperature of the coolant' },
    glycolMassFraction: { unit: '1', optional: true, about: 'share of glycol by mass; needed with glycol only' },
    pressure: { unit: 'Pa', optional: true, about: 'absolute pressure; used for air, 101.325 kPa if left out' },
  },
  gives: {
    density: { unit: 'kg/m3', print: 'kg/m3', about: 'density' },
    specificHeat: { unit: 'J/(kg.K)', print: 'kJ/(kg.K)', about: 'specific heat at constant pressure' },
    viscosity: { unit: 'Pa.s', print: 'mPa.s', about: 'dynamic viscosity' },
    thermalConductivity: { unit: 'W/(m.K)', print: 'W/(m.K)', about: 'thermal conductivity' },
    prandtl: { unit: '1', print: '1', about: 'Prandtl number' },
    freezingPoint: { unit: 'K', print: 'Cel', about: 'freezing point; absent for air' },
    freezingMargin: { unit: 'K', print: 'K', about: 'temperature above the freezing point' },
    formulaMargin: { unit: 'K', print: 'K', about: 'how far inside the data of the formulas; negative outside' },
    densityUncertainty: percent('density'),
    specificHeatUncertainty: percent('specific heat'),
    viscosityUncertainty: percent('viscosity'),
    thermalConductivityUncertainty: percent('thermal conductivity'),
  },
  valid: {
    formulaMargin: [0, 400],
    glycolMassFraction: [0, 0.6],
    freezingMargin: [0, 400],
    pressure: [5e4, 1e6],
  },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: [
    'water: IAPWS SR6-08(2011); J. Pátek et al., J. Phys. Chem. Ref. Data 38 (2009) 21-29',
    'glycol: Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR 2010; data to 100 °C and 60 %',
    'air: E. W. Lemmon, R. T. Jacobsen, Int. J. Thermophys. 25 (2004) 21-69, dilute gas; E. W. Lemmon et al., ' +
      'J. Phys. Chem. Ref. Data 29 (2000) 331-385, ideal-gas heat capacity (both from memory, checked against tables)',
  ],
  compute: coolantProperties,
})

export const coolantFluidMethods = [
  coolantPropertiesMethod,
  glycolVolumeToMass,
  glycolMassToVolume,
  waterViscosityMethod,
] as const
