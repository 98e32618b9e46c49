import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION = 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.'

export type HeatCapacityRateInputs = { flow: number; density: number; specificHeat: number }

/**
 * Heat capacity rate C = Q ρ c_p of a coolant stream [W/K]. Density belongs to the place where the flow was measured.
 *
 * @throws {DomainError} on a negative flow, or a density or specific heat of zero or less
 *
 * @example heatCapacityRate({ flow: 8 / 60e3, density: 1037.06, specificHeat: 3523.95 }) // 487.27
 */
export function heatCapacityRate({ flow, density, specificHeat }: HeatCapacityRateInputs): number {
  requireNonNegative('heatCapacityRate', 'flow', flow)
  requirePositive('heatCapacityRate', 'density', density)
  requirePositive('heatCapacityRate', 'specificHeat', specificHeat)
  return flow * density * specificHeat
}

export type CoolantHeatInputs = HeatCapacityRateInputs & { inletTemperature: number; outletTemperature: number }

/**
 * Heat that a coolant stream takes up, Q ρ c_p (T_out − T_in): positive when the outlet is the warmer. Only the
 * difference of the temperatures enters, so both must be in one scale.
 *
 * @returns heat into the coolant [W]
 * @throws {DomainError} as {@link heatCapacityRate}, and on a temperature that is not finite
 *
 * @example coolantHeat({ flow: 158 / 60e3, density: 1000, specificHeat: 4210,
 *   inletTemperature: 333.15, outletTemperature: 331.15 }) // −22173
 */
export function coolantHeat({ inletTemperature, outletTemperature, ...stream }: CoolantHeatInputs): number {
  const rise = outletTemperature - inletTemperature
  if (!Number.isFinite(rise))
    throw new DomainError('coolantHeat', 'outletTemperature', outletTemperature, 'finite, as the inlet')
  return heatCapacityRate(stream) * rise
}

export const coolantHeatMethod = defineMethod<CoolantHeatInputs, { heat: number; massFlow: number; rise: number }>({
  id: 'coolant-heat',
  title: 'Heat taken up by a coolant from flow and temperature rise',
  takes: {
    flow: { unit: 'm3/s', about: 'volume flow' },
    density: { unit: 'kg/m3', about: 'density where the flow is measured' },
    specificHeat: { unit: 'J/(kg.K)', about: 'specific heat' },
    inletTemperature: { unit: 'K', about: 'coolant going in' },
    outletTemperature: { unit: 'K', about: 'coolant coming out' },
  },
  gives: {
    heat: { unit: 'W', print: 'W', about: 'heat into the coolant; negative when it cools down' },
    massFlow: { unit: 'kg/s', print: 'kg/s', about: 'mass flow' },
    rise: { unit: 'K', print: 'K', about: 'outlet less inlet' },
  },
  caution: CAUTION,
  sources: ['energy balance of a steady stream without work'],
  compute: (inputs) => ({
    heat: coolantHeat(inputs),
    massFlow: inputs.flow * inputs.density,
    rise: inputs.outletTemperature - inputs.inletTemperature,
  }),
})

export type CoolantStagesInputs = { inletTemperature: number; heatCapacityRate: number; heats: readonly number[] }

export type CoolantStages = {
  readonly stageInlets: readonly number[]
  readonly stageOutlets: readonly number[]
  readonly stageMeans: readonly number[]
  readonly rise: number
}

/**
 * Coolant temperatures along passages in series: T_out = T_in + P/C, stage by stage; the mean of a stage is that of its
 * two ends. Every stage that adds heat leaves the coolant warmer for all that follow.
 *
 * @param inletTemperature of the first stage [K], > 0
 * @param heatCapacityRate of the stream [W/K], > 0
 * @param heats            into each stage [W], in the order of flow; may be negative
 * @throws {DomainError} on a rate or temperature of zero or less, or a heat that is not finite
 *
 * @example coolantStages({ inletTemperature: 338.15, heatCapacityRate: 430, heats: [900, 930] }).rise // 4.2558
 */
export function coolantStages({ inletTemperature, heatCapacityRate, heats }: CoolantStagesInputs): CoolantStages {
  requirePositive('coolantStages', 'inletTemperature', inletTemperature)
  requirePositive('coolantStages', 'heatCapacityRate', heatCapacityRate)
  const rises: number[] = [0]
  for (const heat of heats) {
    if (!Number.isFinite(heat)) throw new DomainError('coolantStages', 'heats', heat, 'finite numbers')
    rises.push(rises.at(-1)! + heat / heatCapacityRate)
  }
  const ends = rises.map((rise) => inletTemperature + rise)
  return {
    stageInlets: ends.slice(0, -1),
    stageOutlets: ends.slice(1),
    stageMeans: heats.map((_, i) => inletTemperature + (rises[i]! + rises[i + 1]!) / 2),
    rise: rises.at(-1)!,
  }
}

export const coolantStagesMethod = defineMethod<CoolantStagesInputs, CoolantStages>({
  id: 'coolant-stages',
  title: 'Coolant temperatures along passages in series',
  takes: {
    inletTemperature: { unit: 'K', about: 'coolant going in' },
    heatCapacityRate: { unit: 'W/K', about: 'mass flow times specific heat' },
    heats: { unit: 'W', list: true, about: 'heat into each stage in the order of flow' },
  },
  gives: {
    stageInlets: { unit: 'K', print: 'Cel', about: 'coolant going into each stage' },
    stageOutlets: { unit: 'K', print: 'Cel', about: 'coolant leaving each stage' },
    stageMeans: { unit: 'K', print: 'Cel', about: 'mean of inlet and outlet of each stage' },
    rise: { unit: 'K', print: 'K', about: 'outlet of the last less inlet of the first' },
  },
  caution: CAUTION,
  sources: ['energy balance of a steady stream, stage by stage'],
  compute: coolantStages,
})

export type MixedStreamsInputs = { temperatures: readonly number[]; heatCapacityRates: readonly number[] }

/**
 * Temperature of streams after mixing, Σ C T / Σ C: weighted by heat capacity rate, not the plain mean of the branches.
 *
 * @param temperatures      of the streams [K]
 * @param heatCapacityRates of the streams [W/K], ≥ 0, not all zero
 * @throws {DomainError} on lists of unequal length, negative rates, or no flow at all
 *
 * @example mixedTemperature({ temperatures: [341.779, 344.071], heatCapacityRates: [248, 152] }) // 342.65
 */
export function mixedTemperature({ temperatures, heatCapacityRates }: MixedStreamsInputs): number {
  if (temperatures.length !== heatCapacityRates.length) {
    throw new DomainError(
      'mixedTemperature',
      'heatCapacityRates',
      heatCapacityRates.length,
      `${temperatures.length} numbers`,
    )
  }
  for (const rate of heatCapacityRates) requireNonNegative('mixedTemperature', 'heatCapacityRates', rate)
  const total = heatCapacityRates.reduce((sum, rate) => sum + rate, 0)
  requirePositive('mixedTemperature', 'heatCapacityRates', total)
  return temperatures.reduce((sum, temperature, i) => sum + temperature * (heatCapacityRates[i]! / total), 0)
}

export const mixedTemperatureMethod = defineMethod<MixedStreamsInputs, { temperature: number }>({
  id: 'mixed-streams',
  title: 'Temperature of coolant streams after mixing',
  takes: {
    temperatures: { unit: 'K', list: true, about: 'temperature of each stream' },
    heatCapacityRates: { unit: 'W/K', list: true, about: 'mass flow times specific heat of each stream' },
  },
  gives: { temperature: { unit: 'K', print: 'Cel', about: 'after mixing' } },
  caution: CAUTION,
  sources: ['energy balance of mixing streams'],
  compute: (inputs) => ({ temperature: mixedTemperature(inputs) }),
})

export type IsothermalWallInputs = {
  heatCapacityRate: number
  wallConductance: number
  inletTemperature: number
  wallTemperature: number
}

export type IsothermalWall = {
  readonly transferUnits: number
  readonly effectiveness: number
  readonly heat: number
  readonly outletTemperature: number
  readonly inletResistance: number
  readonly meanResistance: number
  readonly logMeanResistance: number
}

/**
 * A stream that passes a wall of one temperature: ε = 1 − exp(−NTU), NTU = hA/C, heat = ε C (T_wall − T_in); and the
 * resistance wall to coolant referred to the inlet, 1/(ε C), to the mean of inlet and outlet, 1/(ε C) − 1/(2C), and to
 * the log mean, 1/(hA).
 *
 * @param heatCapacityRate of the stream [W/K], > 0
 * @param wallConductance  hA, film coefficient times wetted area [W/K], > 0
 * @param inletTemperature and wallTemperature [K], > 0
 * @throws {DomainError} on any of them zero or less
 *
 * @example isothermalWall({ heatCapacityRate: 420, wallConductance: 95, inletTemperature: 338.15,
 *   wallTemperature: 368.15 }).heat // 2550.67
 */
export function isothermalWall(inputs: IsothermalWallInputs): IsothermalWall {
  for (const [name, value] of Object.entries(inputs)) requirePositive('isothermalWall', name, value)
  const { heatCapacityRate, wallConductance, inletTemperature, wallTemperature } = inputs
  const transferUnits = wallConductance / heatCapacityRate
  const effectiveness = -Math.expm1(-transferUnits)
  const rise = effectiveness * (wallTemperature - inletTemperature)
  const inletResistance = 1 / (effectiveness * heatCapacityRate)
  return {
    transferUnits,
    effectiveness,
    heat: heatCapacityRate * rise,
    outletTemperature: inletTemperature + rise,
    inletResistance,
    meanResistance: inletResistance - 1 / (2 * heatCapacityRate),
    logMeanResistance: 1 / wallConductance,
  }
}

export const isothermalWallMethod = defineMethod<IsothermalWallInputs, IsothermalWall>({
  id: 'isothermal-wall',
  title: 'Coolant passing a wall of one temperature: effectiveness and number of transfer units',
  takes: {
    heatCapacityRate: { unit: 'W/K', about: 'mass flow times specific heat' },
    wallConductance: { unit: 'W/K', about: 'film coefficient times wetted area' },
    inletTemperature: { unit: 'K', about: 'coolant going in' },
    wallTemperature: { unit: 'K', about: 'the wall' },
  },
  gives: {
    transferUnits: { unit: '1', print: '1', about: 'number of transfer units' },
    effectiveness: { unit: '1', print: '1', about: 'heat over the most that could be taken up' },
    heat: { unit: 'W', print: 'W', about: 'heat into the coolant' },
    outletTemperature: { unit: 'K', print: 'Cel', about: 'coolant coming out' },
    inletResistance: { unit: 'K/W', print: 'K/W', about: 'wall to inlet temperature' },
    meanResistance: { unit: 'K/W', print: 'K/W', about: 'wall to mean of inlet and outlet' },
    logMeanResistance: { unit: 'K/W', print: 'K/W', about: 'wall to log-mean coolant temperature' },
  },
  caution: CAUTION,
  sources: ['closed form: one stream against a constant wall temperature'],
  compute: isothermalWall,
})

export const coolantEnergyMethods = [
  coolantHeatMethod,
  coolantStagesMethod,
  mixedTemperatureMethod,
  isothermalWallMethod,
] as const
