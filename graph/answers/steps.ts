import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { thingPath } from '../record/thing-path.ts'
import { answerOf, type Context, into, out } from './context.ts'

/** Properties that steps still to come destroy. */
export function atRisk(context: Context): Found {
  return answerOf(coming(context).flatMap(({ loses }) => loses))
}

/** Steps still to come after which a property cannot be had. */
export function lostWith(context: Context, path: Path): Found {
  return answerOf(
    coming(context)
      .filter(({ loses }) => loses.some((one) => covers(one, path)))
      .map(({ step }) => step),
  )
}

/** Steps that take a part off, or something that holds it; an entry that comes several times is taken with all its pieces. */
export function stepsTaking(context: Context, part: Path): Found {
  const { record, graph } = context
  const takes = (texts: readonly string[], one: Path): boolean => {
    const chain = [one, ...holders(graph, one)]
    const named = texts.map((text) => thingPath(record, text))
    if (chain.some((path) => named.some((taken) => covers(taken, path)))) return true
    const pieces = out(graph, one, 'has-piece')
    return pieces.length > 0 && pieces.every((piece) => named.some((taken) => covers(taken, piece)))
  }
  const steps = (record.sheet.steps ?? [])
    .filter((step) => takes(step['takes-off'] ?? [], part))
    .map((step) => asPath(`steps/${step.id}`))
  return answerOf(steps, [], steps.length > 0)
}

/** What an entry or a piece is inside of, from the nearest out. */
function holders(graph: Context['graph'], part: Path): readonly Path[] {
  const above = into(graph, part, 'holds')[0] ?? into(graph, part, 'contains')[0]
  return above === undefined ? [] : [above, ...holders(graph, above)]
}

/** What must be done before a step: its true blockers, or the step before. */
export function blockersOf({ graph }: Context, step: Path): Found {
  return answerOf(into(graph, step, 'precedes'))
}

function coming({ record }: Context): readonly { readonly step: Path; readonly loses: readonly Path[] }[] {
  return (record.sheet.steps ?? [])
    .filter((step) => step.done === undefined)
    .map((step) => ({
      step: asPath(`steps/${step.id}`),
      loses: (step.loses ?? []).map((text) => thingPath(record, text)),
    }))
}

/** What is named covers itself, what stands below it, and the same of single pieces. */
function covers(named: Path, path: Path): boolean {
  const segments = path.split('/')
  return named.split('/').every((segment, at) => segments[at] === segment || segments[at]?.split('.')[0] === segment)
}
