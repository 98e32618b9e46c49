import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { discharge } from '../physics/discharge.ts'
import { DomainError } from '../physics/method.ts'
import { type RailBranch, solveRails } from '../physics/rail-network.ts'
import { lowEnergyMethod, SAFETY_LIMITS } from '../physics/safety-limits.ts'
import { linkVoltage, railsOf } from './dc-link.ts'
import { defineFigure, SPECIMEN } from './figure.ts'

const TOUCH_VOLTAGE = SAFETY_LIMITS.dcVoltage.value

/** Bleed resistors of the link side as conductances between their nets. */
function bleedBranches(view: View): readonly RailBranch[] {
  const found = view.some({ ask: 'link-parts', class: 'bleed-resistor' })
  return view.each(found.paths, (piece) => {
    const [nets, { resistance }] = view.all(
      () => view.some({ ask: 'terminals', piece }).paths,
      () => view.need({ resistance: asPath(`${piece}/resistance`) }),
    )
    if (nets.length !== 2)
      view.fail(`${piece} has ${nets.length} terminals on nets where a resistor has two`, 'refused', piece)
    return { from: nets[0]!, to: nets[1]!, admittance: [1 / resistance, 0] as const }
  })
}

/** Resistance between the rails of a network of conductances; undefined when no path leads across. */
function acrossRails(branches: readonly RailBranch[], [plus, minus]: readonly [Path, Path]): number | undefined {
  try {
    return 1 / solveRails(branches, plus, minus).admittance[0]
  } catch (error) {
    if (error instanceof DomainError && error.argument === 'branches') return undefined
    throw error
  }
}

const standingResistance: Model<number> = {
  id: 'standing discharge resistance',
  compute(view) {
    const [rails, branches] = view.all(
      () => railsOf(view),
      () => bleedBranches(view),
    )
    const resistance = acrossRails(branches, rails)
    if (resistance !== undefined) return resistance
    const switched = dischargeSwitches(view)
    return view.fail(
      switched.length > 0
        ? `no standing path of bleed resistors leads from rail to rail: only through ${switched.join(', ')}, see ACTIVE_DISCHARGE_TIME`
        : 'no path of bleed resistors leads from rail to rail: trace the nets of their ends',
    )
  },
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

const activeResistance: Model<number> = {
  id: 'active discharge resistance',
  compute(view) {
    const [rails, branches] = view.all(
      () => railsOf(view),
      () => bleedBranches(view),
    )
    const closed = dischargeSwitches(view).map((piece): RailBranch => {
      const [from, to] = ends(view, piece)!
      const resistance = view.may(asPath(`${piece}/on-resistance`))
      if (resistance === undefined) view.note(`on-state resistance of ${piece} not on record, taken as none`)
      return { from, to, admittance: [1 / (resistance ?? NEGLIGIBLE), 0] }
    })
    const resistance = acrossRails([...branches, ...closed], rails)
    return resistance ?? view.fail('no path of resistors and switches leads from rail to rail: trace their nets')
  },
}

/** Stands for a closed switch beside resistors of ohms and kilohms. */
const NEGLIGIBLE = 1e-6

function timeToTouchVoltage(view: View, specimen: Path, resistance: Model<number>): number {
  const [capacitance, startVoltage, resistor] = view.all(
    () => view.figure('LINK_CAPACITANCE', specimen),
    () => view.model(linkVoltage, specimen),
    () => view.model(resistance, specimen),
  )
  if (startVoltage <= TOUCH_VOLTAGE)
    view.fail(`the link starts at ${startVoltage} V, which is not above ${TOUCH_VOLTAGE} V`, 'not-applicable')
  view.note('a computed time is no proof of absence of voltage: measure it, with two instruments, each time')
  return discharge({ capacitance, startVoltage, endVoltage: TOUCH_VOLTAGE, resistance: resistor }).time
}

const dischargeTime = defineFigure({
  id: 'LINK_DISCHARGE_TIME',
  title: 'Discharge time of the DC link, standing resistors',
  definition:
    'Time for the link to fall from the voltage of the setting to 60 V through the bleed resistors that are always there, in series and parallel as connected, source off.',
  unit: 's',
  subject: 'specimen',
  honours: ['voltage', 'counts'],
  uses: ['LINK_CAPACITANCE'],
  caution: 'energy',
  method: 'R C ln(U/60 V), R from the nets of the bleed resistors',
  sources: ['exponential discharge (textbook)', SAFETY_LIMITS.dcVoltage.source],
  subjects: () => SPECIMEN,
  compute: (view, specimen) => timeToTouchVoltage(view, specimen, standingResistance),
})

const activeDischargeTime = defineFigure({
  id: 'ACTIVE_DISCHARGE_TIME',
  title: 'Discharge time of the DC link, switched resistor',
  definition:
    'The same with the switches that stand in series with a discharge resistor closed; it holds only while they are commanded and whole.',
  unit: 's',
  subject: 'specimen',
  honours: ['voltage', 'counts'],
  uses: ['LINK_CAPACITANCE'],
  caution: 'energy',
  method: 'R C ln(U/60 V), R from the nets of resistors and closed switches',
  sources: ['exponential discharge (textbook)', SAFETY_LIMITS.dcVoltage.source],
  subjects: (view) => (dischargeSwitches(view).length > 0 ? SPECIMEN : { ...SPECIMEN, paths: [] }),
  compute: (view, specimen) => timeToTouchVoltage(view, specimen, activeResistance),
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

export const linkDischargeFigures = [dischargeTime, activeDischargeTime, lowEnergyVoltage] as const
