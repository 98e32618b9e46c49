import type { Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { channelConduction, diodePairConduction } from '../physics/conduction-loss.ts'
import { switchingLossMethod } from '../physics/switching-loss.ts'
import { apply } from './apply.ts'
import { bridgePoint } from './bridge.ts'
import { SPECIMEN } from './figure.ts'
import { below, operating } from './paths.ts'
import { bridgeSwitches, type Switch } from './switches.ts'
import { operatingVoltage } from './voltage.ts'

/** Loss of one die or discrete device of the bridge at the operating point [W]. */
export interface DeviceLoss {
  readonly conduction: number
  readonly switching: number
}

interface Duty {
  readonly modulationIndex: number
  readonly powerFactor: number
  readonly linkVoltage: number
  readonly switchingFrequency: number
}

const specimen = SPECIMEN.paths[0]!

/**
 * Computed loss of one device: conduction by its on-state data, switching by its energies scaled to current and voltage,
 * both with its share of the phase current. Device data are used as stated, at their own junction temperature: the loss
 * does not follow the temperature it causes.
 */
export const deviceLoss: Model<DeviceLoss> = {
  id: 'computed device loss',
  compute(view, piece) {
    const [switches, point, linkVoltage, { switchingFrequency }] = view.all(
      () => view.model(bridgeSwitches, specimen),
      () => view.model(bridgePoint, specimen),
      () => view.model(operatingVoltage, specimen),
      () => view.need({ switchingFrequency: operating(view, 'switching-frequency') }),
    )
    const own = switches.find(({ transistors, diodes, holders }) =>
      [...transistors, ...diodes, ...holders].includes(piece),
    )
    if (!own) return view.fail(`${piece} is no part of the three-phase bridge: state its loss`, 'refused', piece)
    const { siblings, as } = placeOf(own, piece)
    const forSwitch = view.find({ ask: 'values-for', part: piece }).paths[0] === 'switch'
    const current = point.phaseCurrent / (forSwitch ? 1 : siblings)
    const duty = { ...withinLinear(view, point), linkVoltage, switchingFrequency }
    const [conduction, switching] = view.all(
      () =>
        as === 'diode' ? diodeConduction(view, piece, current, duty, own) : conductionOf(view, piece, current, duty),
      () =>
        as === 'diode'
          ? energyLoss(view, piece, 'recovery-energy', current, duty)
          : turning(view, piece, current, duty),
    )
    const share = forSwitch ? siblings : 1
    return { conduction: conduction / share, switching: switching / share }
  },
}

function placeOf({ transistors, diodes, holders }: Switch, piece: Path) {
  if (diodes.includes(piece)) return { siblings: diodes.length, as: 'diode' } as const
  if (transistors.includes(piece)) return { siblings: transistors.length, as: 'transistor' } as const
  return { siblings: holders.length, as: 'transistor' } as const
}

/** The closed form of sinusoidal modulation ends at an index of one; only its product with the power factor enters. */
function withinLinear(view: View, { modulationIndex, powerFactor }: Pick<Duty, 'modulationIndex' | 'powerFactor'>) {
  if (modulationIndex <= 1) return { modulationIndex, powerFactor }
  view.beyond(`modulation index ${modulationIndex} lies above 1, where the closed form of sinusoidal modulation ends`)
  return { modulationIndex: 1, powerFactor: Math.max(-1, Math.min(1, modulationIndex * powerFactor)) }
}

function conductionOf(view: View, piece: Path, phaseCurrent: number, { modulationIndex, powerFactor }: Duty): number {
  const { value } = view.first([
    {
      name: 'on-resistance',
      read: () => {
        const { onResistance } = view.need({ onResistance: below(piece, 'on-resistance') })
        noteJunction(view, piece, 'on-resistance')
        view.note('channels carry the current both ways, as with synchronous switching; dead time left out')
        return channelConduction({ phaseCurrent, onResistance }).channelLoss
      },
    },
    {
      name: 'threshold and slope',
      read: () => {
        const { switchThreshold, switchSlope } = view.need({
          switchThreshold: below(piece, 'threshold-voltage'),
          switchSlope: below(piece, 'slope-resistance'),
        })
        noteJunction(view, piece, 'slope-resistance')
        const still = { diodeThreshold: 0, diodeSlope: 0 }
        return diodePairConduction({
          phaseCurrent,
          modulationIndex,
          powerFactor,
          switchThreshold,
          switchSlope,
          ...still,
        }).switchLoss
      },
    },
  ])
  return value
}

/** Separate diodes beside channels that conduct both ways carry current only in the dead time. */
function diodeConduction(view: View, piece: Path, phaseCurrent: number, duty: Duty, own: Switch): number {
  const channel = own.transistors.some((die) => view.may(below(die, 'on-resistance')) !== undefined)
  if (channel) {
    view.note(`${piece} carries current only in the dead time, which is left out`)
    return 0
  }
  const { diodeThreshold, diodeSlope } = view.need({
    diodeThreshold: below(piece, 'threshold-voltage'),
    diodeSlope: below(piece, 'slope-resistance'),
  })
  noteJunction(view, piece, 'slope-resistance')
  const { modulationIndex, powerFactor } = duty
  const still = { switchThreshold: 0, switchSlope: 0 }
  return diodePairConduction({ phaseCurrent, modulationIndex, powerFactor, diodeThreshold, diodeSlope, ...still })
    .diodeLoss
}

function turning(view: View, piece: Path, phaseCurrent: number, duty: Duty): number {
  const { value } = view.first([
    {
      name: 'on and off apart',
      read: () => {
        const [on, off] = view.all(
          () => energyLoss(view, piece, 'turn-on-energy', phaseCurrent, duty),
          () => energyLoss(view, piece, 'turn-off-energy', phaseCurrent, duty),
        )
        return on + off
      },
    },
    { name: 'on and off together', read: () => energyLoss(view, piece, 'switching-energy', phaseCurrent, duty) },
  ])
  const recovery = view.may(below(piece, 'recovery-energy'))
  return recovery === undefined ? value : value + energyLoss(view, piece, 'recovery-energy', phaseCurrent, duty)
}

/** Loss of one energy per pulse, scaled from the current and voltage at which it is stated. */
function energyLoss(view: View, piece: Path, name: string, phaseCurrent: number, duty: Duty): number {
  const { energy, referenceCurrent, referenceVoltage } = view.need({
    energy: below(piece, name),
    referenceCurrent: below(piece, `${name}/at/current`),
    referenceVoltage: below(piece, `${name}/at/voltage`),
  })
  const currentExponent = view.may(below(piece, 'current-exponent'))
  const voltageExponent = view.may(below(piece, 'voltage-exponent'))
  if (currentExponent === undefined || voltageExponent === undefined)
    view.note('switching energies taken as proportional to current and voltage where no exponent is on record')
  noteJunction(view, piece, name)
  return apply(view, switchingLossMethod, {
    phaseCurrent,
    linkVoltage: duty.linkVoltage,
    switchingFrequency: duty.switchingFrequency,
    turnOnEnergy: energy,
    turnOffEnergy: 0,
    referenceCurrent,
    referenceVoltage,
    ...(currentExponent !== undefined && { currentExponent }),
    ...(voltageExponent !== undefined && { voltageExponent }),
  }).switchLoss
}

/** The temperature at which the data hold is not the one that the loss brings about. */
function noteJunction(view: View, piece: Path, name: string): void {
  const kelvin = view.may(below(piece, `${name}/at/junction`))
  view.note(
    kelvin === undefined
      ? `${name} of ${piece} without a junction temperature: taken as it stands`
      : `device data at a junction of ${(kelvin - 273.15).toFixed(0)} °C, wherever the junction settles`,
  )
}
