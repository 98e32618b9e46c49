import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { View } from '../../graph/view.ts'
import type { NumericName } from '../conditions.ts'
import { heatFlux } from '../physics/heat-flux.ts'
import { defineFigure } from './figure.ts'
import { entriesWithin, heatAcross, heatThrough, hottest } from './heat/at.ts'
import { coolingConductance } from './heat/film.ts'
import { heatTopology, holdersOf } from './heat/topology.ts'
import { transfer, transferBounds } from './heat/transfer.ts'
import { wayResistance } from './heat/ways.ts'
import { lossOf } from './loss.ts'
import { below } from './paths.ts'

const SEATED = ['half-bridge-module', 'multi-bridge-module', 'discrete-power-device', 'power-die']

/** What heat in a bridge depends on; what cools it besides. */
const LOSS_POINT: readonly NumericName[] = ['phaseCurrent', 'modulationIndex', 'powerFactor', 'switchingFrequency']
const COOLING: readonly NumericName[] = ['coolantFlow', 'coolantInlet', 'ambient', 'frame']
export const HEAT_POINT: readonly NumericName[] = [...LOSS_POINT, ...COOLING]

const found = (paths: readonly Path[]): Found => ({ paths, census: 'complete', basis: 'measured', restsOn: [] })

export function seatedPieces(view: View, classes: readonly string[] = SEATED): readonly Path[] {
  return classes
    .flatMap((name) => view.find({ ask: 'parts', class: name }).paths)
    .flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths)
}

/** Modules, devices and dies; faces with a recorded area that heat crosses; faces by what coolant wets of them. */
function heatFluxSubjects(view: View): Found {
  const { islands } = heatTopology(view)
  const pieces = seatedPieces(view)
  const own = pieces.flatMap((piece) => view.find({ ask: 'faces', part: piece }).paths)
  const crossed = islands.flatMap(({ nodes }) =>
    nodes.filter((node) => view.find({ ask: 'piece-of', node }).paths[0] !== node),
  )
  const wetted = islands.flatMap(({ coolings }) => coolings.map(({ id }) => id))
  return found([...new Set([...pieces, ...own, ...crossed, ...wetted])])
}

/** Footprint of a piece: its recorded area, else length times width of its size. One side. */
function footprint(view: View, piece: Path): number {
  return view.first([
    { name: 'recorded area', read: () => view.need({ area: below(piece, 'area') }).area },
    {
      name: 'length times width',
      read: () => {
        const { length, width } = view.need({ length: below(piece, 'size/length'), width: below(piece, 'size/width') })
        return length * width
      },
    },
  ]).value
}

/** Heat and area of the surface that a subject names. */
function surface(view: View, subject: Path): readonly [heat: number, area: number] {
  if (heatTopology(view).coolingById.has(subject)) {
    view.note('area: what the coolant wets')
    return view.all(
      () => heatThrough(view, subject),
      () =>
        view.model(coolingConductance, subject).wettedArea ?? view.need({ area: below(subject, 'wetted-area') }).area,
    )
  }
  if (view.find({ ask: 'piece-of', node: subject }).paths[0] !== subject) {
    view.note('area: the recorded area of this face, with the heat that crosses it')
    return view.all(
      () => heatAcross(view, subject),
      () => view.need({ area: below(subject, 'area') }).area,
    )
  }
  view.note('area: footprint of the piece, one side, with all of its heat')
  return view.all(
    () => view.model(lossOf, subject),
    () => footprint(view, subject),
  )
}

const heatFluxFigure = defineFigure({
  id: 'HEAT_FLUX',
  title: 'Heat flux',
  definition:
    'Heat over one named area: of a die, of a module or device its footprint (length × width, one side), of a face its recorded area and the heat that crosses it, of a cooled face what the coolant wets and the heat it takes up. The note says which.',
  unit: 'W/cm²',
  subject: 'component',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method:
    'heat ÷ named area; the loss stated, computed or summed over what is inside, its way found by the heat network',
  sources: ['common practice'],
  subjects: heatFluxSubjects,
  compute(view, subject) {
    const [loss, area] = surface(view, subject)
    return heatFlux({ loss, area })
  },
})

/** Dies, devices and modules where heat arises: not what holds them, and not what is inside of them. */
function junctions(view: View): readonly Path[] {
  const pieces = seatedPieces(view)
  const above = new Map(pieces.map((piece) => [piece, holdersOf(view, piece)]))
  const arising = pieces.filter((piece) => entriesWithin(view, piece).some(({ of }) => of === piece))
  const related = (a: Path, b: Path): boolean => above.get(a)!.includes(b) || above.get(b)!.includes(a)
  const silent = pieces.filter((piece) => !arising.some((one) => one === piece || related(one, piece)))
  // Of what nothing is recorded, the outermost piece stands for what is inside.
  return [...arising, ...silent.filter((piece) => !silent.some((one) => above.get(piece)!.includes(one)))]
}

export const junctionSubjects = (view: View): Found => found(junctions(view))

const junctionTemperature = defineFigure({
  id: 'JUNCTION_TEMPERATURE',
  title: 'Junction temperature',
  definition:
    'Temperature where the heat of a die, or of a device or module recorded as a whole, arises: steady, with every recorded loss at work, the mean of its area. Of a piece with several dies, the hottest.',
  unit: '°C',
  subject: 'component',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method:
    'heat network of layers, faces, films and coolant, one linear solve; parts see the mean of stage inlet and outlet',
  sources: ['energy balance; conduction, convection and coolant as cited with their methods'],
  subjects: junctionSubjects,
  compute(view, piece) {
    if (entriesWithin(view, piece).length === 0) view.model(lossOf, piece)
    return hottest(view, piece)
  },
})

function resistanceSubjects(view: View): Found {
  const holders = seatedPieces(view, ['switch-position', 'half-bridge-module', 'multi-bridge-module'])
  return found([...new Set([...junctions(view), ...holders.filter((piece) => entriesWithin(view, piece).length > 0)])])
}

/** Resistance with both end points and its bounds said. */
function resistanceOf(view: View, piece: Path): number {
  const { resistance, ends, places } = view.model(transfer, piece)
  for (const text of view.choice(`ends of ${piece}`, () => endsText(view, piece, { resistance, ends, places })))
    view.note(text)
  return resistance
}

const short = (value: number): string => String(Number(value.toPrecision(3)))

function endsText(
  view: View,
  piece: Path,
  { resistance, ends, places }: ReturnType<typeof transfer.compute>,
): readonly string[] {
  const from = places === 1 ? `junction of ${piece}` : `hottest of ${places} junctions in ${piece}`
  const named = ends.filter(({ share }) => Math.abs(share) > 0.005)
  const names = named.map(({ end }) => end).join(', ')
  const { low, high } = transferBounds(view, piece)
  const pair = named.map(({ end, share }) => `${end} ${short(resistance / share)} K/W`)
  return [
    `from the ${from} to the flow-weighted local coolant of ${names}, all of these at one temperature`,
    `bounds: ${short(low)} K/W if heat spread at once over the largest area of each path, ${short(high)} K/W if it never spread on its way`,
    ...(named.length > 1 ? [`to each end by itself, for ends of different temperature: ${pair.join('; ')}`] : []),
  ]
}

const thermalResistance = defineFigure({
  id: 'THERMAL_RESISTANCE',
  title: 'Thermal resistance',
  definition:
    'Of a die, a switch, a device or a module: rise of its hottest junction above the local coolant (flow-weighted where it has several) per watt of its own heat, through all its paths in parallel, everything else giving no heat.',
  unit: 'K/W',
  subject: 'component',
  honours: ['power'],
  operating: [...LOSS_POINT, 'coolantFlow', 'coolantInlet'],
  caution: 'heat',
  method: 'heat network with all ends at one temperature and heat in this part alone',
  sources: ['energy balance; conduction and convection as cited with their methods'],
  subjects: resistanceSubjects,
  compute: resistanceOf,
})

const specificResistance = defineFigure({
  id: 'THERMAL_RESISTANCE_AREA',
  title: 'Specific thermal resistance',
  definition: 'Thermal resistance to the local coolant times the footprint of the part (die area of a die), one side.',
  unit: 'mm²·K/W',
  subject: 'component',
  honours: ['power'],
  operating: [...LOSS_POINT, 'coolantFlow', 'coolantInlet'],
  caution: 'heat',
  method: 'THERMAL_RESISTANCE × footprint',
  sources: ['common practice'],
  subjects: resistanceSubjects,
  compute(view, piece) {
    const [resistance, area] = view.all(
      () => resistanceOf(view, piece),
      () => footprint(view, piece),
    )
    return resistance * area
  },
})

const pathResistance = defineFigure({
  id: 'PATH_RESISTANCE',
  title: 'Thermal resistance of one path',
  definition:
    'Of one recorded heat path, from where it starts to where it ends: stated, or layer by layer with contacts.',
  unit: 'K/W',
  subject: 'path',
  honours: [],
  operating: ['coolantFlow', 'coolantInlet'],
  caution: 'heat',
  method: 'Σ thickness ÷ (conductivity × area) + contacts; spreading by series, 45° rule or none, as the sheet says',
  sources: [
    'conduction in one dimension',
    'M. M. Yovanovich, Y. S. Muzychka, J. R. Culham, J. Thermophys. Heat Transfer 13 (1999) 495-500 (from memory), for spread: series',
    'the 45° rule is common practice and no more than that: 32 to 66 % off three-dimensional solutions',
  ],
  subjects: (view) => view.find({ ask: 'heat-paths' }),
  compute(view, path) {
    const { resistance, low, high, layers } = view.model(wayResistance, path)
    for (const text of view.choice(`bounds of ${path}`, () => [
      ...(low === high
        ? []
        : [
            `bounds: ${short(low)} K/W if heat spread at once, ${short(high)} K/W if it never spread, nor in what follows`,
          ]),
      ...layers.map((one) => {
        const more = one.spreading ? ', with what heat that is not yet spread finds in what follows' : ''
        return `${one.layer}: ${((100 * one.resistance) / resistance).toFixed(0)} %${more}`
      }),
    ]))
      view.note(text)
    return resistance
  },
})

const MODULES = ['half-bridge-module', 'multi-bridge-module']

/** Modules of the power stage where heat arises; discrete devices where there is no module. */
export function stagePieces(view: View): readonly Path[] {
  const modules = seatedPieces(view, MODULES)
  return modules.length > 0 ? modules : seatedPieces(view, ['discrete-power-device'])
}

const moduleJunction = defineFigure({
  id: 'MODULE_JUNCTION_TEMPERATURE',
  title: 'Highest junction of a module',
  definition: 'Highest junction temperature among the dies of one power module.',
  unit: '°C',
  subject: 'component',
  honours: ['power'],
  operating: HEAT_POINT,
  kink: true,
  caution: 'heat',
  method: 'JUNCTION_TEMPERATURE, highest of the dies inside',
  sources: ['common practice'],
  subjects: (view) => found(seatedPieces(view, MODULES)),
  compute: hottest,
})

const temperatureSpread = defineFigure({
  id: 'MODULE_TEMPERATURE_SPREAD',
  title: 'Temperature spread between modules',
  definition: 'Highest junction of each power module (device where there are no modules): hottest less coolest.',
  unit: 'K',
  subject: 'specimen',
  honours: ['power'],
  operating: HEAT_POINT,
  kink: true,
  caution: 'heat',
  method: 'highest junction of each module by the heat network; hottest less coolest',
  sources: ['common practice'],
  subjects: () => found(['specimen' as Path]),
  compute(view) {
    const pieces = stagePieces(view)
    if (pieces.length < 2) view.fail('fewer than two power modules are on record', 'not-applicable')
    const temperatures = view.each(pieces, (piece) => hottest(view, piece))
    return Math.max(...temperatures) - Math.min(...temperatures)
  },
})

export const heatFigures = [
  heatFluxFigure,
  thermalResistance,
  specificResistance,
  pathResistance,
  junctionTemperature,
  moduleJunction,
  temperatureSpread,
] as const
