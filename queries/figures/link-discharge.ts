import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import {
  type DischargeNetwork,
  type DischargeNetworkInputs,
  dischargeNetwork,
  dischargeNetworkMethod,
  isOnWay,
  joins,
  type PlacedResistor,
} from '../physics/discharge-network.ts'
import { DomainError } from '../physics/method.ts'
import { solveRails } from '../physics/rail-network.ts'
import { lowEnergyMethod, SAFETY_LIMITS } from '../physics/safety-limits.ts'
import { linkBank, linkVoltage, railsOf } from './dc-link.ts'
import { defineFigure, SPECIMEN } from './figure.ts'

const TOUCH_VOLTAGE = SAFETY_LIMITS.dcVoltage.value

/** Bleed resistors of the link side between their nets. */
function bleedResistors(view: View): readonly PlacedResistor[] {
  notePlainResistors(view)
  const found = view.some({ ask: 'link-parts', class: 'bleed-resistor' })
  return view.each(found.paths, (piece) => {
    const [nets, { resistance }] = view.all(
      () => view.some({ ask: 'terminals', piece }).paths,
      () => view.need({ resistance: asPath(`${piece}/resistance`) }),
    )
    if (nets.length !== 2)
      view.fail(`${piece} has ${nets.length} terminals on nets where a resistor has two`, 'refused', piece)
    if (resistance <= 0) view.fail(`${piece} has a resistance of ${resistance} Ω`, 'refused', piece)
    return { from: nets[0]!, to: nets[1]!, resistance }
  })
}

/** A resistor of no stated purpose may be a sensing string or a snubber: named, never taken for a discharge path. */
function notePlainResistors(view: View): void {
  const classed = new Set(view.find({ ask: 'link-parts', class: 'bleed-resistor' }).paths)
  const plain = view.find({ ask: 'link-parts', class: 'resistor' }).paths.filter((piece) => !classed.has(piece))
  if (plain.length > 0)
    view.note(`not taken: ${plain.join(', ')}; a resistor that always drains the link is of class bleed-resistor`)
}

/** Switches in series with a bleed resistor, none of them part of a half bridge. */
function dischargeSwitches(view: View): readonly Path[] {
  const bridges = new Set(
    view.find({ ask: 'loops' }).paths.flatMap((loop) => view.find({ ask: 'loop-bridge', loop }).paths),
  )
  const rails: readonly Path[] = view.find({ ask: 'rails' }).paths
  const inner = view
    .find({ ask: 'link-parts', class: 'bleed-resistor' })
    .paths.flatMap((piece) => view.find({ ask: 'terminals', piece }).paths)
    .filter((net) => !rails.includes(net))
  const beside = inner.flatMap((net) => view.find({ ask: 'on-net', net, class: 'semiconductor' }).paths)
  return [...new Set(beside)].filter((piece) => !bridges.has(piece) && ends(view, piece) !== undefined)
}

/** The two nets that a switch connects when it is on. */
function ends(view: View, piece: Path): readonly [Path, Path] | undefined {
  const at = (...names: readonly string[]): Path | undefined =>
    names.flatMap((terminal) => view.find({ ask: 'net-of', piece, terminal }).paths)[0]
  const high = at('drain', 'collector')
  const low = at('source', 'emitter')
  return high !== undefined && low !== undefined ? [high, low] : undefined
}

/** Discharge switches as closed contacts, with their resistance where it is on record. */
function closedSwitches(view: View): readonly PlacedResistor[] {
  return dischargeSwitches(view).map((piece) => {
    const [from, to] = ends(view, piece)!
    const resistance = view.may(asPath(`${piece}/on-resistance`))
    if (resistance === undefined) view.note(`on-state resistance of ${piece} not on record, taken as none`)
    return { from, to, resistance: resistance ?? 0 }
  })
}

function noStandingPath(view: View): never {
  const switched = dischargeSwitches(view)
  return view.fail(
    switched.length > 0
      ? `no standing path of bleed resistors leads from rail to rail: only through ${switched.join(', ')}, see ACTIVE_DISCHARGE_TIME`
      : 'no path of bleed resistors leads from rail to rail: trace the nets of their ends',
  )
}

function noActivePath(view: View): never {
  return view.fail('no path of resistors and switches leads from rail to rail: trace their nets')
}

interface Way {
  readonly switches: (view: View) => readonly PlacedResistor[]
  readonly none: (view: View) => never
}

/** Nothing is asked for where there is nothing to fall: a 48 V link needs no bleed resistor. */
function hazardousStart(view: View, specimen: Path): number {
  const voltage = view.model(linkVoltage, specimen)
  if (voltage > TOUCH_VOLTAGE) return voltage
  return view.fail(`the link starts at ${voltage} V, which is not above ${TOUCH_VOLTAGE} V`, 'not-applicable')
}

function timeToTouchVoltage(view: View, specimen: Path, { switches, none }: Way): number {
  view.setting('counts')
  const [[plusRail, minusRail], bank, startVoltage, bleeders] = view.all(
    () => railsOf(view),
    () => view.model(linkBank, specimen),
    () => hazardousStart(view, specimen),
    () => bleedResistors(view),
  )
  const capacitors = bank.map(({ from, to, capacitance }) => ({ from, to, capacitance }))
  const resistors = [...bleeders, ...switches(view)]
  const found = fallOf({ capacitors, resistors, plusRail, minusRail, startVoltage, endVoltage: TOUCH_VOLTAGE })
  if (found === undefined) return none(view)
  say(view, found)
  return found.time
}

/** Undefined where no path of resistors leads across. */
function fallOf(inputs: DischargeNetworkInputs): DischargeNetwork | undefined {
  try {
    return dischargeNetwork(inputs)
  } catch (error) {
    if (error instanceof DomainError && error.argument === 'resistors') return undefined
    throw error
  }
}

/** Starts and inner nets that differ beyond rounding. */
const NOTABLE = 1e-6

function say(view: View, { time, fromRest, fromQuickCharge, everywhere }: DischargeNetwork): void {
  view.note('a computed time is no proof of absence of voltage: measure it, with two instruments, each time')
  if (Math.abs(fromRest - fromQuickCharge) > NOTABLE * time) {
    const [slow, quick] = ['from rest on the resistors', 'right after a quick charge']
    const [taken, other, least] = fromRest > fromQuickCharge ? [slow, quick, fromQuickCharge] : [quick, slow, fromRest]
    view.note(`sections fall at unequal speed: the time holds ${taken}; ${other} it would be ${short(least)} s`)
  }
  if (everywhere > time * (1 + NOTABLE))
    view.note(`two nets inside the link are more than ${TOUCH_VOLTAGE} V apart until ${short(everywhere)} s`)
}

function short(value: number): string {
  return String(Number(value.toPrecision(4)))
}

const dischargeTime = defineFigure({
  id: 'LINK_DISCHARGE_TIME',
  title: 'Discharge time of the DC link, standing resistors',
  definition:
    'Time for the rails to fall from the voltage of the setting to 60 V through the bleed resistors that are always there, every capacitor and resistor between its own nets, source off; from rest or right after a quick charge, whichever takes longer.',
  unit: 's',
  subject: 'specimen',
  honours: ['voltage', 'counts'],
  caution: 'energy',
  method: 'free decay of the network of capacitors and bleed resistors, C dv/dt = −G v, by its modes',
  sources: [...dischargeNetworkMethod.sources, SAFETY_LIMITS.dcVoltage.source],
  subjects: () => SPECIMEN,
  compute: (view, specimen) => timeToTouchVoltage(view, specimen, { switches: () => [], none: noStandingPath }),
})

const activeDischargeTime = defineFigure({
  id: 'ACTIVE_DISCHARGE_TIME',
  title: 'Discharge time of the DC link, switched resistor',
  definition:
    'The same with the switches that stand in series with a discharge resistor closed; it holds only while they are commanded and whole.',
  unit: 's',
  subject: 'specimen',
  honours: ['voltage', 'counts'],
  caution: 'energy',
  method: 'free decay of the network of capacitors, resistors and closed switches, C dv/dt = −G v, by its modes',
  sources: [...dischargeNetworkMethod.sources, SAFETY_LIMITS.dcVoltage.source],
  subjects: (view) => (dischargeSwitches(view).length > 0 ? SPECIMEN : { ...SPECIMEN, paths: [] }),
  compute: (view, specimen) => timeToTouchVoltage(view, specimen, { switches: closedSwitches, none: noActivePath }),
})

/** Power in each resistor with the rails held at a voltage: inner nets as the resistors set them. */
function heldPower(view: View, resistors: readonly PlacedResistor[], voltage: number): readonly number[] {
  const [plus, minus] = railsOf(view)
  const branches = resistors.map(({ from, to, resistance }) => ({
    from,
    to,
    admittance: [1 / Math.max(resistance, CONTACT), 0] as const,
  }))
  if (!joins(resistors, plus, minus)) return resistors.map(() => 0)
  const { branchVoltages } = solveRails(branches, plus, minus)
  // The solution leaves a dead end a rounding of the rails, which is not a standing load.
  return resistors.map((one, i) =>
    isOnWay(resistors, one, [plus, minus])
      ? (branchVoltages[i]![0] * voltage) ** 2 / Math.max(one.resistance, CONTACT)
      : 0,
  )
}

/** Stands for a closed contact beside resistors of ohms and more [Ω]. */
const CONTACT = 1e-6

const resistorLoad = defineFigure({
  id: 'DISCHARGE_RESISTOR_LOAD',
  title: 'Load of a discharge resistor',
  definition:
    'Power in a bleed resistor with the link at the voltage of the setting, series resistors sharing it: standing where it is always connected; where only a closed discharge switch connects it, the peak at the start of the discharge.',
  unit: 'W',
  subject: 'component',
  honours: ['voltage', 'counts'],
  caution: 'heat',
  method: 'U² ÷ R of the voltage over it, nodal solve of the resistors between the rails',
  sources: ["Ohm's and Kirchhoff's laws"],
  subjects: (view) => view.find({ ask: 'link-parts', class: 'bleed-resistor' }),
  compute(view, piece) {
    view.setting('counts')
    const [, voltage, bleeders] = view.all(
      () => railsOf(view),
      () => view.model(linkVoltage, SPECIMEN.paths[0]!),
      () => bleedResistors(view),
    )
    const at = view.find({ ask: 'link-parts', class: 'bleed-resistor' }).paths.indexOf(piece)
    const rated = view.may(asPath(`${piece}/power`))
    if (rated !== undefined) view.note(`its rating is ${short(rated)} W`)
    const standing = heldPower(view, bleeders, voltage)[at]!
    if (standing > 0) return standing
    const pulse = heldPower(view, [...bleeders, ...closedSwitches(view)], voltage)[at]!
    if (pulse === 0) view.fail(`${piece} stands on no path from rail to rail`, 'not-applicable', piece)
    view.note(
      'only while the discharge switch is closed, at its start: a rating for pulses decides, not the standing one',
    )
    return pulse
  },
})

const lowEnergyVoltage = defineFigure({
  id: 'LOW_ENERGY_VOLTAGE',
  title: 'Link voltage at the low-energy limit',
  definition:
    'Voltage at which the link capacitance still holds 0.2 J. A large link is below 60 V and yet above that energy.',
  unit: 'V',
  subject: 'specimen',
  honours: ['counts'],
  uses: ['LINK_CAPACITANCE'],
  caution: 'energy',
  method: '√(2 · 0.2 J / C)',
  sources: lowEnergyMethod.sources,
  subjects: () => SPECIMEN,
  compute: (view, specimen) =>
    lowEnergyMethod.compute({ capacitance: view.figure('LINK_CAPACITANCE', specimen) }).voltage,
})

export const linkDischargeFigures = [dischargeTime, activeDischargeTime, resistorLoad, lowEnergyVoltage] as const
