import { coolantProperties, type Fluid, type FluidProperties } from '../../../queries/physics/coolant-fluid.ts'
import {
  glycolFreezingPoint,
  glycolMassFraction,
  glycolVolumeFraction,
} from '../../../queries/physics/coolant-fluid-glycol.ts'
import { waterViscosity } from '../../../queries/physics/coolant-fluid-water.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity } from './inputs.ts'

type Answer = Record<string, number>

/** Share by mass, from whichever share the case states. */
function massShare(input: Case): number | undefined {
  const mass = maybeQuantity(input, 'massFraction') ?? maybeQuantity(input, 'glycolMassFraction')
  if (mass !== undefined) return mass
  const volume = maybeQuantity(input, 'volumeFraction') ?? maybeQuantity(input, 'glycolVolumeFraction')
  return volume === undefined ? undefined : glycolMassFraction({ glycolVolumeFraction: volume, ...densities(input) })
}

function densities(input: Case): { glycolDensity?: number; waterDensity?: number } {
  const glycolDensity = maybeQuantity(input, 'densityGlycol')
  const waterDensity = maybeQuantity(input, 'densityWater')
  return {
    ...(glycolDensity === undefined ? {} : { glycolDensity }),
    ...(waterDensity === undefined ? {} : { waterDensity }),
  }
}

function fluidOf(input: Case, share: number | undefined): Fluid {
  const said = typeof input.inputs.fluid === 'string' ? input.inputs.fluid : ''
  if (/glycol/i.test(said) || share !== undefined) return 'ethylene-glycol-water'
  return /\bair\b/i.test(said) ? 'air' : 'water'
}

function propertiesAt(input: Case): FluidProperties {
  const share = massShare(input)
  const pressure = maybeQuantity(input, 'pressure')
  return coolantProperties({
    fluid: fluidOf(input, share),
    temperature: quantity(input, 'temperature'),
    ...(share === undefined ? {} : { glycolMassFraction: share }),
    ...(pressure === undefined ? {} : { pressure }),
  })
}

function conversion(input: Case): Answer {
  const answer: Answer = {}
  const share = massShare(input)
  if (share === undefined) return answer
  if ('massFraction' in input.expected) answer.massFraction = share
  if ('volumeFraction' in input.expected)
    answer.volumeFraction = glycolVolumeFraction({ glycolMassFraction: share, ...densities(input) })
  if ('freezingPoint' in input.expected) answer.freezingPoint = glycolFreezingPoint(share)
  return answer
}

function answerOf(input: Case): Answer {
  if (Array.isArray(input.inputs.massFractions)) {
    const shares = quantities(input, 'massFractions')
    return Object.fromEntries(
      shares.map((share) => [`freezingPoint${Math.round(100 * share)}`, glycolFreezingPoint(share)]),
    )
  }
  if (maybeQuantity(input, 'density1') !== undefined) {
    const numbers = Object.keys(input.inputs).flatMap((key) => /^density(\d+)$/.exec(key)?.[1] ?? [])
    const at = (n: string) => ({
      density: quantity(input, `density${n}`),
      temperature: quantity(input, `temperature${n}`),
    })
    return Object.fromEntries(numbers.map((n) => [`viscosity${n}`, waterViscosity(at(n))]))
  }
  if (maybeQuantity(input, 'temperature') === undefined) return conversion(input)
  const { density, specificHeat, viscosity, thermalConductivity, prandtl } = propertiesAt(input)
  return {
    density,
    specificVolume: 1 / density,
    specificHeat,
    viscosity,
    conductivity: thermalConductivity,
    prandtl,
    ...conversion(input),
  }
}

export const coolantPropertiesAdapter: Adapter = { topics: ['coolant-properties'], answer: answerOf }
