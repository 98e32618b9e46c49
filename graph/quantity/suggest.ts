import { distance } from 'fastest-levenshtein'
import { symbolTable } from './customary.ts'
import { NAMED, SPELLINGS } from './unit-table.ts'

/** Spellings that are understood but not read, because they are wrong or say too little. */
const ADVICE: Readonly<Record<string, readonly [suggest: string, why: string]>> = {
  MFD: ['µF', 'an old marking for microfarad, never megafarad'],
  mfd: ['µF', 'an old marking for microfarad, never millifarad'],
  Mfd: ['µF', 'an old marking for microfarad'],
  MMFD: ['pF', 'an old marking for picofarad'],
  mmfd: ['pF', 'an old marking for picofarad'],
  mmF: ['pF', 'an old marking for picofarad'],
  UF: ['µF', ''],
  gpm: ['US gal/min', 'US or imperial gallons: say which'],
  psig: ['psi', 'gauge pressure: add the ambient pressure, or give the difference'],
  barg: ['bar', 'gauge pressure: add the ambient pressure, or give the difference'],
  psia: ['psi', 'absolute pressure is what is meant without a letter'],
  bara: ['bar', 'absolute pressure is what is meant without a letter'],
  µ: ['µm', ''],
  R: ['Ω', ''],
  lbm: ['lb', ''],
  kgs: ['kg', ''],
  mtr: ['m', ''],
  cms: ['cm', ''],
  Mhz: ['MHz', ''],
}

/** The unit a text was probably meant to be, or undefined: nothing is better than something absurd. */
export function closestUnit(
  text: string,
  wanted: (symbol: string) => boolean,
): { suggest: string; why: string } | undefined {
  const known = Object.hasOwn(ADVICE, text) ? ADVICE[text] : undefined
  if (known) return { suggest: known[0], why: known[1] }
  const folded = text.replaceAll('u', 'µ').toLowerCase()
  const all = commonSymbols()
  const sameLetters = all.filter(
    (symbol) => symbol.toLowerCase() === folded || symbol.toLowerCase() === text.toLowerCase(),
  )
  const near = sameLetters.length > 0 ? sameLetters : nearest(text, all)
  const best = near.find(wanted)
  return best === undefined
    ? undefined
    : { suggest: best, why: sameLetters.length > 0 ? 'small and capital letters differ' : '' }
}

/** Spellings within one slip of a short text, two of a longer one, and never more than a third of it. */
function nearest(text: string, all: readonly string[]): readonly string[] {
  const allowed = text.length < 3 ? 0 : text.length < 6 ? 1 : 2
  if (allowed === 0 || text.length > 24) return []
  const scored = all.map((symbol) => ({ symbol, far: slips(text, symbol) })).filter(({ far }) => far <= allowed)
  return scored.sort((a, b) => a.far - b.far).map(({ symbol }) => symbol)
}

/** Edit distance in which two letters swapped are one slip. */
function slips(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2 || b.length < 2) return Number.POSITIVE_INFINITY
  for (let i = 0; i + 1 < a.length; i++)
    if (a.slice(0, i) + (a[i + 1] ?? '') + (a[i] ?? '') + a.slice(i + 2) === b) return 1
  return distance(a, b)
}

/** Symbols worth offering, everyday ones first; a compound is only offered where it is listed here. */
function commonSymbols(): readonly string[] {
  common ??= [
    ...new Set([
      ...EVERYDAY,
      ...NAMED.map(({ symbol }) => symbol),
      ...everydayPrefixed(),
      ...Object.keys(SPELLINGS).filter((word) => /^[A-Za-z]{4,}$/.test(word)),
    ]),
  ]
  return common
}

let common: readonly string[] | undefined

const EVERYDAY =
  'mm µm m cm kg g mg s ms µs ns min h A mA kA V kV mV Ω mΩ kΩ MΩ F µF nF pF H µH nH mH W kW mW MW J mJ kJ Hz kHz MHz GHz K °C °F N kN N·m Pa kPa bar mbar MPa psi L mL L/min m³/h cm² mm² cm³ mm³ K/W W/(m·K) W/(m²·K) W/cm² A/mm² A/cm² kW/L kW/kg kV/µs V/ns kA/µs A/µs µF/kW mm²/kW g/cm³ kg/m³ J/(kg·K) Ω/V kV/mm T mT deg rad dB px % ppm mil in ft oz lb C nC pC S'.split(
    ' ',
  )

function everydayPrefixed(): readonly string[] {
  return [...symbolTable().values()].flatMap(({ symbol, code }) =>
    symbol !== null && /^[MGkmunpcd]/.test(code) ? [symbol] : [],
  )
}
