import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { capacitorNetwork, storedEnergy } from '../physics/capacitor-bank.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { ratedPower } from './power.ts'

export interface PlacedCapacitor {
  readonly piece: Path
  readonly from: Path
  readonly to: Path
  readonly capacitance: number
}

/** The two DC rails: where the half bridges, or else the link capacitors, stand. */
export function railsOf(view: View): readonly [plus: Path, minus: Path] {
  const rails = view.some({ ask: 'rails' }).paths
  return [rails[0]!, rails[1]!]
}

/** Capacitors of the high-voltage side with the nets of their two terminals. */
export const linkBank: Model<readonly PlacedCapacitor[]> = {
  id: 'link capacitors',
  compute(view) {
    const found = view.some({ ask: 'link-capacitors' })
    if (found.census === 'open')
      view.note('a lower bound if more capacitors stand on the link: no census says that all were found')
    return view.each(found.paths, (piece) => {
      const [nets, { capacitance }] = view.all(
        () => view.some({ ask: 'terminals', piece }).paths,
        () => view.need({ capacitance: asPath(`${piece}/capacitance`) }),
      )
      if (nets.length !== 2)
        view.fail(
          `${piece} has its terminals on ${nets.length} net where a capacitor stands between two`,
          'refused',
          piece,
        )
      if (capacitance <= 0) view.fail(`the capacitance of ${piece} is not above zero: read it again`, 'refused', piece)
      return { piece, from: nets[0]!, to: nets[1]!, capacitance }
    })
  },
}

const linkCapacitance = defineFigure({
  id: 'LINK_CAPACITANCE',
  title: 'DC-link capacitance',
  definition:
    'Equivalent capacitance seen between the two DC rails, from the nets: capacitors in series and in parallel as connected, those to the chassis left out.',
  unit: 'µF',
  subject: 'specimen',
  honours: ['counts'],
  caution: 'energy',
  method: 'nodal solve of the capacitors of the high-voltage side',
  sources: ['Kirchhoff’s current law'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    view.setting('counts')
    const [[plusRail, minusRail], bank] = view.all(
      () => railsOf(view),
      () => view.model(linkBank, specimen),
    )
    return capacitorNetwork({ capacitors: bank, plusRail, minusRail, voltage: 1 }).capacitance
  },
})

const capacitancePerPower = defineFigure({
  id: 'CAPACITANCE_PER_KW',
  title: 'DC-link capacitance per rated power',
  definition: 'DC-link capacitance over the rated power of the operating point asked for.',
  unit: 'µF/kW',
  subject: 'specimen',
  honours: ['power', 'counts', 'boundary'],
  uses: ['LINK_CAPACITANCE'],
  caution: 'energy',
  method: 'LINK_CAPACITANCE ÷ rated power',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [capacitance, power] = view.all(
      () => view.figure('LINK_CAPACITANCE', specimen),
      () => view.model(ratedPower, specimen),
    )
    return capacitance / power
  },
})

/** DC voltage of the setting: nominal, highest, or the lowest rated capacitor across the link. */
export const linkVoltage: Model<number> = {
  id: 'link voltage',
  compute(view) {
    const kind = view.setting('voltage')
    if (kind === 'RATED') return lowestRated(view)
    const name = kind === 'MAX' ? 'max' : 'nominal'
    return view.need({ voltage: asPath(`specimen/dc-voltage/${name}`) }).voltage
  },
}

/** Where capacitors stand in series, the link voltage at which the first of them has reached its own rating. */
function lowestRated(view: View): number {
  const [plus, minus] = railsOf(view)
  const across = view.find({ ask: 'across', nets: [plus, minus], class: 'capacitor' }).paths
  const all = view.some({ ask: 'link-capacitors' }).paths
  const rated = (piece: Path): number => view.need({ rated: asPath(`${piece}/rated-voltage`) }).rated
  if (all.every((piece) => across.includes(piece))) return Math.min(...view.each(all, rated))
  const seen = view.model(linkDivision, SPECIMEN.paths[0]!)
  const limits = view.each([...seen], ([piece, share]) => rated(piece) / share)
  return Math.min(...limits)
}

/** Share of the link voltage that each capacitor between the rails sees, by piece; those beside the way are left out. */
export const linkDivision: Model<ReadonlyMap<Path, number>> = {
  id: 'link voltage division',
  compute(view, specimen) {
    const [[plusRail, minusRail], bank] = view.all(
      () => railsOf(view),
      () => view.model(linkBank, specimen),
    )
    const { voltages } = capacitorNetwork({ capacitors: bank, plusRail, minusRail, voltage: 1 })
    return new Map(
      bank.flatMap(({ piece }, at) => (voltages[at] === 0 ? [] : [[piece, Math.abs(voltages[at]!)] as const])),
    )
  },
}

const linkEnergy = defineFigure({
  id: 'LINK_ENERGY',
  title: 'Energy stored in the DC link',
  definition:
    'Half the link capacitance times the square of the DC voltage of the setting (nominal, highest, or lowest rated).',
  unit: 'J',
  subject: 'specimen',
  honours: ['voltage', 'counts'],
  uses: ['LINK_CAPACITANCE'],
  caution: 'energy',
  method: '½ C U²',
  sources: ['energy of a capacitor'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [capacitance, voltage] = view.all(
      () => view.figure('LINK_CAPACITANCE', specimen),
      () => view.model(linkVoltage, specimen),
    )
    return storedEnergy({ capacitance, voltage })
  },
})

export const linkFigures = [linkCapacitance, capacitancePerPower, linkEnergy] as const
