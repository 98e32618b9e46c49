import type { Edit } from '../../graph/edit.ts'
import { asPath, type Path, type Quantity } from '../../graph/quantity/quantity.ts'
import { fromSI } from '../../graph/quantity/units.ts'
import type { Settings } from '../../graph/settings.ts'
import type { View } from '../../graph/view.ts'
import { NUMERIC, type NumericName, SETTING_WORDS } from '../conditions.ts'
import type { Result } from '../evaluate/result.ts'
import { type Figure, SPECIMEN } from '../figures/figure.ts'
import { figureById, hasFigure } from '../figures/registry.ts'
import { defineCheck, type Evaluator, type Finding } from './check.ts'

/** Two values are compatible when they differ by no more than this many uncertainties of their difference. */
const COMPATIBLE = 2

const kebab = (text: string): string => text.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

/** The observed value as a figure of its own, so that its doubt is worked out like any other. */
const asObserved = (observed: Path, like: Figure): Figure => ({
  id: `OBSERVED ${observed}`,
  title: like.title,
  definition: 'As observed.',
  unit: like.unit,
  subject: like.subject,
  honours: [],
  method: 'as recorded',
  sources: ['the record'],
  subjects: () => SPECIMEN,
  compute: (view) => view.need({ value: asPath(`${observed}/value`) }).value,
})

/** The conditions of an observation as settings and edits: what it was observed at is what the figure is computed at. */
function conditionsOf(view: View, observed: Path, base: Settings) {
  const at = (name: string): Path => asPath(`${observed}/conditions/${name}`)
  const settings: Record<string, string> = {}
  for (const [name, words] of Object.entries(SETTING_WORDS)) {
    const word = view.mayWord(at(name === 'power' ? 'point' : name))?.toUpperCase()
    if (word !== undefined && (words as readonly string[]).includes(word)) settings[name] = word
  }
  const boundary = view.mayWord(at('boundary'))
  if (boundary !== undefined) settings.boundary = boundary
  const all = { ...base, ...settings } as Settings
  const circuits = view.find({ ask: 'circuits' }).paths
  const edits = (Object.keys(NUMERIC) as NumericName[]).flatMap((name): readonly Edit[] => {
    const value = view.may(at(kebab(name)))
    if (value === undefined) return []
    return NUMERIC[name]
      .paths(all, circuits)
      .map((path) => ({ set: asPath(path), to: exactly(value, at(kebab(name))) }))
  })
  return { settings: settings as Partial<Settings>, edits }
}

const exactly = (value: number, claim: Path): Quantity => ({
  value,
  terms: [],
  basis: 'measured',
  claim,
  text: `as at ${claim}`,
  defaulted: false,
  restsOn: [],
})

/** What a value of a figure may be, and the standard uncertainty beside it; a bound leaves one side open. */
interface Span {
  readonly low: number
  readonly high: number
  readonly u: number
  readonly text: string
}

const OPEN = Number.POSITIVE_INFINITY

/** The observed value, or the bound that it was recorded as. */
function seenSpan(view: View, evaluator: Evaluator, observed: Path, figure: Figure, subject: Path): Span | undefined {
  const bound = boundOf(view, observed)
  if (bound) {
    const end = fromSI(bound.value, figure.unit)
    const text = `${bound.sense} ${shown(end, figure)}`
    return bound.sense === '<' ? { low: -OPEN, high: end, u: 0, text } : { low: end, high: OPEN, u: 0, text }
  }
  const { value, u } = evaluator.evaluate(asObserved(observed, figure), subject)
  return value === null ? undefined : { low: value, high: value, u: u ?? 0, text: shown(value, figure) }
}

function boundOf(view: View, observed: Path): { readonly sense: '<' | '>'; readonly value: number } | undefined {
  if (view.may(asPath(`${observed}/value`)) !== undefined) return undefined
  const [sense, value] = view.find({ ask: 'bound-of', value: asPath(`${observed}/value`) }).paths as readonly string[]
  return sense === undefined ? undefined : { sense: sense as '<' | '>', value: Number(value) }
}

/** The computed value, or the ends of the interval of a figure that has none; open below where it is an upper bound. */
function computedSpan({ value, u, low, high, status }: Result, figure: Figure): Span | undefined {
  if (status !== 'OK' || low === null || high === null) return undefined
  const below = (one: number): number => (figure.bound === 'upper' ? -OPEN : one)
  if (value !== null) return { low: below(value), high: value, u: u ?? 0, text: shown(value, figure) }
  return { low: below(low), high, u: 0, text: `${shown(low, figure)} … ${shown(high, figure)}` }
}

const shown = (value: number, { unit }: Figure): string => `${Number(value.toPrecision(3))} ${unit}`

function contradiction(view: View, evaluator: Evaluator, observed: Path): readonly Finding[] {
  const metric = view.find({ ask: 'observed-metric', observed }).paths[0]
  const subject = view.find({ ask: 'observed-subject', observed }).paths[0]
  if (metric === undefined || subject === undefined || !hasFigure(metric)) return []
  if (isAbsolute(view, metric, observed)) return []
  const figure = figureById(metric)
  const seen = seenSpan(view, evaluator, observed, figure, subject)
  const { settings, edits } = conditionsOf(view, observed, evaluator.settings)
  const computed = computedSpan(evaluator.over(edits, settings).evaluate(figure, subject), figure)
  if (!seen || !computed) return []
  const apart = Math.max(seen.low - computed.high, computed.low - seen.high)
  if (!(apart > COMPATIBLE * Math.hypot(seen.u, computed.u))) return []
  return [
    {
      path: observed,
      what: `observed ${seen.text}, computed ${computed.text} under the same conditions: more than ${COMPATIBLE} uncertainties of the difference apart`,
      mend: `see what ${metric} rests on (lidoff figures): one of its inputs, or the observation, is wrong`,
    },
  ]
}

const observedContradicted = defineCheck({
  id: 'observed-contradicted',
  title: 'An observed value that the computed figure contradicts',
  severity: 'warning',
  run: (view, evaluator) =>
    view.find({ ask: 'observations' }).paths.flatMap((observed) => contradiction(view, evaluator, observed)),
})

/** No rise or spread in such a unit is as large: what is was read in degrees and stands as a temperature [K]. */
const NO_DIFFERENCE = 200

function isAbsolute(view: View, metric: string, observed: Path): boolean {
  return (
    figureById(metric).unit === 'K' &&
    (view.may(asPath(`${observed}/value`)) ?? boundOf(view, observed)?.value ?? 0) >= NO_DIFFERENCE
  )
}

const absoluteForDifference = defineCheck({
  id: 'temperature-for-a-difference',
  title: 'A temperature given where a difference is meant',
  severity: 'error',
  run: (view) =>
    view.find({ ask: 'observations' }).paths.flatMap((observed): readonly Finding[] => {
      const metric = view.find({ ask: 'observed-metric', observed }).paths[0]
      if (metric === undefined || !hasFigure(metric) || !isAbsolute(view, metric, observed)) return []
      return [
        {
          path: asPath(`${observed}/value`),
          what: `${metric} is a difference of temperatures, and a temperature in degrees is given`,
          mend: 'write the difference in K',
        },
      ]
    }),
})

export const observedChecks = [observedContradicted, absoluteForDifference] as const
