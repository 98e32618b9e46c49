/** How a quantity is usually had at the bench: which class of instrument, and about how long with setting up. */
export interface Way {
  readonly instrument: string
  readonly minutes: number
}

const way = (instrument: string, minutes: number): Way => ({ instrument, minutes })

const DATA_SHEET = 'marking or data sheet'
const DOUBLE_PULSE = 'double-pulse test by qualified persons, or data sheet'

/**
 * The table, common practice of a teardown bench; times are of the order of, with the part at hand. What a property is
 * called tells more than its dimension: a film of grease is no work for a caliper. The first that fits is taken.
 */
const BY_NAME: readonly (readonly [RegExp, Way])[] = [
  [/(^|\/)(film|pad|layer|copper)[^/]*\/thickness$|cord-diameter$/, way('micrometer, or film gauge', 5)],
  [/gap$/, way('feeler gauge', 5)],
  [/roughness$/, way('surface roughness gauge', 10)],
  [/angle$/, way('photo to scale', 5)],
  [/(material|grade|finish|dielectric)$/, way('density by weighing in water, and X-ray fluorescence', 30)],
  [/gate-charge(\/at\/.*)?$/, way('gate-charge test on a loose device, or data sheet', 60)],
  [/(turn-on|turn-off|recovery)-energy(\/at\/.*)?$/, way(DOUBLE_PULSE, 240)],
  [/(slope|on)-resistance$|(threshold|forward)-voltage$/, way('curve tracer, or data sheet', 30)],
  [/-limit$|^operating-points\/.*\/duration$/, way(DATA_SHEET, 5)],
  [/rated-[a-z-]+$/, way(DATA_SHEET, 5)],
  [/(modulation-index|power-factor)$/, way('power analyser on a load bench', 120)],
  [/stacking-factor$/, way('balance and caliper: mass over density and outline', 20)],
  [/permeability$/, way('component bridge with counted turns', 20)],
  [/permittivity$/, way('component bridge on a bare patch of the laminate', 30)],
  [/glycol-by-(volume|mass)$/, way('refractometer', 5)],
  [/loss-factor$/, way('component bridge', 15)],
  [/thermal-resistance$/, way('heated-plate comparison', 120)],
]

const BY_DIMENSION: Readonly<Record<string, Way>> = {
  count: way('counting, with photos', 5),
  length: way('caliper', 3),
  area: way('caliper', 4),
  volume: way('caliper, or displacement in water', 15),
  mass: way('balance', 3),
  time: way('stopwatch, or data sheet', 5),
  capacitance: way('component bridge, proved dead and discharged', 10),
  inductance: way('component bridge with fixture correction', 15),
  resistance: way('four-wire meter', 10),
  resistivity: way('four-wire meter on a piece of known length and section', 15),
  voltage: way('marking or data sheet; on a live unit only a qualified person', 5),
  current: way(DATA_SHEET, 5),
  charge: way(DATA_SHEET, 5),
  energy: way(DOUBLE_PULSE, 240),
  power: way('power analyser on a load bench, or data sheet', 120),
  'current-slope': way(DOUBLE_PULSE, 240),
  'voltage-slope': way(DOUBLE_PULSE, 240),
  'flux-density': way('search coil and integrator, or data sheet', 60),
  'core-loss-density': way('power analyser with a sense winding, or data sheet', 120),
  flow: way('flow meter on a coolant bench', 60),
  pressure: way('differential pressure gauge on a coolant bench', 60),
  temperature: way('thermocouple', 15),
  'temperature-coefficient': way('component bridge or meter in an oven, at two temperatures', 180),
  frequency: way('oscilloscope; on a live unit only a qualified person', 30),
  density: way('balance, dry and in water', 15),
  'specific-heat': way('calorimeter on a sample, or handbook of the material', 120),
  'thermal-conductivity': way('sample to a conductivity bench (ASTM D5470)', 240),
  'thermal-resistance': way('heated-plate comparison', 120),
  'film-coefficient': way('heated block on a coolant bench', 240),
}

/** Words at the end of a path that tell the dimension where nothing is recorded yet. */
const DIMENSION_OF: readonly (readonly [RegExp, string])[] = [
  [/count(\/built|\/found)?$/, 'count'],
  [/(length|width|height|thickness|gap|diameter|depth|pitch|distance|\/[xyz])$/, 'length'],
  [/area$/, 'area'],
  [/volume$/, 'volume'],
  [/(mass|mass-of-all)$/, 'mass'],
  [/capacitance$/, 'capacitance'],
  [/(inductance|leakage)$/, 'inductance'],
  [/(thermal-|^|\/)conductivity$/, 'thermal-conductivity'],
  [/specific-heat$/, 'specific-heat'],
  [/density$/, 'density'],
  [/(loss|power|loss\/(peak|continuous))$/, 'power'],
  [/(voltage|voltage\/(min|nominal|max))$/, 'voltage'],
  [/slope$/, 'current-slope'],
  [/current$/, 'current'],
  [/flow$/, 'flow'],
  [/pressure$/, 'pressure'],
  [/(inlet|outlet|temperature|air|frame)$/, 'temperature'],
  [/film-coefficient$/, 'film-coefficient'],
  [/resistance$/, 'resistance'],
  [/frequency$/, 'frequency'],
]

/** Of a question, which is no property: what settles it. */
const BY_QUESTION: readonly (readonly [RegExp, Way])[] = [
  [/volume/, way('balance, or displacement in water', 60)],
  [
    /\b(nets?|terminals?|rails?|gates?|across|bridge|output|capacitors|loops?)\b/,
    way('continuity meter on a unit proved dead', 15),
  ],
  [/./, way('eyes, lamp and camera', 15)],
]

/** Instrument and time for a property, by its name or dimension, or for a question; null when nothing is known. */
export function wayOfMeasuring(path: string, dimension: string | undefined): Way | null {
  const first = (ways: readonly (readonly [RegExp, Way])[]): Way | null =>
    ways.find(([word]) => word.test(path))?.[1] ?? null
  if (/[ =]/.test(path) || !path.includes('/')) return first(BY_QUESTION)
  const known = dimension ?? DIMENSION_OF.find(([word]) => word.test(path))?.[1]
  return first(BY_NAME) ?? (known === undefined ? null : (BY_DIMENSION[known] ?? null))
}
