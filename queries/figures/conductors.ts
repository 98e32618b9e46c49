import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Model, View } from '../../graph/view.ts'
import { minus, norm } from '../physics/bar.ts'
import { barSkin } from '../physics/bar-skin.ts'
import { barConductionMethod } from '../physics/conductor.ts'
import { plateHoleMethod } from '../physics/plate-hole.ts'
import { apply } from './apply.ts'
import { skinRatio } from './bar-skin.ts'
import { defineFigure } from './figure.ts'
import { metalOfPart } from './metal/geometry.ts'
import { netCurrent } from './net-current.ts'
import { below, operating } from './paths.ts'

/** A conductor as one straight way: its length along the current and its section. */
interface Way {
  readonly length: number
  readonly section: number
  /** Section at its narrowest place. */
  readonly neck: number
}

/** Pieces of metal that are on a net. */
function conductors(view: View): Found {
  const nets = view.find({ ask: 'nets' }).paths
  const found = nets.map((net) => view.find({ ask: 'metal-of', net }))
  const paths = [...new Set(found.flatMap((one) => one.paths))]
  return { paths, census: 'complete', basis: 'judged', restsOn: [] }
}

/** The net that a piece of metal is on. */
export function netOf(view: View, part: Path): Path {
  const net = view
    .find({ ask: 'nets' })
    .paths.find((one) => view.find({ ask: 'metal-of', net: one }).paths.includes(part))
  return net ?? view.fail(`${part} is the metal of no net: add net: to it`, 'refused', part)
}

/** A bar along its run, a plate from end to end along its longer side, a flexible link by its section. */
const wayOf: Model<Way> = {
  id: 'conducting way',
  compute(view, part) {
    const way = wayAsWritten(view, part)
    const [wrong] = Object.entries(way).filter(([, size]) => !(size > 0))
    return wrong === undefined ? way : view.fail(`the ${wrong[0]} of ${part} is not above zero`, 'refused', part)
  },
}

function wayAsWritten(view: View, part: Path): Way {
  if (view.find({ ask: 'shape-of', part }).paths.length === 0) {
    const { section, length } = view.need({ section: below(part, 'section'), length: below(part, 'length') })
    return { section, length, neck: section }
  }
  const metal = view.model(metalOfPart, part)
  if (metal.shape === 'run') {
    const length = metal.stretches.reduce((sum, { start, end }) => sum + norm(minus(end, start)), 0)
    const { width, thickness } = metal.stretches[0]!
    return { length, section: width * thickness, neck: width * thickness }
  }
  const [thickness, width, length] = metal.size.toSorted((a, b) => a - b) as [number, number, number]
  view.note(`plate taken from end to end along its longer side (${Math.round(1e3 * length)} mm)`)
  const hole = Math.max(0, ...metal.holes.map(({ diameter }) => diameter))
  if (hole >= width) view.fail(`a hole of ${part} is as wide as the plate: check its diameter`, 'refused', part)
  if (hole > 0)
    view.note('density at the widest hole; each hole adds its resistance as if alone in the middle of the width')
  const added = metal.holes.reduce((sum, { diameter }) => sum + addedLength(view, width, diameter), 0)
  return { length: length + added, section: width * thickness, neck: (width - hole) * thickness }
}

/** Plain strip with the resistance that a hole adds [m]. */
function addedLength(view: View, width: number, diameter: number): number {
  return diameter > 0 ? apply(view, plateHoleMethod, { width, diameter }).addedLength : 0
}

/** Resistivity of the material at the temperature of the bars [Ω·m]. */
const resistivityOf: Model<number> = {
  id: 'resistivity',
  compute(view, part) {
    const material = view.word(below(part, 'material'))
    const { resistivity } = view.need({ resistivity: asPath(`materials/${material}/resistivity`) })
    const temperature = view.may(operating(view, 'conductor-temperature'))
    if (temperature === undefined) {
      view.note('at 20 °C: no conductor temperature on record; 60 K more add about a quarter')
      return resistivity
    }
    const { coefficient } = view.need({ coefficient: asPath(`materials/${material}/temperature-coefficient`) })
    return resistivity * (1 + coefficient * (temperature - TWENTY))
  },
}
const TWENTY = 293.15

const resistanceOf: Model<number> = {
  id: 'bar resistance',
  compute: (view, part) =>
    view.first([
      { name: 'recorded', read: () => view.need({ resistance: below(part, 'resistance') }).resistance },
      {
        name: 'computed',
        read: () => {
          const [way, resistivity] = view.all(
            () => view.model(wayOf, part),
            () => view.model(resistivityOf, part),
          )
          return (resistivity * way.length) / way.section
        },
      },
    ]).value,
}

const RESISTIVITY = 'resistivity and its spread: table of materials'
const SKIN = 'direct current: skin effect left out, see BAR_AC_RESISTANCE'

const barResistance = defineFigure({
  id: 'BAR_RESISTANCE',
  title: 'Resistance of a bus bar',
  definition:
    'As recorded, else resistivity times length over section: a bar along its run, a plate from end to end along its longer side with what its holes add, joints left out.',
  unit: 'mΩ',
  subject: 'component',
  honours: ['power'],
  operating: ['conductorTemperature'],
  method: `ρ l ÷ A; ${SKIN}`,
  sources: [RESISTIVITY, ...plateHoleMethod.sources],
  subjects: conductors,
  compute: (view, part) => view.model(resistanceOf, part),
})

const barDensity = defineFigure({
  id: 'BAR_CURRENT_DENSITY',
  title: 'Current density in a bus bar',
  definition:
    'Current of its net (a rail: power over DC voltage; a phase: rms; a port: as stated) over the section, at the widest hole of a plate.',
  unit: 'A/mm²',
  subject: 'component',
  honours: ['power', 'boundary'],
  operating: ['phaseCurrent'],
  caution: 'heat',
  method: `I ÷ A; ${SKIN}`,
  sources: ['common practice'],
  subjects: conductors,
  compute(view, part) {
    const [current, section] = view.all(
      () => view.model(netCurrent, netOf(view, part)),
      () => sectionOf(view, part),
    )
    return current / section
  },
})

function sectionOf(view: View, part: Path): number {
  return view.first([
    { name: 'geometry', read: () => view.model(wayOf, part).neck },
    { name: 'section', read: () => view.need({ section: below(part, 'section') }).section },
  ]).value
}

const barAcResistance = defineFigure({
  id: 'BAR_AC_RESISTANCE',
  title: 'Resistance of a bus bar at the switching frequency',
  definition:
    'Resistance of the bar to a sinusoidal current of the switching frequency (the ripple between capacitors and half bridges; harmonics see more): that of direct current times what skin effect adds, and proximity where the other rail lies face to face with it.',
  unit: 'mΩ',
  subject: 'component',
  honours: ['power'],
  operating: ['switchingFrequency', 'conductorTemperature'],
  costly: true,
  method: 'BAR_RESISTANCE × ratio by filaments over the section',
  sources: [RESISTIVITY, ...barSkin.sources],
  subjects: conductors,
  compute(view, part) {
    const [direct, resistivity, { frequency }] = view.all(
      () => view.model(resistanceOf, part),
      () => view.model(resistivityOf, part),
      () => view.need({ frequency: operating(view, 'switching-frequency') }),
    )
    return direct * skinRatio(view, part, { of: 'switching', frequency, resistivity })
  },
})

/** Frequency of the load current of a net [Hz]; undefined for direct current, or where it is not on record. */
function loadFrequency(view: View, net: Path): number | undefined {
  const phases = view
    .find({ ask: 'bridge-loops' })
    .paths.flatMap((loop) => view.find({ ask: 'loop-output', loop }).paths)
  if (phases.includes(net)) {
    const frequency = view.may(operating(view, 'output-frequency'))
    if (frequency === undefined) view.note('as for direct current: no output-frequency on record, skin effect left out')
    return frequency
  }
  const port = view.find({ ask: 'ports-on', net }).paths[0]
  return port === undefined ? undefined : view.may(below(port, 'frequency'))
}

/** What skin effect adds to the resistance for the load current [1]. */
function loadRatio(view: View, part: Path, net: Path): number {
  const frequency = loadFrequency(view, net)
  if (frequency === undefined || frequency <= 0) return 1
  return view.first([
    {
      name: 'skin effect',
      read: () => skinRatio(view, part, { of: 'output', frequency, resistivity: view.model(resistivityOf, part) }),
    },
    {
      name: 'direct current',
      read: () => {
        view.note('as for direct current: width, thickness or material not on record, skin effect left out')
        return 1
      },
    },
  ]).value
}

const barLoss = defineFigure({
  id: 'BAR_LOSS',
  title: 'Loss of a bus bar',
  definition:
    'Resistance of the bar times the square of the current of its net at the operating point: direct current in a rail, the fundamental at its recorded frequency in a phase. Ripple is left out: see BAR_AC_RESISTANCE for what it meets.',
  unit: 'W',
  subject: 'component',
  honours: ['power', 'boundary'],
  operating: ['phaseCurrent', 'conductorTemperature'],
  caution: 'heat',
  method: 'R I²; R at the output frequency by filaments',
  sources: [RESISTIVITY, ...barConductionMethod.sources, ...barSkin.sources],
  subjects: conductors,
  compute(view, part) {
    const net = netOf(view, part)
    const [current, resistance] = view.all(
      () => view.model(netCurrent, net),
      () => view.model(resistanceOf, part),
    )
    return resistance * loadRatio(view, part, net) * current ** 2
  },
})

export const conductorFigures = [barResistance, barAcResistance, barDensity, barLoss] as const
