import { measureNext, type Suggestion } from '../../queries/measure-next.ts'
import { cautionsFor } from '../cautions.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { metricsOf } from './metrics.ts'
import { numberText, shareText } from './numbers.ts'
import { table, wrap } from './table.ts'

const AT_MOST =
  'No measurement is exact: "if exact" is the standard uncertainty that would be left to the other values, so a gain is the most there is to have.'

export function suggestMeasuring(call: Call): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(call.args[0]!)
    const metrics = metricsOf(call.options)
    const suggestions = measureNext(opened.session(), metrics)
    const cautions = cautionsFor(metrics)
    const columns = [
      { head: 'what', cell: askedText, wraps: true },
      {
        head: 'why',
        cell: (one: Suggestion) => (one.lostWith.length > 0 ? `lost with ${one.lostWith.join(', ')}` : one.why),
        wraps: true,
      },
      { head: 'gain at most', cell: (one: Suggestion) => shareText(one.gain), align: 'point' as const },
      { head: 'u now → if exact', cell: narrowsText, wraps: true },
      { head: 'for', cell: (one: Suggestion) => summed(one.figures), wraps: true },
      { head: 'with', cell: (one: Suggestion) => one.instrument ?? '', wraps: true },
      {
        head: 'min',
        cell: (one: Suggestion) => (one.minutes === null ? '' : String(one.minutes)),
        align: 'right' as const,
      },
    ]
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision})`))
    const back = suggestions[0]?.before
    if (back) terminal.print(`goes back ${back}`)
    terminal.print(
      suggestions.length > 0 ? table(columns, suggestions, terminal.width) : 'nothing that would change a figure',
    )
    if (suggestions.some(({ narrows }) => narrows !== null)) {
      terminal.print('')
      for (const line of wrap(AT_MOST, terminal.width)) terminal.print(faint(line))
    }
    printCautions(cautions, terminal)
    terminal.document({ teardown: opened.id, revision: opened.revision, suggestions, cautions })
    return 0
  })
}

/** What to measure, and what it is of no use without. */
function askedText({ asks, together: [first, ...rest] }: Suggestion): string {
  if (first === undefined) return asks
  return `${asks}, with ${first}${rest.length > 0 ? ` and ${rest.length} more` : ''}`
}

/** Standard uncertainty of the figure that gains most, now and with the value known exactly, as no measurement makes it. */
function narrowsText({ narrows }: Suggestion): string {
  return narrows ? `${numberText(narrows.from)} → ${numberText(narrows.to)} ${narrows.unit}` : ''
}

function summed(figures: readonly string[]): string {
  const [first = '', ...rest] = figures
  return rest.length > 0 ? `${first} and ${rest.length} more` : first
}
