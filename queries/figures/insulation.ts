import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Model, View } from '../../graph/view.ts'
import {
  clearanceMethod,
  creepageMethod,
  type Insulation,
  MATERIAL_GROUPS,
  type MaterialGroup,
  materialGroupOf,
  ratedImpulse,
  ratedImpulseMethod,
} from '../physics/insulation.ts'
import { apply } from './apply.ts'
import { defineFigure } from './figure.ts'
import { below } from './paths.ts'
import { pairSubject, stressBetween } from './working-voltage.ts'

const EARTHED = 'shock protection is for a qualified person to judge by local codes'

/** The insulation asked of a distance; double insulation as reinforced. */
function insulationOf(view: View, spacing: Path): Insulation {
  const word = view.find({ ask: 'insulation-of', spacing }).paths[0]
  if (word === undefined)
    return view.fail(
      `say what ${spacing} insulates: insulation: functional, basic, supplementary or reinforced`,
      'refused',
      spacing,
    )
  return word === asPath('double') ? 'reinforced' : (word as string as Insulation)
}

function pollutionDegree(view: View, spacing: Path): number {
  const word = view.first([
    { name: 'of the distance', read: () => view.word(below(spacing, 'pollution-degree')) },
    { name: 'of the unit', read: () => view.word(asPath('specimen/environment/pollution-degree')) },
  ]).value
  view.note(`pollution degree ${word}`)
  return Number(word)
}

function materialGroup(view: View, spacing: Path): MaterialGroup {
  const { value } = view.first([
    { name: 'stated', read: () => view.word(below(spacing, 'material-group')) },
    {
      name: 'by tracking index',
      read: () => materialGroupOf(view.need({ index: below(spacing, 'tracking-index') }).index),
    },
  ])
  const group = MATERIAL_GROUPS.find((one) => one === value)
  return group ?? view.fail(`material group "${value}" is none of ${MATERIAL_GROUPS.join(', ')}`, 'refused', spacing)
}

const netsOf = (view: View, spacing: Path): Path => {
  const [a, b] = view.find({ ask: 'spacing-between', spacing }).paths
  return a === undefined || b === undefined
    ? view.fail(`${spacing} does not lie between two nets`, 'refused', spacing)
    : pairSubject(a, b)
}

const requiredCreepage: Model<number> = {
  id: 'required creepage',
  compute(view, spacing) {
    const [{ rms }, insulation, degree, group] = view.all(
      () => view.model(stressBetween, netsOf(view, spacing)),
      () => insulationOf(view, spacing),
      () => pollutionDegree(view, spacing),
      () => materialGroup(view, spacing),
    )
    const { creepage } = apply(view, creepageMethod, {
      voltage: rms,
      pollutionDegree: degree,
      materialGroup: group,
      insulation,
    })
    view.note(`${spacing}: ${millimetres(creepage)} for ${insulation} insulation, material group ${group}`)
    return creepage
  },
}

/** A rated surge is a step of a list: chosen at the values written and kept while other values are doubted. */
function impulseOf(view: View, spacing: Path): number {
  const { impulse } = view.model(stressBetween, netsOf(view, spacing))
  if (impulse !== undefined) return view.choice(`impulse ${spacing}`, () => impulse)
  const [{ peak }, category] = view.all(
    () => view.model(stressBetween, netsOf(view, spacing)),
    () => view.word(asPath('specimen/environment/overvoltage-category')),
  )
  const rated = view.choice(`impulse ${spacing}`, () =>
    ratedImpulse({ voltage: peak, overvoltageCategory: ['I', 'II', 'III', 'IV'].indexOf(category) + 1 }),
  )
  view.note(
    `impulse ${rated / 1e3} kV from the table for mains, overvoltage category ${category}: a vehicle network is no mains, state impulse: under voltages where it was agreed or measured`,
  )
  return rated
}

const requiredClearance: Model<number> = {
  id: 'required clearance',
  compute(view, spacing) {
    const [impulseVoltage, insulation, degree] = view.all(
      () => impulseOf(view, spacing),
      () => insulationOf(view, spacing),
      () => pollutionDegree(view, spacing),
    )
    const altitude = view.may(asPath('specimen/environment/altitude'))
    if (altitude === undefined) view.note('altitude not on record: taken up to 2000 m')
    const { clearance } = apply(view, clearanceMethod, {
      impulseVoltage,
      pollutionDegree: degree,
      insulation,
      ...(altitude !== undefined && { altitude }),
    })
    view.note(
      `${spacing}: ${millimetres(clearance)} for ${insulation} insulation, impulse ${impulseVoltage / 1e3} kV${altitude === undefined ? '' : `, ${Math.round(altitude)} m`}; recurring peaks may ask for more`,
    )
    return clearance
  },
}

const millimetres = (metres: number): string => `${Number((1e3 * metres).toPrecision(3))} mm required`

type Kind = 'creepage' | 'clearance'
const REQUIRED: Readonly<Record<Kind, Model<number>>> = { creepage: requiredCreepage, clearance: requiredClearance }

/** What distances lie on: a board or another part, or the distance itself where no part is said. */
function carriers(view: View, kind: Kind): Found {
  const found = view.find({ ask: 'spacings', kind })
  const on = found.paths.map((spacing) => view.find({ ask: 'lies-on', spacing }).paths[0] ?? spacing)
  return { ...found, paths: [...new Set(on)] }
}

function spacingsOn(view: View, kind: Kind, carrier: Path): readonly Path[] {
  return view
    .find({ ask: 'spacings', kind })
    .paths.filter((spacing) => (view.find({ ask: 'lies-on', spacing }).paths[0] ?? spacing) === carrier)
}

const marginOf = (view: View, kind: Kind, spacing: Path): number => {
  const [{ distance }, required] = view.all(
    () => view.need({ distance: below(spacing, 'distance') }),
    () => view.model(REQUIRED[kind], spacing),
  )
  return distance - required
}

/** Margin of the tightest distance on a part; which one that is, is settled at the values written. */
function tightest(view: View, kind: Kind, carrier: Path): number {
  const spacings = spacingsOn(view, kind, carrier)
  const margins = view.each(spacings, (spacing) => marginOf(view, kind, spacing))
  const at = view.choice(`tightest ${kind} ${carrier}`, () => margins.indexOf(Math.min(...margins)))
  if (spacings.length > 1) view.note(`the tightest of ${spacings.length}: ${spacings[at]}`)
  return margins[at]!
}

const DERIVED =
  'Voltages between nets are derived at the highest DC voltage, or taken as stated under voltages; every assumption is printed.'

const creepageMargin = defineFigure({
  id: 'CREEPAGE_MARGIN',
  title: 'Creepage margin',
  definition: `Recorded creepage distance less the one required by IEC 60664-1 for the rms working voltage, pollution degree, material group and kind of insulation; of several on a part the tightest. ${DERIVED} Below zero it is too short; ${EARTHED}.`,
  unit: 'mm',
  subject: 'board',
  honours: [],
  caution: 'voltage',
  method: `${creepageMethod.title}; altitude does not enter`,
  sources: creepageMethod.sources,
  subjects: (view) => carriers(view, 'creepage'),
  compute: (view, carrier) => tightest(view, 'creepage', carrier),
})

const clearanceMargin = defineFigure({
  id: 'CLEARANCE_MARGIN',
  title: 'Clearance margin',
  definition: `Recorded clearance less the one required by IEC 60664-1 for the impulse voltage, pollution degree, kind of insulation and altitude; of several on a part the tightest. ${DERIVED} Below zero it is too short; ${EARTHED}.`,
  unit: 'mm',
  subject: 'board',
  honours: [],
  caution: 'voltage',
  method: `${clearanceMethod.title}; no interpolation between impulse voltages`,
  sources: [...clearanceMethod.sources, ...ratedImpulseMethod.sources],
  subjects: (view) => carriers(view, 'clearance'),
  compute: (view, carrier) => tightest(view, 'clearance', carrier),
})

const insulationStress = defineFigure({
  id: 'INSULATION_STRESS',
  title: 'Field strength between laminated bars',
  definition:
    'Peak voltage between the nets of two bars that lie face to face over their measured gap: the mean field. A film in part of the gap sees less, the air beside it more.',
  unit: 'kV/mm',
  subject: 'component',
  honours: [],
  caution: 'voltage',
  method: 'U ÷ gap',
  sources: ['field of a plate capacitor (textbook)'],
  subjects(view) {
    const bars = view.find({ ask: 'nets' }).paths.flatMap((net) => view.find({ ask: 'metal-of', net }).paths)
    const paths = [...new Set(bars)].filter((part) => view.find({ ask: 'beside', part }).paths.length > 0)
    return { paths, census: 'complete', basis: 'judged', restsOn: [] }
  },
  compute(view, part) {
    const other = view.some({ ask: 'beside', part }).paths[0]!
    const nets = [part, other].map((one) => netOfMetal(view, one))
    if (nets[0] === nets[1]) view.fail(`${part} and ${other} are on one net`, 'not-applicable', part)
    const [{ gap }, { peak }] = view.all(
      () => view.need({ gap: below(part, 'beside/gap') }),
      () => view.model(stressBetween, pairSubject(nets[0]!, nets[1]!)),
    )
    return peak / gap
  },
})

function netOfMetal(view: View, part: Path): Path {
  const net = view
    .find({ ask: 'nets' })
    .paths.find((one) => view.find({ ask: 'metal-of', net: one }).paths.includes(part))
  return net ?? view.fail(`${part} is the metal of no net: add net: to it`, 'refused', part)
}

export const insulationFigures = [creepageMargin, clearanceMargin, insulationStress] as const
