import { type AtStake, checklist } from '../../queries/checklist.ts'
import { cautionsFor } from '../cautions.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { doubtful, faint, good, strong } from './emphasis.ts'
import { metricsOf } from './metrics.ts'
import { table } from './table.ts'

/** What to have on record before each step that cannot be undone. */
export function beforeSteps(call: Call): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(call.args[0]!)
    const list = checklist(opened.session(), metricsOf(call.options))
    const { back, may, mayNot } = list.loan
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision})`))
    if (back) terminal.print(`goes back ${back}`)
    if (may.length > 0) terminal.print(`allowed: ${may.join(', ')}`)
    if (mayNot.length > 0) terminal.print(`not allowed: ${mayNot.join(', ')}`)
    if (list.steps.length === 0) terminal.print('no step to come destroys anything')
    for (const { step, title, takesOff, after, atStake, silent } of list.steps) {
      terminal.print(strong(`\nbefore ${step}${title ? `: ${title}` : ''}`))
      if (takesOff.length > 0) terminal.print(faint(`takes off or cuts ${takesOff.join(', ')}`))
      if (after.length > 0) terminal.print(faint(`comes after ${after.join(', ')}`))
      if (silent) terminal.print(doubtful('nothing is written of what is lost with it: add loses: [ … ] to the step'))
      else terminal.print(table(COLUMNS, atStake, terminal.width))
    }
    const cautions = cautionsFor(metricsOf(call.options))
    printCautions(cautions, terminal)
    terminal.document({ teardown: opened.id, revision: opened.revision, ...list, cautions })
    return 0
  })
}

const COLUMNS = [
  { head: 'lost with it', cell: (one: AtStake) => one.path, wraps: true },
  { head: 'on record', cell: (one: AtStake) => (one.onRecord ? good('yes') : doubtful('not yet')) },
  { head: 'as written', cell: (one: AtStake) => one.text ?? '', wraps: true },
  { head: 'figures', cell: (one: AtStake) => String(one.figures.length), align: 'right' as const },
  { head: 'with', cell: (one: AtStake) => one.instrument ?? '', wraps: true },
  { head: 'min', cell: (one: AtStake) => (one.minutes === null ? '' : String(one.minutes)), align: 'right' as const },
]
