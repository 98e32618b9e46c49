import {
  BRIDGE_CAUTION,
  BRIDGE_TAKES,
  channelConduction,
  type DiodePairInputs,
  diodePairConduction,
  PAIR_TAKES,
  requireBridgePoint,
} from './conduction-loss.ts'
import { LINEAR_LIMIT } from './dc-link.ts'
import { defineMethod, requirePositive } from './method.ts'
import { type SwitchingInputs, switchingLoss, switchingLossMethod } from './switching-loss.ts'

type Point = Pick<DiodePairInputs, 'phaseCurrent' | 'modulationIndex' | 'powerFactor' | 'modulation'>

export type BridgeLoss = {
  readonly outputPower: number
  readonly conductionLoss: number
  readonly switchingLoss: number
  readonly totalLoss: number
  readonly efficiency: number
  readonly scale: number
}

/**
 * Power that a three-phase bridge hands to the machine, 3 (M V/2√2) I cos φ, from the fundamental alone: three phases
 * of RMS voltage M V/2√2. Negative when it feeds back.
 *
 * @example bridgeOutput({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85, linkVoltage: 450 }) // 109540
 */
export function bridgeOutput(inputs: Point & { readonly linkVoltage: number }): number {
  requireBridgePoint('bridgeOutput', inputs)
  const { phaseCurrent, modulationIndex, powerFactor, linkVoltage } = inputs
  requirePositive('bridgeOutput', 'linkVoltage', linkVoltage)
  return (3 / (2 * Math.SQRT2)) * modulationIndex * linkVoltage * phaseCurrent * powerFactor
}

function summed(inputs: Point & SwitchingInputs, conductionLoss: number): BridgeLoss {
  const { bridgeLoss, scale } = switchingLoss(inputs)
  const outputPower = bridgeOutput(inputs)
  const totalLoss = conductionLoss + bridgeLoss
  // What is fed in, at whichever side, is the larger of the two powers.
  const power = Math.abs(outputPower)
  const fed = outputPower > 0 ? power + totalLoss : power
  const efficiency = fed === 0 ? 0 : Math.max(0, outputPower > 0 ? power / fed : (power - totalLoss) / fed)
  return { outputPower, conductionLoss, switchingLoss: bridgeLoss, totalLoss, efficiency, scale }
}

export type BridgeLossInputs = DiodePairInputs & SwitchingInputs

/**
 * Loss and efficiency of a two-level three-phase bridge of transistors and diodes at an operating point: conduction and
 * switching of six pairs. Semiconductors only: capacitor, bars, drivers and control are not in it, so the efficiency is
 * an upper bound of the unit's. Feeding back, input is what the machine gives.
 *
 * @param inputs as diodePairConduction and switchingLoss together
 * @returns output power, losses [W], efficiency [1], peak current over reference current [1]
 * @throws {DomainError} as those
 *
 * @example bridgeLoss({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85, switchThreshold: 0.9,
 *   switchSlope: 2.5e-3, diodeThreshold: 0.9, diodeSlope: 2.5e-3, linkVoltage: 450, switchingFrequency: 10e3,
 *   turnOnEnergy: 12e-3, turnOffEnergy: 14e-3, referenceCurrent: 400, referenceVoltage: 400 }).totalLoss // 1996.8
 */
export function bridgeLoss(inputs: BridgeLossInputs): BridgeLoss {
  return summed(inputs, diodePairConduction(inputs).bridgeLoss)
}

export type ChannelBridgeLossInputs = Point &
  SwitchingInputs & { onResistance: number; deadTime?: number; diodeThreshold?: number }

/**
 * The same for a bridge of field-effect transistors whose channels carry current both ways.
 *
 * @param inputs operating point, onResistance and dead time as channelConduction, energies as switchingLoss
 * @throws {DomainError} as those
 *
 * @example channelBridgeLoss({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85, onResistance: 3e-3,
 *   linkVoltage: 800, switchingFrequency: 10e3, turnOnEnergy: 6e-3, turnOffEnergy: 4e-3, referenceCurrent: 400,
 *   referenceVoltage: 800 }).conductionLoss // 810
 */
export function channelBridgeLoss(inputs: ChannelBridgeLossInputs): BridgeLoss {
  const { phaseCurrent, onResistance, deadTime = 0, switchingFrequency, diodeThreshold } = inputs
  const diode = diodeThreshold === undefined ? {} : { diodeThreshold }
  return summed(
    inputs,
    channelConduction({ phaseCurrent, onResistance, deadTime, switchingFrequency, ...diode }).bridgeLoss,
  )
}

const GIVES = {
  outputPower: { unit: 'W', print: 'kW', about: 'to the machine; negative when it feeds back' },
  conductionLoss: { unit: 'W', print: 'W', about: 'of all semiconductors' },
  switchingLoss: { unit: 'W', print: 'W', about: 'of all semiconductors' },
  totalLoss: { unit: 'W', print: 'W', about: 'of both' },
  efficiency: { unit: '1', print: '%', about: 'of the semiconductors alone' },
  scale: { unit: '1', print: '1', about: 'peak phase current over the reference current' },
} as const

const VALID = { modulationIndex: [0, LINEAR_LIMIT], powerFactor: [-1, 1], scale: [0, 2] } as const
const SOURCES = ['bridge-conduction and bridge-switching of this list', 'balance of power of the fundamental'] as const

export const bridgeLossMethod = defineMethod<BridgeLossInputs, BridgeLoss>({
  id: 'bridge-loss',
  title: 'Loss and efficiency of a two-level bridge with transistors and diodes',
  takes: { ...switchingLossMethod.takes, ...BRIDGE_TAKES, ...PAIR_TAKES },
  gives: GIVES,
  valid: VALID,
  caution: BRIDGE_CAUTION,
  sources: SOURCES,
  compute: bridgeLoss,
})

export const channelBridgeLossMethod = defineMethod<ChannelBridgeLossInputs, BridgeLoss>({
  id: 'bridge-loss-channel',
  title: 'Loss and efficiency of a two-level bridge of field-effect transistors',
  takes: {
    ...switchingLossMethod.takes,
    ...BRIDGE_TAKES,
    onResistance: { unit: 'Ohm', about: 'of one transistor, at its junction temperature' },
    deadTime: { unit: 's', optional: true, about: 'both transistors off; 0 if left out' },
    diodeThreshold: { unit: 'V', optional: true, about: 'of the body diode, needed with a dead time' },
  },
  gives: GIVES,
  valid: VALID,
  caution: BRIDGE_CAUTION,
  sources: SOURCES,
  compute: channelBridgeLoss,
})

export const bridgeLossMethods = [bridgeLossMethod, channelBridgeLossMethod] as const
