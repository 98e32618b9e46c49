import { heatLedger, ledgerLines } from '../../queries/heat-ledger.ts'
import { cautionsFor } from '../cautions.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { strong } from './emphasis.ts'

export function printLedger(call: Call): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const { id, title, revision, session } = await corpus.open(call.args[0] ?? '')
    const ledger = heatLedger(session())
    terminal.print(strong(`${title} (${id}, revision ${revision})`))
    for (const line of ledgerLines(ledger)) terminal.print(line)
    const cautions = cautionsFor()
    printCautions(cautions, terminal)
    terminal.document({ teardown: id, revision, ledger, cautions })
    return 0
  })
}
