import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Model, View } from '../../graph/view.ts'
import { switchingLossMethod } from '../physics/switching-loss.ts'
import { BRIDGE_CONDITIONS } from './bridge.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { lossOf } from './loss.ts'
import { below, operating } from './paths.ts'
import { ratedPower } from './power.ts'
import { bridgeSwitches, diesOf, type Switch } from './switches.ts'

const METHOD = 'stated, else conduction and switching of a two-level sinusoidal-PWM bridge from device data'
const SOURCES = [
  'averages over the fundamental of a sinusoidal-PWM bridge (textbook, from memory)',
  ...switchingLossMethod.sources,
]
const CONDITIONS = [...BRIDGE_CONDITIONS, 'switchingFrequency'] as const

/** Pieces of the group semiconductor that carry dies or stand for one: modules, switch positions, devices, dies. */
function lossyPieces(view: View): Found {
  const classes = ['half-bridge-module', 'multi-bridge-module', 'switch-position', 'discrete-power-device', 'power-die']
  const found = classes.map((name) => view.find({ ask: 'parts', class: name }))
  const paths = found.flatMap(({ paths: entries }) =>
    entries.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths),
  )
  return { ...found[0]!, paths, census: paths.length > 0 ? 'complete' : 'open' }
}

const semiconductorLoss = defineFigure({
  id: 'SEMICONDUCTOR_LOSS',
  title: 'Semiconductor loss',
  definition:
    'Heat of one die, switch, device or module at the operating point: as stated, or where the sheet says `computed` from device data; a switch’s current and switching energy shared equally by its dies, recovery to the diodes.',
  unit: 'W',
  subject: 'component',
  honours: ['power'],
  operating: CONDITIONS,
  caution: 'heat',
  method: METHOD,
  sources: SOURCES,
  subjects: lossyPieces,
  compute: (view, piece) => view.model(lossOf, piece),
})

/** Pieces of the bridges whose losses are summed: modules, or else discrete devices. */
const allSemiconductors: Model<readonly Path[]> = {
  id: 'outermost semiconductors',
  compute(view) {
    const pieces = lossyPieces(view).paths
    const inside = new Set(pieces.flatMap((piece) => view.find({ ask: 'dies-within', piece }).paths))
    const held = new Set(
      pieces.filter((piece) => view.find({ ask: 'holder', piece }).paths.some((up) => pieces.includes(up))),
    )
    const outer = pieces.filter((piece) => !inside.has(piece) && !held.has(piece))
    return outer.length > 0 ? outer : view.some({ ask: 'parts', class: 'semiconductor' }).paths
  },
}

const totalLoss = defineFigure({
  id: 'BRIDGE_LOSS',
  title: 'Loss of all power semiconductors',
  definition: 'Sum of the semiconductor losses of the unit at the operating point, each as stated or computed.',
  unit: 'W',
  subject: 'specimen',
  honours: ['power'],
  operating: CONDITIONS,
  caution: 'heat',
  method: METHOD,
  sources: SOURCES,
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const pieces = view.model(allSemiconductors, specimen)
    return view.each(pieces, (piece) => view.model(lossOf, piece)).reduce((sum, one) => sum + one, 0)
  },
})

const efficiency = defineFigure({
  id: 'EFFICIENCY',
  title: 'Efficiency, upper bound',
  definition:
    'Rated output power over itself plus the recorded losses at the operating point. Losses that are not on record (bars, wiring, control) are not in it: the true efficiency is lower.',
  unit: '%',
  subject: 'specimen',
  honours: ['power', 'boundary'],
  operating: CONDITIONS,
  uses: ['BRIDGE_LOSS'],
  bound: 'upper',
  caution: 'heat',
  method: 'P ÷ (P + Σ recorded losses)',
  sources: SOURCES,
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [power, bridge, outer] = view.all(
      () => view.model(ratedPower, specimen),
      () => view.figure('BRIDGE_LOSS', specimen),
      () => view.model(allSemiconductors, specimen),
    )
    const counted = new Set(
      outer.flatMap((piece) => [piece, ...view.find({ ask: 'heat-sources-within', piece }).paths]),
    )
    const others = view.find({ ask: 'heat-sources' }).paths.filter((piece) => !counted.has(piece))
    const rest = others.map((piece) => ({ piece, loss: recorded(view, piece) }))
    const without = rest.filter(({ loss }) => loss === undefined).map(({ piece }) => piece)
    if (without.length > 0)
      view.note(`loss of ${without.slice(0, 8).join(', ')} not on record for this point, left out`)
    view.note(`an upper bound: losses of ${outer.length + rest.length - without.length} recorded sources only`)
    return power / (power + bridge + rest.reduce((sum, { loss }) => sum + (loss ?? 0), 0))
  },
})

function recorded(view: View, piece: Path): number | undefined {
  return view.first<number | undefined>([
    { name: 'recorded', read: () => view.model(lossOf, piece) },
    { name: 'none', read: () => undefined },
  ]).value
}

/** Full area of one die, edge ring included. */
function dieArea(view: View, die: Path): number {
  return view.first([
    {
      name: 'size',
      read: () => {
        const { length, width } = view.need({ length: below(die, 'size/length'), width: below(die, 'size/width') })
        return length * width
      },
    },
    { name: 'area', read: () => view.need({ area: below(die, 'area') }).area },
  ]).value
}

const areaOf = (view: View, dies: readonly Path[]): number =>
  view.each(dies, (die) => dieArea(view, die)).reduce((sum, one) => sum + one, 0)

/** Dies of the output bridge where there is one, else of the whole unit. */
const ratedDies: Model<Pick<Switch, 'transistors' | 'diodes'>> = {
  id: 'dies behind the rated power',
  compute(view) {
    const loops = view.find({ ask: 'bridge-loops' }).paths
    const bridge = loops.flatMap((loop) => view.find({ ask: 'loop-bridge', loop }).paths)
    const within = diesOf(view, bridge)
    if (within.transistors.length > 0) return within
    const bare = view
      .model(allSemiconductors, SPECIMEN.paths[0]!)
      .filter((piece) => view.find({ ask: 'dies-within', piece }).paths.length === 0)
    if (bare.length > 0) view.note(`a lower bound: no die on record in ${named(bare)}`)
    const entries = view.some({ ask: 'parts', class: 'power-die' }).paths
    const all = new Set(entries.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths))
    const holders = [...new Set([...all].flatMap((die) => view.find({ ask: 'holder', piece: die }).paths))]
    return diesOf(view, holders)
  },
}

const named = (pieces: readonly Path[]): string =>
  [...new Set(pieces.map((piece) => piece.replace(/^parts\//, '').replace(/\.[^/]*/g, '')))].slice(0, 8).join(', ')

const areaPerPower = <const Id extends string>(which: 'transistors' | 'diodes', id: Id, title: string, what: string) =>
  defineFigure({
    id,
    title,
    definition: `Full area of all ${what} of the output bridge (of the whole unit where there is none), as built, over rated power.`,
    unit: 'mm²/kW',
    subject: 'specimen',
    honours: ['power', 'boundary'],
    method: 'Σ length × width ÷ rated power',
    sources: ['common practice'],
    subjects: () => SPECIMEN,
    compute(view, specimen) {
      const [dies, power] = view.all(
        () => view.model(ratedDies, specimen),
        () => view.model(ratedPower, specimen),
      )
      if (dies[which].length === 0)
        view.fail(
          `no ${what} on record beside ${dies.transistors.length + dies.diodes.length} other dies`,
          'not-applicable',
        )
      return areaOf(view, dies[which]) / power
    },
  })

const currentPerArea = defineFigure({
  id: 'CURRENT_PER_DIE_AREA',
  title: 'Phase current per transistor die area',
  definition: 'RMS phase current over the full transistor die area of one switch (mean of all switches of the bridge).',
  unit: 'A/cm²',
  subject: 'specimen',
  honours: ['power'],
  operating: ['phaseCurrent'],
  method: 'I ÷ (Σ transistor die area ÷ number of switches)',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [switches, { phaseCurrent }] = view.all(
      () => view.model(bridgeSwitches, specimen),
      () => view.need({ phaseCurrent: operating(view, 'phase-current') }),
    )
    const dies = switches.flatMap(({ transistors }) => transistors)
    if (dies.length === 0) view.fail('no transistor die is on record in the switches: count and measure them')
    return phaseCurrent / (areaOf(view, dies) / switches.length)
  },
})

const diesPerSwitch = defineFigure({
  id: 'DIES_PER_SWITCH',
  title: 'Transistor dies per switch',
  definition: 'Transistor dies on record in the switches of the bridge over the number of its switches.',
  unit: '1',
  subject: 'specimen',
  honours: [],
  exact: true,
  method: 'transistor dies ÷ switches',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const switches = view.model(bridgeSwitches, specimen)
    const counts = switches.map(({ transistors }) => transistors.length)
    if (counts.every((count) => count === 0))
      view.fail('no transistor die is on record in the switches: open one and count them')
    if (new Set(counts).size > 1) view.note(`switches differ: ${[...new Set(counts)].join(', ')} dies`)
    return counts.reduce((sum, one) => sum + one, 0) / switches.length
  },
})

export const semiconductorFigures = [
  semiconductorLoss,
  totalLoss,
  efficiency,
  areaPerPower('transistors', 'DIE_AREA_PER_KW', 'Transistor die area per rated power', 'transistor dies'),
  areaPerPower('diodes', 'DIODE_AREA_PER_KW', 'Diode die area per rated power', 'diode dies'),
  currentPerArea,
  diesPerSwitch,
] as const
