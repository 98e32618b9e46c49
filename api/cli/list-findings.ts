import { type Dependence, dependence } from '../../queries/findings.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { metricsOf } from './metrics.ts'
import { table } from './table.ts'

/** Findings, each with the figures that stand or fall with it. */
export function listFindings(call: Call): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(call.args[0]!)
    const findings = dependence(opened.session(), metricsOf(call.options))
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision})`))
    const columns = [
      { head: 'finding', cell: (one: Dependence) => one.finding },
      { head: 'status', cell: (one: Dependence) => one.status ?? '' },
      { head: 'figures that rest on it', cell: (one: Dependence) => one.figures.join('; '), wraps: true },
    ]
    terminal.print(findings.length > 0 ? table(columns, findings, terminal.width) : 'no findings')
    if (findings.length > 0)
      terminal.print(faint(`\nwhat changes if one falls: lidoff what-if ${opened.id} ${findings[0]!.finding}=refuted`))
    terminal.document({ teardown: opened.id, revision: opened.revision, findings })
    return 0
  })
}
