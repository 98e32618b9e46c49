import { changeOfBelief, type Restated } from '../../queries/history.ts'
import { revisionAt } from '../as-of.ts'
import { cautionsFor } from '../cautions.ts'
import { printCautions } from './cautions.ts'
import { type Call, textOf } from './command.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { metricsOf } from './metrics.ts'
import { printSideBySide, sideBySideDocument } from './side-by-side.ts'
import { table } from './table.ts'

/** Revisions, and what changed between two states of belief. */
export function showHistory(call: Call): Promise<number> {
  const { terminal, options } = call
  const id = call.args[0]!
  return withCorpus(call, 'refuse', async (corpus) => {
    const revisions = await corpus.store.history(id)
    const since = textOf(options, 'since')
    const asOf = textOf(options, 'asOf')
    const columns = [
      { head: 'revision', cell: (one: (typeof revisions)[number]) => String(one.revision), align: 'right' as const },
      { head: 'written', cell: (one: (typeof revisions)[number]) => one.at },
      { head: 'by', cell: (one: (typeof revisions)[number]) => one.by ?? '' },
      {
        head: '',
        cell: (one: (typeof revisions)[number]) => (one.withdrawn ? 'withdrawn' : (one.note ?? '')),
        wraps: true,
      },
    ]
    if (since === undefined && asOf === undefined) {
      terminal.print(table(columns, revisions, terminal.width))
      terminal.document({ teardown: id, revisions })
      return 0
    }
    const after = asOf !== undefined && since === undefined ? await corpus.open(id) : await revisionAt(corpus, id, asOf)
    const before = await revisionAt(corpus, id, since ?? asOf)
    const changed = changeOfBelief(before.session(), after.session(), metricsOf(options))
    terminal.print(strong(`${after.title} (${id}): revision ${before.revision} → ${after.revision}`))
    terminal.print(
      changed.statements.length > 0 ? table(STATEMENTS, changed.statements, terminal.width) : 'no statement changed',
    )
    terminal.print('')
    printSideBySide(changed, terminal)
    if (changed.figures.length === 0)
      terminal.print(faint('what was thought of the figures then is what is thought now'))
    const cautions = cautionsFor(metricsOf(options))
    printCautions(cautions, terminal)
    terminal.document({
      teardown: id,
      revisions,
      from: before.revision,
      to: after.revision,
      statements: changed.statements,
      ...sideBySideDocument(changed),
      cautions,
    })
    return 0
  })
}

const said = (one: Restated['before']): string =>
  one === null ? '' : `${one.text}${one.basis && !one.text.includes(one.basis) ? ` (${one.basis})` : ''}`

const STATEMENTS = [
  { head: 'statement', cell: (one: Restated) => one.path, wraps: true },
  { head: 'said', cell: (one: Restated) => said(one.before), wraps: true },
  { head: 'says', cell: (one: Restated) => said(one.after), wraps: true },
]
