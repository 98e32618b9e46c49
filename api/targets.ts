import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { load } from 'js-yaml'
import { z } from 'zod'
import { fromSI } from '../graph/quantity/units.ts'
import { figureById, hasFigure } from '../queries/figures/registry.ts'
import { projectFolder } from './place.ts'
import { siOf } from './quantity-text.ts'

const targetFile = z.strictObject({
  'lidoff-targets': z.literal(1),
  targets: z.array(
    z.strictObject({
      id: z.string(),
      metric: z.string(),
      value: z.string(),
      conditions: z.record(z.string(), z.string()).optional(),
      source: z.string(),
      year: z.number(),
      note: z.string().optional(),
    }),
  ),
})

/** A published target: a line beside a comparison, never a row of it. */
export interface Target {
  readonly id: string
  readonly metric: string
  /** In the unit of the figure. */
  readonly value: number
  readonly unit: string
  readonly conditions: Readonly<Record<string, string>>
  readonly source: string
  readonly year: number
  readonly note: string | null
}

let known: readonly Target[] | undefined

/** Published targets of some figures. Those of figures that the registry does not have are kept for the day it does. */
export function targetsFor(metrics: readonly string[]): readonly Target[] {
  known ??= readTargets(readFileSync(join(projectFolder(), 'seeds', 'targets.yaml'), 'utf8'))
  return known.filter(({ metric }) => metrics.includes(metric))
}

export function readTargets(text: string): readonly Target[] {
  return targetFile
    .parse(load(text))
    .targets.filter(({ metric }) => hasFigure(metric))
    .map(({ id, metric, value, conditions = {}, source, year, note = null }) => {
      const { unit } = figureById(metric)
      return { id, metric, value: fromSI(siOf(value), unit), unit, conditions, source, year, note }
    })
}
