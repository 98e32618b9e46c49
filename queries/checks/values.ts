import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { figureById } from '../figures/registry.ts'
import type { Evaluator } from './check.ts'

interface Value {
  readonly path: Path
  readonly value: number
  readonly low: number
  readonly high: number
}

/** Every value of a figure in this record, in the unit of the figure. */
export function valuesOf(view: View, evaluator: Evaluator, metric: string): readonly Value[] {
  const figure = figureById(metric)
  return figure.subjects(view).paths.flatMap((path): readonly Value[] => {
    const { value, low, high } = evaluator.evaluate(figure, path)
    return value === null || low === null || high === null ? [] : [{ path, value, low, high }]
  })
}
