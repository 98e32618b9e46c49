import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { answerOf, type Context, into } from './context.ts'

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

/** Steps that take a part off, or something that holds it. */
export function stepsTaking({ record, graph }: Context, part: Path): Found {
  const plain = part.replace(/\.[^/]*/g, '')
  const above = [part, plain, ...ancestors(graph, plain)]
  const steps = (record.sheet.steps ?? [])
    .filter((step) => (step['takes-off'] ?? []).some((text) => above.includes(canonical(record, text))))
    .map((step) => asPath(`steps/${step.id}`))
  return answerOf(steps, [], steps.length > 0)
}

function ancestors(graph: Context['graph'], part: string): readonly string[] {
  const parent = into(graph, part, 'contains')[0]
  return parent === undefined ? [] : [parent, ...ancestors(graph, parent)]
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
      loses: (step.loses ?? []).map((text) => canonical(record, text)),
    }))
}

/** `film-upper/thickness` → `parts/film-upper/thickness`. */
function canonical(record: Context['record'], text: string): Path {
  const reference = record.parts.refer(text)
  if (!('entry' in reference)) return asPath(text)
  return asPath([record.parts.pathOf(reference), ...reference.rest].join('/'))
}

/** A lost property covers itself, what stands below it, and the same of single pieces. */
function covers(lost: Path, path: Path): boolean {
  const plain = path.replace(/\.[^/]*/g, '')
  return [path, plain].some((one) => one === lost || one.startsWith(`${lost}/`))
}
