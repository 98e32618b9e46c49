import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { box, operating } from './paths.ts'

const at = (text: string): Path => asPath(text)

/** Rated power of the unit, or of the boundary asked for: never carried over from one to the other. */
export const ratedPower: Model<number> = {
  id: 'rated power',
  compute(view) {
    const boundary = view.setting('boundary')
    if (boundary !== 'whole') return stated(view, boundary, 'power')
    const { way, value } = view.first([
      { name: 'operating point', read: () => view.need({ power: operating(view, 'power') }).power },
      ...(view.setting('power') === 'CONTINUOUS' ? [{ name: 'rated port', read: () => ratedPort(view) }] : []),
    ])
    if (way === 'rated port') view.note('power of the port marked as rated, taken as continuous')
    return value
  },
}

/** Power stated at the port that is marked `rated: yes`. */
function ratedPort(view: View): number {
  const port = view.some({ ask: 'section', name: 'rated-ports' }).paths[0]!
  return view.need({ power: asPath(`${port}/power`) }).power
}

/** A property of a boundary as the sheet states it. */
function stated(view: View, boundary: string, name: string): number {
  const path = at(`boundaries/${boundary}`)
  if (!view.find({ ask: 'section', name: 'boundaries' }).paths.includes(path)) {
    return view.fail(`the sheet has no boundary "${boundary}"; state its power, mass and volume under boundaries`)
  }
  return view.need({ value: at(`${path}/${name}`) }).value
}

const VOLUME = { HULL: at('specimen/hull-volume'), DISPLACED: at('specimen/displaced-volume') } as const

/** Volume of the kind the `volume` setting names, of the whole or of a boundary. */
export const volumeOf: Model<number> = {
  id: 'volume',
  compute(view) {
    const kind = view.setting('volume')
    const boundary = view.setting('boundary')
    if (boundary !== 'whole') return stated(view, boundary, `volume/${kind.toLowerCase()}`)
    if (kind === 'ENVELOPE') {
      const { length, width, height } = view.need(box(at('specimen/envelope')))
      return length * width * height
    }
    return kind === 'PARTS' ? partVolumes(view) : view.need({ volume: VOLUME[kind] }).volume
  },
}

/** Sum of the stated part volumes; parts without one are named, and the sum is then a lower bound. */
function partVolumes(view: View): number {
  const parts = view.some({ ask: 'leaf-parts' }).paths
  const stated = parts.map((part) => ({ part, volume: view.may(asPath(`${part}/volume`)) }))
  const known = stated.filter((one) => one.volume !== undefined)
  if (known.length === 0) view.fail('no part has a stated volume; measure the volume of each part, or by displacement')
  const without = stated.filter((one) => one.volume === undefined).map((one) => one.part.replace('parts/', ''))
  if (without.length > 0)
    view.note(`a lower bound: ${without.length} parts state no volume (${without.slice(0, 8).join(', ')})`)
  return known.reduce((sum, { part, volume }) => sum + volume! * view.find({ ask: 'pieces', of: part }).paths.length, 0)
}

/** Dry mass of the whole or of a boundary. */
export const massOf: Model<number> = {
  id: 'mass',
  compute(view) {
    const boundary = view.setting('boundary')
    return boundary === 'whole' ? view.need({ mass: at('specimen/mass') }).mass : stated(view, boundary, 'mass')
  },
}

const powerDensity = defineFigure({
  id: 'POWER_DENSITY',
  title: 'Power density',
  definition:
    'Rated output power over volume. Which power, which kind of volume and which boundary are settings and are printed with the result.',
  unit: 'kW/L',
  subject: 'specimen',
  honours: ['power', 'volume', 'boundary'],
  method: 'power ÷ volume',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [power, volume] = view.all(
      () => view.model(ratedPower, specimen),
      () => view.model(volumeOf, specimen),
    )
    return power / volume
  },
})

const specificPower = defineFigure({
  id: 'SPECIFIC_POWER',
  title: 'Specific power',
  definition: 'Rated output power over dry mass, of the whole unit or of a stated boundary.',
  unit: 'kW/kg',
  subject: 'specimen',
  honours: ['power', 'boundary'],
  method: 'power ÷ dry mass',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [power, mass] = view.all(
      () => view.model(ratedPower, specimen),
      () => view.model(massOf, specimen),
    )
    return power / mass
  },
})

export const powerFigures = [powerDensity, specificPower] as const
