import type { View } from '../../graph/view.ts'
import { type Method, outOfRange } from '../physics/method.ts'

/**
 * Computes a method and says where its validated range was left: the result is then OUT_OF_RANGE, with the argument,
 * its value and the range in words.
 *
 * @throws {DomainError} on an argument that cannot exist; the evaluator makes a lack of it
 */
export function apply<I extends Readonly<Record<string, unknown>>, O extends Readonly<Record<string, unknown>>>(
  view: View,
  method: Method<I, O>,
  inputs: I,
): O {
  const outputs = method.compute(inputs)
  sayBeyond(view, method, { ...inputs, ...outputs })
  return outputs
}

/** The same of values that were computed before. */
export function sayBeyond<I, O extends Readonly<Record<string, unknown>>>(
  view: View,
  method: Method<I, O>,
  values: Readonly<Record<string, unknown>>,
): void {
  for (const name of outOfRange(method.valid, values)) {
    const [low, high] = method.valid![name]!
    view.beyond(`${name} ${short(values[name])} lies outside ${short(low)} … ${short(high)} (${method.title})`)
  }
}

function short(value: unknown): string {
  if (Array.isArray(value)) return value.map(short).join(', ')
  return typeof value === 'number' ? String(Number(value.toPrecision(4))) : String(value)
}
