import { closest } from '../../graph/record/suggest.ts'
import { type Conditions, parseConditions } from '../../queries/conditions.ts'
import { figures, hasFigure } from '../../queries/figures/registry.ts'
import { Fault } from '../errors.ts'
import { listOf, type Options } from './command.ts'

/** Metrics that were named, in their own spelling; undefined when none was. Small letters and hyphens are taken as well. */
export function metricsOf(options: Options): readonly string[] | undefined {
  const given = listOf(options, 'metric')
  return given.length === 0 ? undefined : given.map(metricId)
}

function metricId(typed: string): string {
  const id = typed.toUpperCase().replaceAll('-', '_')
  if (hasFigure(id)) return id
  const near = closest(
    id,
    figures.map((figure) => figure.id),
  )
  const mend = near ? `did you mean ${near}?` : "lidoff query '{ metrics { id title } }' lists them"
  throw new Fault('USAGE', `no figure "${typed}"`, mend)
}

export function conditionsOf(options: Options): Conditions {
  return parseConditions(listOf(options, 'condition').map((pair) => pairOf(pair, '--condition coolant-inlet="65 °C"')))
}

/** Parts `name=value`. */
export function pairOf(text: string, example: string): readonly [string, string] {
  const at = text.indexOf('=')
  if (at < 1) throw new Fault('USAGE', `"${text}" is not name=value`, `such as ${example}`)
  return [text.slice(0, at).trim(), text.slice(at + 1).trim()]
}
