import { DIMENSIONS } from '../graph/quantity/dimension.ts'

/** How a quantity is usually had at the bench: which class of instrument, and about how long with setting up. */
export interface Way {
  readonly instrument: string
  readonly minutes: number
}

/** Common practice of a teardown bench; times are of the order of, with the part at hand. */
const BY_DIMENSION: Readonly<Record<string, Way>> = {
  length: { instrument: 'caliper', minutes: 3 },
  area: { instrument: 'caliper', minutes: 4 },
  volume: { instrument: 'caliper, or displacement in water', minutes: 15 },
  mass: { instrument: 'balance', minutes: 3 },
  capacitance: { instrument: 'component bridge, proved dead and discharged', minutes: 10 },
  inductance: { instrument: 'component bridge with fixture correction', minutes: 15 },
  resistance: { instrument: 'four-wire meter', minutes: 10 },
  voltage: { instrument: 'marking or data sheet; on a live unit only a qualified person', minutes: 5 },
  current: { instrument: 'marking or data sheet', minutes: 5 },
  power: { instrument: 'power analyser on a load bench, or data sheet', minutes: 120 },
  flow: { instrument: 'flow meter on a coolant bench', minutes: 60 },
  pressure: { instrument: 'differential pressure gauge on a coolant bench', minutes: 60 },
  temperature: { instrument: 'thermocouple', minutes: 15 },
  frequency: { instrument: 'oscilloscope; on a live unit only a qualified person', minutes: 30 },
  'thermal-conductivity': { instrument: 'sample to a conductivity bench (ASTM D5470)', minutes: 240 },
  'thermal-resistance': { instrument: 'heated-plate comparison', minutes: 120 },
}

/** Words at the end of a path that tell the dimension where nothing is recorded yet. */
const BY_WORD: readonly (readonly [RegExp, string])[] = [
  [/thermal-resistance$/, 'thermal-resistance'],
  [/(length|width|height|thickness|gap|diameter|depth|pitch|distance|\/[xyz])$/, 'length'],
  [/(area)$/, 'area'],
  [/(volume)$/, 'volume'],
  [/(mass|mass-of-all)$/, 'mass'],
  [/capacitance$/, 'capacitance'],
  [/(inductance|leakage)$/, 'inductance'],
  [/(conductivity)$/, 'thermal-conductivity'],
  [/(loss|power|loss\/(peak|continuous))$/, 'power'],
  [/(voltage|voltage\/(min|nominal|max))$/, 'voltage'],
  [/current$/, 'current'],
  [/flow$/, 'flow'],
  [/(inlet|outlet|temperature|air|frame)$/, 'temperature'],
  [/resistance$/, 'resistance'],
  [/frequency$/, 'frequency'],
]

/** Instrument and time for a property, by its dimension or by the last word of its path; null when nothing is known. */
export function wayOfMeasuring(path: string, dimension: string | undefined): Way | null {
  const known = dimension ?? BY_WORD.find(([word]) => word.test(path))?.[1]
  return (known !== undefined && DIMENSIONS.some((one) => one === known) && BY_DIMENSION[known]) || null
}
