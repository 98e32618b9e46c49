import type { Edit } from '../graph/edit.ts'
import type { Dimension } from '../graph/quantity/dimension.ts'
import { asPath, type Path } from '../graph/quantity/quantity.ts'
import { DEFAULT_SETTINGS, type Settings } from '../graph/settings.ts'
import { quantityFor } from './quantity-input.ts'

/** Conditions travel with every evaluation: settings choose paths, numeric ones are edits of the recorded operating point. */
export interface Conditions {
  readonly settings: Settings
  /** Numeric conditions by name, as typed. */
  readonly numeric: Readonly<Partial<Record<NumericName, string>>>
}

export const DEFAULT_CONDITIONS: Conditions = { settings: DEFAULT_SETTINGS, numeric: {} }

/** The words each setting allows, first the default. `boundary` takes any id of the sheet. */
export const SETTING_WORDS = {
  power: ['PEAK', 'CONTINUOUS'],
  volume: ['ENVELOPE', 'HULL', 'DISPLACED', 'PARTS'],
  voltage: ['MAX', 'NOMINAL', 'RATED'],
  counts: ['BUILT', 'FOUND'],
} as const

export const SETTING_ABOUT = {
  power: 'Which operating point: peak (with its duration) or continuous.',
  volume: 'Which volume: envelope box, outer hull, displaced, or the sum of part volumes.',
  voltage: 'Which DC voltage: the highest allowed, the nominal, or the lowest rated capacitor across the link.',
  counts: 'Parts as built, or as found when it was opened.',
  boundary: 'Which boundary of the sheet; whole is the specimen itself.',
} as const

interface NumericCondition {
  readonly dimension: Dimension
  readonly about: string
  readonly paths: (settings: Settings, circuits: readonly string[]) => readonly string[]
}

const point = (name: string) => (settings: Settings) => [`operating-points/${settings.power.toLowerCase()}/${name}`]
const coolant = (name: string) => (_: Settings, circuits: readonly string[]) =>
  circuits.map((path) => `${path}/${name}`)

/** Numeric conditions: what each one is, and which recorded values it stands in for. */
export const NUMERIC = {
  coolantInlet: { dimension: 'temperature', about: 'Coolant temperature at the inlet.', paths: coolant('inlet') },
  coolantFlow: { dimension: 'flow', about: 'Coolant flow through the unit.', paths: coolant('flow') },
  ambient: { dimension: 'temperature', about: 'Air temperature around the unit.', paths: () => ['ambient/air'] },
  frame: { dimension: 'temperature', about: 'Temperature of what it is bolted to.', paths: () => ['ambient/frame'] },
  phaseCurrent: { dimension: 'current', about: 'Phase current, rms.', paths: point('phase-current') },
  modulationIndex: {
    dimension: 'one',
    about: 'Peak phase voltage over half the link voltage.',
    paths: point('modulation-index'),
  },
  powerFactor: { dimension: 'one', about: 'Cosine of the displacement angle.', paths: point('power-factor') },
  switchingFrequency: { dimension: 'frequency', about: 'Switching frequency.', paths: point('switching-frequency') },
  conductorTemperature: {
    dimension: 'temperature',
    about: 'Temperature of the bars.',
    paths: point('conductor-temperature'),
  },
} as const satisfies Record<string, NumericCondition>

export type NumericName = keyof typeof NUMERIC

/** A condition that cannot be used, with what mends it. */
export class ConditionError extends Error {
  readonly mend: string

  constructor(what: string, mend: string) {
    super(what)
    this.name = 'ConditionError'
    this.mend = mend
  }
}

/**
 * Reads `power=continuous`, `coolant-inlet=65 °C`, `boundary=inverter-stage`: kebab-case and camelCase alike.
 * @throws ConditionError on an unknown name or word
 */
export function parseConditions(pairs: Iterable<readonly [string, string]>): Conditions {
  const settings: Record<string, string> = { ...DEFAULT_SETTINGS }
  const numeric: Partial<Record<NumericName, string>> = {}
  for (const [typed, value] of pairs) {
    const name = camel(typed)
    if (name === 'boundary') settings[name] = value
    else if (Object.hasOwn(SETTING_WORDS, name)) settings[name] = word(name as keyof typeof SETTING_WORDS, value)
    else if (Object.hasOwn(NUMERIC, name)) numeric[name as NumericName] = value
    else throw new ConditionError(`no condition "${typed}"`, `known conditions: ${conditionNames().join(', ')}`)
  }
  return { settings: settings as unknown as Settings, numeric }
}

export function conditionNames(): readonly string[] {
  return [...Object.keys(SETTING_WORDS), 'boundary', ...Object.keys(NUMERIC)].map(kebab)
}

function word(name: keyof typeof SETTING_WORDS, value: string): string {
  const upper = value.toUpperCase().replaceAll('-', '_')
  const words: readonly string[] = SETTING_WORDS[name]
  if (words.includes(upper)) return upper
  throw new ConditionError(
    `${name} cannot be "${value}"`,
    `one of: ${words.map((one) => one.toLowerCase()).join(', ')}`,
  )
}

/** The edits that numeric conditions stand for. @throws QuantityInputError on a text that is no such quantity */
export function editsOf(conditions: Conditions, circuits: readonly Path[]): readonly Edit[] {
  return Object.entries(conditions.numeric).flatMap(([name, text]) => {
    const { dimension, paths } = NUMERIC[name as NumericName]
    return paths(conditions.settings, circuits).map((path) =>
      quantityFor(asPath(path), text, dimension, `condition ${kebab(name)}`, 'corpus'),
    )
  })
}

/** One text for equal conditions: what "comparable" is decided by. */
export function conditionsKey(conditions: Conditions): string {
  const settings = Object.entries(conditions.settings)
    .filter(([name, value]) => value !== DEFAULT_SETTINGS[name as keyof Settings])
    .map(([name, value]) => `${kebab(name)}=${value.toLowerCase()}`)
  const numeric = Object.entries(conditions.numeric).map(([name, text]) => `${kebab(name)}=${text}`)
  return [...settings, ...numeric].sort().join(' ') || 'default'
}

const camel = (text: string): string => text.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())
const kebab = (text: string): string => text.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)
