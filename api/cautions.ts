import { figureById, figures } from '../queries/figures/registry.ts'

/** A caution that is shown wherever a figure, a calculation or a page touches what it is about. */
export interface Caution {
  readonly id: 'stored-energy' | 'high-voltage' | 'hot-coolant' | 'cut-unit'
  readonly title: string
  readonly text: string
}

const LOCAL = 'Local codes and the practice of a licensed person come before anything written here.'

const stored: Caution = {
  id: 'stored-energy',
  title: 'Stored energy',
  text:
    'A DC link holds a lethal charge long after the supply is gone, and a discharge path can be broken. A computed energy or ' +
    'time is no proof: measure across the terminals that it is dead before touching, with an instrument proved before and ' +
    `after. ${LOCAL}`,
}

const voltage: Caution = {
  id: 'high-voltage',
  title: 'High voltage',
  text:
    'Above 60 V DC or 30 V AC a contact can kill, and a computed distance, margin or resistance is no approval of insulation. ' +
    `Isolate, lock, prove dead; work on live parts is for those trained and equipped for it. ${LOCAL}`,
}

const heat: Caution = {
  id: 'hot-coolant',
  title: 'Hot surfaces and coolant',
  text:
    'Surfaces and coolant near or above 60 °C burn at once, a warm circuit is under pressure, and many coolants are poisonous. ' +
    `Let it cool, relieve the pressure, catch what runs out. A computed temperature is no measurement. ${LOCAL}`,
}

const opened: Caution = {
  id: 'cut-unit',
  title: 'A unit that was opened or cut',
  text:
    'A unit with parts cut, damaged or missing has lost protection its maker built in: barriers, seals, discharge paths. ' +
    `It is not fit for service, and is energised again only after inspection and test by a qualified person. ${LOCAL}`,
}

/** All of them: what is shown for a unit as a whole, on the start page and when the server starts. */
export const CAUTIONS = [stored, voltage, heat, opened] as const

/** What each kind of figure calls for: a figure says of itself which kind it is. */
const BY_KIND = { energy: [stored, voltage], voltage: [voltage], heat: [heat] } as const

/** The cautions of one figure. */
export function cautionsOf(metric: string): readonly Caution[] {
  const { caution } = figureById(metric)
  return caution ? BY_KIND[caution] : []
}

/** The cautions of several figures, or of all, each once. */
export function cautionsFor(metrics: readonly string[] = figures.map(({ id }) => id)): readonly Caution[] {
  const wanted = new Set(metrics.flatMap(cautionsOf))
  return CAUTIONS.filter((one) => wanted.has(one))
}
