import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION =
  'A loaded module is at lethal voltage and hot: work on it only when it is proved dead, by local codes and licensed practice.'

export type HeatFluxInputs = { loss: number; area: number }

/**
 * Heat flux q = P/A through one named area, evenly spread. Which area (die, footprint, cooled face, wetted) is the
 * caller's to say: the same loss gives figures an order apart.
 *
 * @param loss heat through the area [W]; negative when a warm coolant heats the part
 * @param area [m²], > 0
 * @returns heat flux [W/m²]
 * @throws {DomainError} on an area of zero or less, or a loss that is not finite
 *
 * @example heatFlux({ loss: 160, area: 1e-4 }) // 1.6e6
 */
export function heatFlux({ loss, area }: HeatFluxInputs): number {
  if (!Number.isFinite(loss)) throw new DomainError('heatFlux', 'loss', loss, 'a finite number')
  requirePositive('heatFlux', 'area', area)
  return loss / area
}

export const heatFluxMethod = defineMethod<HeatFluxInputs, { heatFlux: number }>({
  id: 'heat-flux',
  title: 'Heat flux through one named area',
  takes: { loss: { unit: 'W', about: 'heat through the area' }, area: { unit: 'm2', about: 'the area' } },
  gives: { heatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'mean heat flux' } },
  caution: CAUTION,
  sources: ['definition: ISO 80000-5, density of heat flow rate'],
  compute: (inputs) => ({ heatFlux: heatFlux(inputs) }),
})

export type ModuleHeatFluxInputs = {
  loss: number
  dieCount: number
  dieLength: number
  dieWidth: number
  footprintLength: number
  footprintWidth: number
  moduleCount?: number
}

export type ModuleHeatFlux = {
  readonly dieHeatFlux: number
  readonly footprintHeatFlux: number
  readonly dieArea: number
  readonly totalDieArea: number
  readonly totalLoss: number
}

/**
 * Heat flux of a module: per die (loss shared evenly among its dies) and per footprint of one side. A part cooled from
 * both sides needs the split of heat: see {@link faceHeatFlux}.
 *
 * @param loss            of one module [W], ≥ 0
 * @param dieCount        in one module, ≥ 1
 * @param dieLength       and dieWidth of one die [m], > 0
 * @param footprintLength and footprintWidth of one module [m], > 0
 * @param moduleCount     ≥ 1; 1 if left out
 * @throws {DomainError} on a negative loss, or a size or count of zero or less
 *
 * @example moduleHeatFlux({ loss: 640, dieCount: 4, dieLength: 10.2e-3, dieWidth: 9.8e-3,
 *   footprintLength: 52e-3, footprintWidth: 44e-3 }).dieHeatFlux // 1.6006e6
 */
export function moduleHeatFlux(inputs: ModuleHeatFluxInputs): ModuleHeatFlux {
  const { loss, dieCount, dieLength, dieWidth, footprintLength, footprintWidth, moduleCount = 1 } = inputs
  requireNonNegative('moduleHeatFlux', 'loss', loss)
  for (const [name, value] of Object.entries({
    dieCount,
    dieLength,
    dieWidth,
    footprintLength,
    footprintWidth,
    moduleCount,
  })) {
    requirePositive('moduleHeatFlux', name, value)
  }
  const dieArea = dieLength * dieWidth
  return {
    dieHeatFlux: loss / (dieCount * dieArea),
    footprintHeatFlux: loss / (footprintLength * footprintWidth),
    dieArea,
    totalDieArea: moduleCount * dieCount * dieArea,
    totalLoss: moduleCount * loss,
  }
}

export const moduleHeatFluxMethod = defineMethod<ModuleHeatFluxInputs, ModuleHeatFlux>({
  id: 'module-heat-flux',
  title: 'Heat flux of a module, per die and per footprint',
  takes: {
    loss: { unit: 'W', about: 'loss of one module' },
    dieCount: { unit: '1', about: 'dies that share the loss evenly' },
    dieLength: { unit: 'm', about: 'length of one die' },
    dieWidth: { unit: 'm', about: 'width of one die' },
    footprintLength: { unit: 'm', about: 'length of the cooled footprint of one module' },
    footprintWidth: { unit: 'm', about: 'width of the cooled footprint of one module' },
    moduleCount: { unit: '1', optional: true, about: 'modules; 1 if left out' },
  },
  gives: {
    dieHeatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'per die area' },
    footprintHeatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'per footprint of one side' },
    dieArea: { unit: 'm2', print: 'mm2', about: 'area of one die' },
    totalDieArea: { unit: 'm2', print: 'mm2', about: 'area of all dies of all modules' },
    totalLoss: { unit: 'W', print: 'W', about: 'loss of all modules' },
  },
  caution: CAUTION,
  sources: ['definition: ISO 80000-5, density of heat flow rate; even sharing between dies is an assumption'],
  compute: moduleHeatFlux,
})

export type FaceHeatFluxInputs = { loss: number; bottomShare: number; bottomArea: number; topArea: number }

export type FaceHeatFlux = {
  readonly bottomHeatFlux: number
  readonly topHeatFlux: number
  readonly averageHeatFlux: number
}

/**
 * Heat flux through both faces of a part cooled from two sides, from the split of its heat, and the area-weighted mean
 * P/(A_bottom + A_top). The mean is another figure than either face and must be named as such.
 *
 * @param loss        [W]
 * @param bottomShare share of the heat that leaves through the bottom [1]; beyond 0 … 1 when one coolant heats the part
 * @param bottomArea  and topArea [m²], > 0
 * @throws {DomainError} on an area of zero or less, or a loss or share that is not finite
 *
 * @example faceHeatFlux({ loss: 520, bottomShare: 0.61, bottomArea: 11.5e-4, topArea: 9.2e-4 }).topHeatFlux // 220435
 */
export function faceHeatFlux({ loss, bottomShare, bottomArea, topArea }: FaceHeatFluxInputs): FaceHeatFlux {
  if (!Number.isFinite(bottomShare))
    throw new DomainError('faceHeatFlux', 'bottomShare', bottomShare, 'a finite number')
  return {
    bottomHeatFlux: heatFlux({ loss: loss * bottomShare, area: bottomArea }),
    topHeatFlux: heatFlux({ loss: loss * (1 - bottomShare), area: topArea }),
    averageHeatFlux: heatFlux({ loss, area: bottomArea + topArea }),
  }
}

export const faceHeatFluxMethod = defineMethod<FaceHeatFluxInputs, FaceHeatFlux>({
  id: 'double-sided-heat-flux',
  title: 'Heat flux through both faces of a part cooled from two sides',
  takes: {
    loss: { unit: 'W', about: 'loss of the part' },
    bottomShare: { unit: '1', about: 'share of the heat through the bottom face' },
    bottomArea: { unit: 'm2', about: 'area of the bottom face' },
    topArea: { unit: 'm2', about: 'area of the top face' },
  },
  gives: {
    bottomHeatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'through the bottom face' },
    topHeatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'through the top face' },
    averageHeatFlux: { unit: 'W/m2', print: 'W/cm2', about: 'area-weighted mean of both faces' },
  },
  caution: CAUTION,
  sources: ['definition: ISO 80000-5, density of heat flow rate'],
  compute: faceHeatFlux,
})

export const heatFluxMethods = [heatFluxMethod, moduleHeatFluxMethod, faceHeatFluxMethod] as const
