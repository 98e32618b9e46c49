import type { Conditions } from '../../queries/conditions.ts'

/** The conditions of an answer in one line: all settings, then the numbers that were set. */
export function conditionsText({ settings, numeric }: Conditions): string {
  const words = Object.entries(settings).map(([name, value]) => `${name} ${value.toLowerCase()}`)
  const numbers = Object.entries(numeric).map(([name, value]) => `${name} ${value}`)
  return `conditions: ${[...words, ...numbers].join(', ')}`
}

/** Said beside a changed value that was typed without a tolerance. */
export const TAKEN_AS_EXACT = 'taken as exact; write ± to give it a width'
