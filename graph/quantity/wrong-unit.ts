import { type Dimension, fieldOf, nameOf, sameExponents } from './dimension.ts'
import type { Numeral } from './numeral.ts'
import { refuse } from './reading.ts'
import type { Unit, UnitProblem } from './unit.ts'
import { unitOf } from './units.ts'

const article = (name: string) => (name.startsWith('a ') ? name : /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`)

/** The unit of a number without one: one, where a pure number is asked for; else refused. */
export function missingUnit({ value, text }: Numeral, dimension: Dimension | undefined, at: number): Unit {
  if (dimension === 'fraction' && Math.abs(value) > 1) {
    return refuse(at, `"${text}" as a share is more than the whole`, `write ${text} % if that is meant`, `${text} %`)
  }
  if (dimension === undefined || dimension === 'one' || dimension === 'fraction' || dimension === 'count')
    return unitOf('1')
  const { name, offer } = fieldOf(dimension)
  return refuse(
    at,
    `"${text}" has no unit, but ${article(name)} is asked for here`,
    `add the unit: ${text} ${offer.join(`, ${text} `)}`,
  )
}

/** Refuses a unit that measures something else than the field asks for. */
export function mismatch(text: string, unit: Unit, dimension: Dimension, at: number): never {
  const { name, offer, si } = fieldOf(dimension)
  const found = unit.code === 'K' ? 'temperature' : nameOf(unit)
  const units = `${name} is given in ${offer.join(', ')}`
  const marking = capacitorCode(text)
  if (marking && dimension === 'capacitance') {
    refuse(
      at,
      `"${text}" is in ${unit.symbol} (${found}), not a capacitance; as a marking it is a code for ${marking}`,
      `write ${marking} (marked), and the code under marking`,
    )
  }
  if (sameExponents(unit, si)) {
    refuse(
      at,
      `"${text}" is ${article(found)} (${unit.symbol}), but ${article(name)} is asked for here: they share a dimension and are not the same`,
      units,
    )
  }
  const celsius = unit.code === 'C' && (dimension === 'temperature' || dimension === 'temperature-difference')
  refuse(
    at,
    `"${text}" is ${article(found)} (${unit.symbol}), but ${article(name)} is asked for here`,
    celsius ? 'C is the coulomb: write °C' : units,
    celsius ? '°C' : undefined,
  )
}

/** Symbols that are units, but stand for something else nearly every time they are written. */
const SLIPS: Readonly<Record<string, string>> = {
  MF: 'µF',
  GF: 'µF',
  PF: 'pF',
  MH: 'mH',
  PH: 'pH',
  Mm: 'mm',
  Ms: 'ms',
  ML: 'mL',
  mHz: 'MHz',
  Mg: 'mg',
}

/** Refuses a megafarad and its like: a wrong letter that is a unit by chance is worse than one that is none. */
export function refuseSlip(written: string, text: string, at: number): void {
  const meant = Object.hasOwn(SLIPS, written) ? SLIPS[written] : undefined
  if (meant === undefined) return
  const times = (unitOf(written).factor / unitOf(meant).factor).toExponential(0)
  refuse(
    at,
    `"${text}": ${written} is ${times} times ${meant}`,
    `did you mean ${meant}? If not, write it with a power of ten`,
    meant,
  )
}

const NOTE_WORD =
  /\s\(?(?:measured|marked|published|reported|computed|judged|assumed|possible|likely|near-certain|with|by|on|from|photo|rests[ -]on|k ?=|n ?=)(?=\s|$|\)|\d)/

/** Refuses a unit text that was not understood; where it shows what was meant, says how to write that. */
export function unknownUnit(
  written: string,
  { value, text }: Numeral,
  problem: UnitProblem,
  at: number,
  dimension: Dimension | undefined,
): never {
  const column = `${problem.what} at column ${at + 1}`
  const unit = written.split(/\s/)[0] ?? ''
  const say = (mend: string, suggest?: string) => refuse(at, column, mend, suggest)
  if (NOTE_WORD.test(written)) say(`a note stands behind a comma or in brackets: ${text} ${unit}, measured`)
  if (/^x\b/i.test(written)) say('a number is missing behind the x')
  const per = /^(\S+) per (\S+)$/.exec(written)
  if (per) say(`write ${per[1]}/${per[2]} for units, or ${text} ${per[1]} alone`)
  if (/\sat\s/.test(written)) say(`a condition stands in the long form: { value: ${text} ${unit}, at: { … } }`)
  if (/\smax(?:imum|\.)?$/i.test(written)) say(`write "at most ${text} ${unit}"`)
  if (/\smin(?:imum|\.)?$/i.test(written)) say(`write "at least ${text} ${unit}"`)
  if (/\s(?:typ(?:ical|\.)?|nom(?:inal|\.)?)$/i.test(written))
    say(`write the value and its basis: ${text} ${unit}, published`)
  if (/^\d?σ/.test(written)) say('write the uncertainty and its coverage factor: 12.4 ± 0.6 mm (k=3)')
  if (/^\d|\s\d/.test(written))
    say('two numbers need something between them: 62 x 48 mm, 0 / 120 / 250 mm, 8..10 mm, 1.5 × 10⁻³ H')
  const coded = /^([RkKMmµunp])(\d{1,3})$/.exec(written)
  if (coded && Number.isInteger(value)) {
    const letter = (coded[1] ?? '').replace('u', 'µ').replace('K', 'k')
    const base = dimension ? fieldOf(dimension).si.symbol : '… (with the unit)'
    say(`a code of a marking (IEC 60062): write ${text}.${coded[2]} ${letter === 'R' ? 'Ω' : letter + base}, marked`)
  }
  return say(problem.mend, problem.suggest)
}

/** Tolerance letters of IEC 60062 in % (from memory). */
const LETTERS: Readonly<Record<string, number>> = { F: 1, G: 2, J: 5, K: 10, M: 20 }

/** `104 K` on a capacitor: two digits and a power of ten in picofarads, a letter for the tolerance (IEC 60062, from memory). */
function capacitorCode(text: string): string | undefined {
  const [, digits, power, letter] = /^\s*(\d\d)(\d) ?([FGJKM])\b/.exec(text) ?? []
  if (digits === undefined || power === undefined || letter === undefined) return undefined
  const picofarads = Number(digits) * 10 ** Number(power)
  const [value, unit] =
    picofarads >= 1e6 ? [picofarads / 1e6, 'µF'] : picofarads >= 1e3 ? [picofarads / 1e3, 'nF'] : [picofarads, 'pF']
  return `${value} ${unit} ± ${LETTERS[letter]} %`
}
