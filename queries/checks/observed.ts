import type { Edit } from '../../graph/edit.ts'
import { asPath, type Path, type Quantity } from '../../graph/quantity/quantity.ts'
import type { Settings } from '../../graph/settings.ts'
import type { View } from '../../graph/view.ts'
import { NUMERIC, type NumericName, SETTING_WORDS } from '../conditions.ts'
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

function contradiction(view: View, evaluator: Evaluator, observed: Path): readonly Finding[] {
  const metric = view.find({ ask: 'observed-metric', observed }).paths[0]
  const subject = view.find({ ask: 'observed-subject', observed }).paths[0]
  if (metric === undefined || subject === undefined || !hasFigure(metric)) return []
  if (isAbsolute(view, metric, observed)) return []
  const figure = figureById(metric)
  const seen = evaluator.evaluate(asObserved(observed, figure), subject)
  const { settings, edits } = conditionsOf(view, observed, evaluator.settings)
  const computed = evaluator.over(edits, settings).evaluate(figure, subject)
  if (seen.value === null || computed.value === null || computed.status !== 'OK') return []
  const difference = seen.value - computed.value
  if (figure.bound === 'upper' && difference < 0) return []
  if (Math.abs(difference) <= COMPATIBLE * Math.hypot(seen.u ?? 0, computed.u ?? 0)) return []
  const shown = (value: number): string => `${Number(value.toPrecision(3))} ${figure.unit}`
  return [
    {
      path: observed,
      what: `observed ${shown(seen.value)}, computed ${shown(computed.value)} under the same conditions: more than ${COMPATIBLE} uncertainties of the difference apart`,
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
  return figureById(metric).unit === 'K' && (view.may(asPath(`${observed}/value`)) ?? 0) >= NO_DIFFERENCE
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
