import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { storedEnergy } from '../physics/capacitor-bank.ts'
import { isolationLimit, isolationLimitMethod, SAFETY_LIMITS } from '../physics/safety-limits.ts'
import { linkDivision, linkVoltage } from './dc-link.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { below, box } from './paths.ts'
import { groundedNets, hazardousNets } from './potential.ts'

/** Volume of one can: stated, or of its box or cylinder. */
function canVolume(view: View, piece: Path): number {
  return view.first([
    { name: 'can volume', read: () => view.need({ volume: below(piece, 'can-volume') }).volume },
    { name: 'volume', read: () => view.need({ volume: below(piece, 'volume') }).volume },
    {
      name: 'box',
      read: () => {
        const { length, width, height } = view.need(box(below(piece, 'size')))
        return length * width * height
      },
    },
    {
      name: 'cylinder',
      read: () => {
        const { diameter, height } = view.need({ diameter: below(piece, 'diameter'), height: below(piece, 'height') })
        return (Math.PI / 4) * diameter ** 2 * height
      },
    },
  ]).value
}

/** Voltage over one capacitor: its own rating, or its share of the link voltage of the setting. */
function voltageOver(view: View, piece: Path): number {
  if (view.setting('voltage') === 'RATED') return view.need({ rated: below(piece, 'rated-voltage') }).rated
  const specimen = SPECIMEN.paths[0]!
  const [voltage, division] = view.all(
    () => view.model(linkVoltage, specimen),
    () => view.model(linkDivision, specimen),
  )
  const share = division.get(piece)
  return share === undefined
    ? view.fail(`${piece} stands on no path from rail to rail`, 'not-applicable', piece)
    : voltage * share
}

const energyDensity = defineFigure({
  id: 'CAPACITOR_ENERGY_DENSITY',
  title: 'Energy density of a link capacitor',
  definition:
    'Half its capacitance times the square of the voltage over it, by the volume of its can: at its own rating where the voltage setting is RATED, else at its share of the link voltage.',
  unit: 'J/L',
  subject: 'component',
  honours: ['voltage'],
  caution: 'energy',
  method: '½ C U² ÷ can volume (stated, or of its box or cylinder)',
  sources: ['energy of a capacitor', 'by can volume: common practice'],
  subjects: (view) => view.find({ ask: 'link-capacitors' }),
  compute(view, piece) {
    const [{ capacitance }, voltage, volume] = view.all(
      () => view.need({ capacitance: below(piece, 'capacitance') }),
      () => voltageOver(view, piece),
      () => canVolume(view, piece),
    )
    return storedEnergy({ capacitance, voltage }) / volume
  },
})

const yCapacitance = defineFigure({
  id: 'Y_CAPACITANCE',
  title: 'Capacitance to the chassis',
  definition:
    'Sum of all recorded capacitors between hazardous nets and the chassis: for common-mode current they stand in parallel. Stray capacitance is not in it.',
  unit: 'nF',
  subject: 'specimen',
  honours: ['counts'],
  caution: 'voltage',
  method: 'sum over the capacitors from a hazardous net to the chassis or to a net tied to it',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view) {
    view.setting('counts')
    const pieces = capacitorsToChassis(view)
    return view
      .each(pieces, (piece) => view.need({ capacitance: asPath(`${piece}/capacitance`) }).capacitance)
      .reduce((sum, one) => sum + one, 0)
  },
})

/** Capacitors from a hazardous net to the chassis; none with a census that says so is none at all. */
function capacitorsToChassis(view: View): readonly Path[] {
  const live = new Set<Path>(hazardousNets(view))
  const ground = groundedNets(view)
  if (live.size === 0) view.fail('no net of hazardous potential is on record', 'not-applicable')
  if (ground.length === 0) view.fail('no net is the chassis or tied to it: record the chassis among the nets')
  const pieces = ground
    .flatMap((net) => view.find({ ask: 'on-net', net, class: 'capacitor' }).paths)
    .filter((piece) => view.find({ ask: 'terminals', piece }).paths.some((net) => live.has(net)))
  if (pieces.length > 0) return [...new Set(pieces)]
  const { census } = view.some({ ask: 'on-net', net: ground[0]!, class: 'y-capacitor' })
  return view.fail(
    'no capacitor leads from a hazardous net to the chassis',
    census === 'complete' ? 'not-applicable' : 'refused',
  )
}

const yEnergy = defineFigure({
  id: 'Y_ENERGY',
  title: 'Energy in the capacitance to the chassis',
  definition:
    'Half the capacitance to the chassis times the square of the highest link voltage: what passes through a body when one rail already lies on the chassis and the other is touched. An upper estimate.',
  unit: 'J',
  subject: 'specimen',
  honours: ['counts'],
  uses: ['Y_CAPACITANCE'],
  caution: 'energy',
  method: '½ C_Y U_max², all Y capacitors together',
  sources: ['energy of a capacitor', SAFETY_LIMITS.lowEnergy.source],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [capacitance, { voltage }] = view.all(
      () => view.figure('Y_CAPACITANCE', specimen),
      () => view.need({ voltage: asPath('specimen/dc-voltage/max') }),
    )
    view.note(
      `low-energy limit ${SAFETY_LIMITS.lowEnergy.value} J (${SAFETY_LIMITS.lowEnergy.source}); local codes decide`,
    )
    return storedEnergy({ capacitance, voltage })
  },
})

const isolationResistance = defineFigure({
  id: 'ISOLATION_RESISTANCE_LIMIT',
  title: 'Least isolation resistance to the chassis',
  definition:
    'Working voltage (highest DC voltage) times 500 Ω/V where DC and AC buses are joined without separation, as in a drive, and 100 Ω/V for a DC bus alone. What a measured value is held against.',
  unit: 'kΩ',
  subject: 'specimen',
  honours: [],
  caution: 'voltage',
  method: isolationLimitMethod.title,
  sources: isolationLimitMethod.sources,
  subjects: () => SPECIMEN,
  compute(view) {
    const { voltage } = view.need({ voltage: asPath('specimen/dc-voltage/max') })
    if (voltage <= SAFETY_LIMITS.dcVoltage.value)
      view.fail(`no limit for a link of up to ${voltage} V DC, voltage class A`, 'not-applicable')
    const bus = view.find({ ask: 'bridge-loops' }).paths.length > 0 ? 'joined' : 'dc'
    view.note(
      bus === 'joined'
        ? '500 Ω/V: AC and DC buses joined; 100 Ω/V would do where every AC bus is doubly guarded'
        : '100 Ω/V: no half bridge feeds an AC port on record',
    )
    return isolationLimit({ workingVoltage: voltage, bus }).resistance
  },
})

export const capacitorFigures = [energyDensity, yCapacitance, yEnergy, isolationResistance] as const
