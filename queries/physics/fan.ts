import { ductPressureDrop } from './duct.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'
import { findRoot } from './root.ts'

export type FanCurve = {
  /** Flows of the measured points [m³/s], rising from 0 to the free-air flow. */
  readonly flows: readonly number[]
  /** Static pressures at these [Pa], falling to 0. */
  readonly pressures: readonly number[]
}

/** Static pressure of a fan at a flow [Pa], straight between the points of its curve; 0 at and beyond free flow. */
export function fanPressure({ flows, pressures }: FanCurve, flow: number): number {
  const above = flows.findIndex((one) => one >= flow)
  if (above < 0) return 0
  if (above === 0) return pressures[0]!
  const share = (flow - flows[above - 1]!) / (flows[above]! - flows[above - 1]!)
  return pressures[above - 1]! + share * (pressures[above]! - pressures[above - 1]!)
}

/**
 * Where a fan and a duct system meet: the flow at which the fan gives the pressure that the system takes. The free-air
 * flow of a fan is never the flow in a system. A curve of two points (shut-off and free flow) is a straight-line guess;
 * real curves sag in the middle.
 *
 * @param curve      of the fan
 * @param systemDrop pressure drop of the system [Pa] at a flow [m³/s], rising from 0
 * @throws {DomainError} on a curve with fewer than two points, not starting at zero flow, or not falling to zero pressure
 *
 * @example fanOperatingPoint({ curve: { flows: [0, 0.0125], pressures: [60, 0] }, systemDrop: (q) => 4e5 * q ** 2 }).flow // 0.007638
 */
export function fanOperatingPoint(inputs: { curve: FanCurve; systemDrop: (flow: number) => number }): FanPoint {
  const { curve, systemDrop } = inputs
  checkCurve(curve)
  const freeFlow = curve.flows.at(-1)!
  const balance = (flow: number) => fanPressure(curve, flow) - (flow === 0 ? 0 : systemDrop(flow))
  const flow = balance(freeFlow) >= 0 ? freeFlow : findRoot(balance, { low: 0, high: freeFlow })
  return { flow, pressure: fanPressure(curve, flow), freeFlowShare: flow / freeFlow }
}

export type FanPoint = { readonly flow: number; readonly pressure: number; readonly freeFlowShare: number }

function checkCurve({ flows, pressures }: FanCurve): void {
  if (flows.length < 2 || flows.length !== pressures.length) {
    throw new DomainError(
      'fanOperatingPoint',
      'curve',
      `${flows.length} flows, ${pressures.length} pressures`,
      'two points or more, as pairs',
    )
  }
  const rises = flows.every((flow, i) => (i === 0 ? flow === 0 : flow > flows[i - 1]!))
  if (!rises) throw new DomainError('fanOperatingPoint', 'flows', flows.join(', '), 'rising from 0')
  if (!(pressures[0]! > 0) || pressures.at(-1) !== 0 || pressures.some((p) => !(p >= 0))) {
    throw new DomainError('fanOperatingPoint', 'pressures', pressures.join(', '), '≥ 0, from shut-off pressure to 0')
  }
}

export type FanDuctInputs = {
  freeFlow: number
  shutOffPressure: number
  gapCount: number
  gap: number
  height: number
  length: number
  minorLoss?: number
  density: number
  viscosity: number
}

/**
 * A fan, known by free-air flow and shut-off pressure only, on a field of parallel gaps: the straight line between both
 * against friction (laminar entry counted) and minor losses.
 *
 * @throws {DomainError} on any size, flow, pressure or property of zero or less
 */
export function fanOnFinField(inputs: FanDuctInputs): FanPoint & { velocity: number; reynolds: number } {
  const { freeFlow, shutOffPressure, gapCount, gap, height, length, minorLoss = 1.5, density, viscosity } = inputs
  requirePositive('fanOnFinField', 'freeFlow', freeFlow)
  requirePositive('fanOnFinField', 'shutOffPressure', shutOffPressure)
  const drop = (flow: number) =>
    ductPressureDrop({
      shape: 'rectangular',
      width: gap,
      height,
      length,
      count: gapCount,
      flow,
      density,
      viscosity,
      minorLoss,
      entrance: 'developing',
    })
  const curve = { flows: [0, freeFlow], pressures: [shutOffPressure, 0] }
  const point = fanOperatingPoint({ curve, systemDrop: (flow) => drop(flow).pressureDrop })
  const { velocity, reynolds } = drop(point.flow)
  return { ...point, velocity, reynolds }
}

export const fanFieldMethod = defineMethod<FanDuctInputs, FanPoint & { velocity: number; reynolds: number }>({
  id: 'fan-on-fin-field',
  title: 'Flow of a fan through a field of fins',
  takes: {
    freeFlow: { unit: 'm3/s', about: 'flow of the fan in free air' },
    shutOffPressure: { unit: 'Pa', about: 'static pressure of the fan without flow' },
    gapCount: { unit: '1', about: 'gaps between fins' },
    gap: { unit: 'm', about: 'clear width between fins' },
    height: { unit: 'm', about: 'height of the fins' },
    length: { unit: 'm', about: 'length along the flow' },
    minorLoss: {
      unit: '1',
      optional: true,
      about: 'entrance and exit on the velocity in the gaps; 1.5 if left out (sharp edges)',
    },
    density: { unit: 'kg/m3', about: 'density of the air' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the air' },
  },
  gives: {
    flow: { unit: 'm3/s', print: 'm3/h', about: 'through the field' },
    pressure: { unit: 'Pa', print: 'Pa', about: 'static pressure there' },
    freeFlowShare: { unit: '1', print: '%', about: 'of the free-air flow' },
    velocity: { unit: 'm/s', print: 'm/s', about: 'in the gaps' },
    reynolds: { unit: '1', print: '1', about: 'on hydraulic diameter' },
  },
  caution: 'A fan guard that is off exposes moving blades; keep hands clear and supply off.',
  sources: [
    'S. W. Churchill, Chem. Eng. 84 (1977) 91-92 (from memory), for friction',
    'straight line between shut-off and free flow: an assumption for want of the curve',
  ],
  compute: fanOnFinField,
})

export const fanMethods = [fanFieldMethod] as const
