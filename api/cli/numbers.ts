import { roundToUncertainty } from '../../graph/quantity/print.ts'
import type { FigureHead } from '../answers.ts'

/** Digits of a number that nobody said how well it is known. */
const DIGITS_UNKNOWN = 4

/** As many digits as the uncertainty bears; four where there is none, all of a whole number. */
export function numberText(value: number | null, uncertainty: number | null = null): string {
  if (value === null) return ''
  if (uncertainty !== null && uncertainty > 0) return roundToUncertainty(value, uncertainty).value
  return Number.isInteger(value) && Math.abs(value) < 1e9
    ? String(value)
    : plain(Number(value.toPrecision(DIGITS_UNKNOWN)))
}

/** `4.2 … 5.9`: both ends to the digits of the uncertainty. */
export function intervalText({ low, high, uncertainty }: Pick<FigureHead, 'low' | 'high' | 'uncertainty'>): string {
  if (low === null || high === null || low === high) return ''
  return `${numberText(low, uncertainty)} … ${numberText(high, uncertainty)}`
}

export function uncertaintyText({ value, uncertainty }: Pick<FigureHead, 'value' | 'uncertainty'>): string {
  if (uncertainty === null || value === null || uncertainty === 0) return ''
  return roundToUncertainty(value, uncertainty).u
}

/** `12.41(17)`: the value with its standard uncertainty in its last digits (JCGM 100:2008 7.2.2); null where there is none. */
export function conciseText({ value, uncertainty }: Pick<FigureHead, 'value' | 'uncertainty'>): string | null {
  if (value === null || uncertainty === null || uncertainty === 0) return null
  return roundToUncertainty(value, uncertainty).concise
}

export function shareText(share: number | null): string {
  return share === null ? '' : `${(100 * share).toFixed(1)} %`
}

function plain(value: number): string {
  return Math.abs(value) >= 1e-4 && Math.abs(value) < 1e9 ? String(value) : value.toExponential(DIGITS_UNKNOWN - 1)
}

/** A reason may list hundreds of gaps: a table tells how the first begins, the working tells all. */
export function shortened(reason: string, most = 90): string {
  const [first = '', ...rest] = reason.split('; ')
  const begun = first.length > most ? `${first.slice(0, most - 1)}…` : first
  return rest.length > 0 ? `${begun} (and ${rest.length} more)` : begun
}
