import type { Edit } from '../../graph/edit.ts'
import { changes } from '../../queries/what-if.ts'
import { computeFigures, type FigureAnswer } from '../answers.ts'
import { builder } from './builder.ts'
import { ConditionsArg, type ConditionsInput, conditionsFrom, WhatIfArg } from './conditions.ts'
import { storedNameOf } from './fetch.ts'
import { recordOf, type TeardownNode } from './teardown-node.ts'
import { MetricId } from './words.ts'

const args = builder.args((t) => ({
  metrics: t.field({ type: [MetricId], description: 'Which figures; all when left out.' }),
  conditions: t.field({ type: ConditionsArg, description: 'Under which conditions; the defaults when left out.' }),
}))

/** Arguments of every field that answers figures. */
export const figureArgs = args

export const whatIfArgs = {
  ...args,
  ...builder.args((t) => ({
    whatIf: t.field({
      type: [WhatIfArg],
      description: 'Values of the record replaced for this answer; nothing is written.',
    }),
  })),
}

export interface FigureArgs {
  readonly metrics?: readonly string[] | null | undefined
  readonly subjects?: readonly string[] | null | undefined
  readonly conditions?: ConditionsInput | null | undefined
  readonly whatIf?: readonly { readonly path: string; readonly value: string }[] | null | undefined
}

/** Figures of a teardown: those stored when the conditions are stored ones, else computed now. */
export function figuresOf(
  node: TeardownNode,
  args: FigureArgs,
  isAbout: (subject: string) => boolean,
): readonly FigureAnswer[] {
  const name = storedNameOf({ ...args })
  const stored = name === undefined ? undefined : node.figures.get(name)
  const all = stored ?? computed(node, args)
  const metrics = args.metrics ? new Set<string>(args.metrics) : null
  return all.filter(({ metric, subject }) => (metrics?.has(metric) ?? true) && isAbout(subject))
}

function computed(node: TeardownNode, { metrics, conditions, whatIf }: FigureArgs): readonly FigureAnswer[] {
  const opened = recordOf(node)
  const edits = (whatIf ?? []).flatMap(({ path, value }): readonly Edit[] => changes(opened.record, path, value))
  return computeFigures(opened, {
    metrics: metrics ?? undefined,
    conditions: conditionsFrom(conditions),
    whatIf: edits,
  })
}
