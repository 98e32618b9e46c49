/** A caution that is shown wherever a figure, a calculation or a page touches what it is about. */
export interface Caution {
  readonly id: 'stored-energy' | 'high-voltage' | 'hot-coolant' | 'cut-unit'
  readonly title: string
  readonly text: string
}

const LOCAL = 'Local codes and the practice of a licensed person come before anything written here.'

export const CAUTIONS: Readonly<Record<Caution['id'], Caution>> = {
  'stored-energy': {
    id: 'stored-energy',
    title: 'Stored energy',
    text:
      'A DC link holds a lethal charge long after the supply is gone, and a discharge path can be broken. A computed time or ' +
      `energy is no proof: measure across the terminals that it is dead before touching, with an instrument proved before and after. ${LOCAL}`,
  },
  'high-voltage': {
    id: 'high-voltage',
    title: 'High voltage',
    text:
      'Above 60 V DC or 30 V AC a contact can kill, and a computed distance, margin or resistance is no approval of insulation. ' +
      `Isolate, lock, prove dead; work under tension is for those trained and equipped for it. ${LOCAL}`,
  },
  'hot-coolant': {
    id: 'hot-coolant',
    title: 'Hot surfaces and coolant',
    text:
      'Surfaces and coolant near or above 60 °C burn at once, and a warm circuit is under pressure; many coolants are poisonous. ' +
      `Let it cool, relieve the pressure, catch what runs out. A computed temperature is no measurement. ${LOCAL}`,
  },
  'cut-unit': {
    id: 'cut-unit',
    title: 'A unit that was opened or cut',
    text:
      'A unit with parts cut, damaged or missing has lost protection its maker built in: barriers, seals, discharge paths. ' +
      `It is not fit for service, and is energised again only after inspection and test by a qualified person. ${LOCAL}`,
  },
}

/** Which cautions a figure calls for, by a part of its id: a new figure of a kind is covered without being listed. */
const BY_METRIC: readonly (readonly [RegExp, Caution['id']])[] = [
  [/^(LINK_|CAPACIT|CM_)/, 'stored-energy'],
  [
    /^(LINK_|LOOP_|TURN_OFF|BAR_|CREEPAGE|CLEARANCE|CAPACIT|CM_|GATE_|SEMICONDUCTOR|TRACE_|.*INSULATION|.*ISOLATION|.*VOLTAGE)/,
    'high-voltage',
  ],
  [/(^THERMAL|^HEAT|TEMPERATURE|^COOLANT|^PRESSURE|_LOSS$|^EFFICIENCY)/, 'hot-coolant'],
  [/^(STEPS_|FASTENER)/, 'high-voltage'],
  [/^(STEPS_|FASTENER)/, 'stored-energy'],
]

/** The cautions of some figures, each once, in the order of the table. */
export function cautionsFor(metrics: readonly string[], opened = false): readonly Caution[] {
  const ids = new Set(
    BY_METRIC.filter(([pattern]) => metrics.some((metric) => pattern.test(metric))).map(([, id]) => id),
  )
  if (opened) ids.add('cut-unit')
  return Object.values(CAUTIONS).filter(({ id }) => ids.has(id))
}
