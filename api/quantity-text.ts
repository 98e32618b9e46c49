import type { Dimension } from '../graph/quantity/dimension.ts'
import { parseQuantity } from '../graph/quantity/parse.ts'
import { Fault } from './errors.ts'

/** One number in SI from the text of a quantity, as in sheets: "100 µF", "65 °C". */
export function siOf(text: string, dimension?: Dimension, what = `"${text}"`): number {
  const read = parseQuantity(text, { kind: 'scalar', ...(dimension && { dimension }) })
  if (!read.ok) {
    const [first] = read.complaints
    throw new Fault('QUANTITY', `${what}: ${first?.what ?? 'no quantity'}`, first?.mend, { text })
  }
  if (read.form !== 'scalar') throw new Fault('QUANTITY', `${what} is not one number`, 'write a number with its unit')
  return read.value
}
