import { measureNext, type Suggestion } from '../../queries/measure-next.ts'
import { cautionsFor } from '../cautions.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { metricsOf } from './metrics.ts'
import { shareText } from './numbers.ts'
import { wrap } from './table.ts'
import type { Terminal } from './terminal.ts'

const AT_MOST =
  'No measurement is exact: "if exact" is the standard uncertainty that would be left to the other values, so a gain is the most there is to have.'

export function suggestMeasuring(call: Call): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(call.args[0]!)
    const metrics = metricsOf(call.options)
    const suggestions = measureNext(opened.session(), metrics)
    const cautions = cautionsFor(metrics)
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision})`))
    const back = suggestions[0]?.before
    if (back) terminal.print(`goes back ${back}`)
    if (suggestions.length === 0) terminal.print('nothing that would change a figure')
    for (const [at, one] of suggestions.entries()) print(one, at + 1, terminal)
    if (suggestions.some(({ narrows }) => narrows !== null)) {
      terminal.print('')
      for (const line of wrap(AT_MOST, terminal.width)) terminal.print(faint(line))
    }
    printCautions(cautions, terminal)
    terminal.document({ teardown: opened.id, revision: opened.revision, suggestions, cautions })
    return 0
  })
}

/** Indent of what is said below the first line of an entry. */
const BELOW = 5

/** What to measure first; below, why, and with what. */
function print(one: Suggestion, number: number, { width, print: line }: Terminal): void {
  const [first = '', ...rest] = wrap(askedText(one), width - BELOW)
  line(`${String(number).padStart(BELOW - 2)}  ${strong(first)}`)
  for (const text of rest) line(`${' '.repeat(BELOW)}${text}`)
  for (const text of [whyText(one), meansText(one)])
    for (const part of wrap(text, width - BELOW)) line(`${' '.repeat(BELOW)}${part}`)
}

/** What to measure, and what it is of no use without. */
function askedText({ asks, together: [first, ...rest] }: Suggestion): string {
  if (first === undefined) return asks
  return `${asks}, with ${first}${rest.length > 0 ? ` and ${rest.length} more` : ''}`
}

function whyText({ narrows, figures, gain, lostWith }: Suggestion): string {
  const lost = lostWith.length > 0 ? `lost with ${lostWith.join(', ')}; ` : ''
  if (narrows === null) return `${lost}then computable: ${summed(figures)}`
  const { from, to, unit, metric, subject } = narrows
  const others = figures.length > 1 ? `, and ${figures.length - 1} more` : ''
  return `${lost}u of ${metric} ${subject} ${twoDigits(from)} → ${twoDigits(to)} ${unit} if exact (${shareText(gain)} less)${others}`
}

/** As many digits as an uncertainty bears (JCGM 100:2008 7.2.6). */
const twoDigits = (u: number): string => String(Number(u.toPrecision(2)))

function meansText({ instrument, minutes }: Suggestion): string {
  return [instrument ?? 'nothing but eyes', ...(minutes === null ? [] : [`about ${minutes} min`])].join(', ')
}

function summed(figures: readonly string[]): string {
  const [first = '', ...rest] = figures
  return rest.length > 0 ? `${first} and ${rest.length} more` : first
}
