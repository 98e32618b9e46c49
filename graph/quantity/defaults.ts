import type { Basis } from './basis.ts'
import type { Dimension } from './dimension.ts'
import type { Own } from './reading.ts'

/** A documented width for a value that states none: a relative or an absolute half-width, read as limits. */
interface Default {
  /** Half-width relative to the value [1]. */
  readonly relative?: number
  /** Half-width in SI. */
  readonly absolute?: number
  /** Why this width, and where it comes from. */
  readonly why: string
}

/** Half-widths by dimension, and `else` for all others. */
export type BasisDefaults = Readonly<Partial<Record<Dimension, Default>>> & { readonly else: Default }

/** What a sheet may set instead. */
export type DefaultOverrides = Readonly<
  Partial<
    Record<Basis, Readonly<Partial<Record<Dimension | 'else', Omit<Default, 'why'> & { readonly why?: string }>>>>
  >
>

const share = (relative: number, why: string): Default => ({ relative, why })
const width = (absolute: number, why: string): Default => ({ absolute, why })

/**
 * Default uncertainty per basis and dimension, as limits (rectangular). It is used only where a value states none, and every
 * figure says that it was. Widths are common practice of the bench and the trade unless a source is named; they are wide on
 * purpose, so that stating a tolerance is always worth it. A sheet can override each.
 */
export const DEFAULTS: Readonly<Record<Basis, BasisDefaults>> = {
  measured: {
    length: width(1e-4, 'caliper on a real edge, common practice'),
    area: share(0.02, 'two sides by caliper, common practice'),
    volume: share(0.03, 'water displacement or three sides, common practice'),
    mass: share(0.005, 'bench balance, common practice'),
    temperature: width(1.5, 'thermocouple of tolerance class 1, IEC 60584-1 (from memory): ± 1.5 °C up to 375 °C'),
    'temperature-difference': width(0.5, 'two sensors of one batch, common practice'),
    voltage: share(0.01, 'hand-held multimeter, common practice'),
    current: share(0.02, 'clamp or shunt, common practice'),
    resistance: share(0.01, 'multimeter; four wires below 1 Ω, common practice'),
    capacitance: share(0.02, 'component meter, common practice'),
    inductance: share(0.03, 'component meter with its leads taken off, common practice'),
    power: share(0.02, 'power meter, common practice'),
    frequency: share(0.001, 'oscilloscope time base, common practice'),
    flow: share(0.03, 'turbine or vortex meter, common practice'),
    pressure: share(0.02, 'gauge of class 1.6 to 2.5 near half scale, common practice'),
    time: width(0.5, 'stop watch by hand, common practice'),
    angle: width(Math.PI / 180, 'protractor, one degree, common practice'),
    fraction: width(0.01, 'one point of a per cent, common practice'),
    else: share(0.03, 'common practice'),
  },
  marked: {
    capacitance: share(0.2, 'widest usual tolerance of a marking without a letter (M of IEC 60062, from memory)'),
    resistance: share(0.05, 'usual tolerance without a letter (J of IEC 60062, from memory)'),
    inductance: share(0.2, 'widest usual tolerance of a marking without a letter (M of IEC 60062, from memory)'),
    voltage: share(0.02, 'a rating as printed, rounded, common practice'),
    current: share(0.05, 'a rating as printed, rounded, common practice'),
    power: share(0.05, 'a rating as printed, rounded, common practice'),
    mass: share(0.03, 'a label mass, common practice'),
    length: share(0.02, 'a printed size, common practice'),
    fraction: width(0.02, 'two points of a per cent, common practice'),
    temperature: width(2, 'a printed limit, common practice'),
    else: share(0.1, 'common practice'),
  },
  published: {
    power: share(0.03, 'a data-sheet rating, rounded, common practice'),
    'apparent-power': share(0.03, 'a data-sheet rating, rounded, common practice'),
    voltage: share(0.02, 'a data-sheet rating, common practice'),
    current: share(0.03, 'a data-sheet rating, common practice'),
    mass: share(0.03, 'a data-sheet mass, common practice'),
    length: share(0.01, 'an outline drawing without tolerances, common practice'),
    volume: share(0.05, 'from outline dimensions, common practice'),
    capacitance: share(0.1, 'film capacitors, common practice'),
    inductance: share(0.2, 'stray inductances depend on how they were measured, common practice'),
    resistance: share(0.15, 'typical value of a data sheet, common practice'),
    'thermal-resistance': share(0.15, 'typical value of a data sheet, common practice'),
    'thermal-conductivity': share(0.1, 'typical value of a data sheet, common practice'),
    temperature: width(2, 'a stated condition, common practice'),
    'temperature-difference': width(2, 'a stated condition, common practice'),
    fraction: width(0.01, 'one point of a per cent, common practice'),
    energy: share(0.2, 'switching energies scatter with the set-up, common practice'),
    charge: share(0.1, 'typical value of a data sheet, common practice'),
    time: share(0.05, 'common practice'),
    else: share(0.1, 'no tolerance given, common practice'),
  },
  reported: {
    mass: share(0.02, 'somebody else’s balance, common practice'),
    length: share(0.02, 'somebody else’s caliper, common practice'),
    temperature: width(3, 'another laboratory, set-up unknown, common practice'),
    'temperature-difference': width(2, 'another laboratory, set-up unknown, common practice'),
    fraction: width(0.02, 'two points of a per cent, common practice'),
    else: share(0.1, 'another laboratory, set-up unknown, common practice'),
  },
  computed: {
    temperature: width(3, 'a calculation without its budget, common practice'),
    'temperature-difference': width(2, 'a calculation without its budget, common practice'),
    fraction: width(0.02, 'two points of a per cent, common practice'),
    else: share(0.1, 'a calculation that states no uncertainty, common practice'),
  },
  judged: {
    length: share(0.15, 'by eye against a known size, common practice'),
    area: share(0.25, 'two lengths by eye, common practice'),
    volume: share(0.35, 'three lengths by eye, common practice'),
    mass: share(0.25, 'in the hand, common practice'),
    temperature: width(10, 'by reasoning, common practice'),
    'temperature-difference': width(5, 'by reasoning, common practice'),
    angle: width((5 * Math.PI) / 180, 'by eye, five degrees, common practice'),
    voltage: share(0.1, 'by reasoning from the rating, common practice'),
    one: share(0.1, 'a factor of a handbook or the trade, common practice'),
    fraction: width(0.1, 'ten points of a per cent, common practice'),
    else: share(0.3, 'by eye or by reasoning, common practice'),
  },
  assumed: {
    length: share(0.3, 'carried over or chosen, common practice'),
    temperature: width(10, 'chosen to get on, common practice'),
    'temperature-difference': width(5, 'chosen to get on, common practice'),
    voltage: share(0.1, 'chosen from the class of the unit, common practice'),
    frequency: share(0.3, 'chosen to get on, common practice'),
    mass: share(0.3, 'carried over or chosen, common practice'),
    angle: width((10 * Math.PI) / 180, 'chosen, ten degrees, common practice'),
    one: share(0.1, 'a factor of a handbook or the trade, common practice'),
    fraction: width(0.1, 'ten points of a per cent, common practice'),
    'thermal-conductivity': share(0.3, 'a handbook range of the material, common practice'),
    pressure: share(0.2, 'chosen to get on, common practice'),
    else: share(0.3, 'chosen to get on, common practice'),
  },
}

/** A default as it is used: the deviation, and the words for the budget. */
export interface DefaultOwn {
  readonly own: Own
  readonly about: string
}

/**
 * The deviation of a value that states none. Of an indication (measured, reported) never narrower than half of its last digit
 * (JCGM 100:2008 F.2.2.1); a share of zero would be no doubt at all, so a zero gets that half digit too. Null for a count.
 */
export function defaultOwn(
  {
    value,
    step,
    basis,
    dimension,
  }: {
    readonly value: number
    readonly step?: number
    readonly basis: Basis
    readonly dimension?: Dimension | undefined
  },
  overrides: DefaultOverrides = {},
): DefaultOwn | null {
  if (dimension === 'count' || dimension === 'pixels') return null
  return widthOf(chosenDefault(basis, dimension, overrides), value, step ?? 0, basis)
}

/** The sheet's entry for the dimension, then the table's, then what stands for all others. */
function chosenDefault(basis: Basis, dimension: Dimension | undefined, overrides: DefaultOverrides): Default {
  const [sheet, table] = [overrides[basis] ?? {}, DEFAULTS[basis]]
  const own = (dimension && sheet[dimension]) ?? (dimension && table[dimension] ? undefined : sheet.else)
  if (own) return { why: 'set by the sheet', ...own }
  return (dimension && table[dimension]) ?? table.else
}

/** Where digits are indications, half of the last one is a doubt of its own; a rating of 5 V is not 4.5 to 5.5 V. */
const INDICATED: readonly Basis[] = ['measured', 'reported']

function widthOf({ relative, absolute, why }: Default, value: number, step: number, basis: Basis): DefaultOwn {
  const half = absolute ?? (relative ?? 0) * Math.abs(value)
  const lastDigit = INDICATED.includes(basis) || half === 0 ? step / 2 : 0
  if (absolute === undefined && relative !== undefined && half > lastDigit) {
    return {
      own: { mode: 'scale', shape: limits(relative), why: 'limits' },
      about: `default of ${basis}: ± ${+(relative * 100).toPrecision(3)} %, ${why}`,
    }
  }
  const widest = Math.max(half, lastDigit)
  const reason = half >= lastDigit ? why : 'half of the last digit written'
  return { own: { mode: 'add', shape: limits(widest), why: 'limits' }, about: `default of ${basis}: ${reason}` }
}

const limits = (half: number) => ({ kind: 'rectangular', low: -half, high: half }) as const

/** Standard uncertainty of a display that shows steps of this size: step/√12 (JCGM 100:2008 F.2.2.1). @example resolutionUncertainty(0.1) // 0.0289 */
export function resolutionUncertainty(step: number): number {
  return step / Math.sqrt(12)
}
