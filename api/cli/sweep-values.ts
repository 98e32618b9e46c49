import { axisOf, sweep } from '../../queries/sweep.ts'
import { sessionFor } from '../answers.ts'
import { cautionsFor } from '../cautions.ts'
import { Fault } from '../errors.ts'
import { csvLine } from '../export/csv.ts'
import { printCautions } from './cautions.ts'
import { type Call, listOf } from './command.ts'
import { withCorpus } from './database.ts'
import { conditionsOf, metricsOf } from './metrics.ts'

const EXACT = 'every value of the range is taken as exact, and so is all else: a sweep has no intervals'

/** Figures over a range, as CSV on standard output: a row for each point, a column for each value and figure. */
export function sweepValues(call: Call): Promise<number> {
  const { terminal, options } = call
  const metrics = metricsOf(options)
  if (!metrics) throw new Fault('USAGE', 'no figure to sweep', 'name one: --metric LOOP_INDUCTANCE')
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(call.args[0]!)
    const session = sessionFor(opened, conditionsOf(options))
    const axes = listOf(options, 'over').map((text) => axisOf(session, text))
    const subjects = listOf(options, 'subject')
    const { columns, rows } = sweep(session, { metrics, axes, ...(subjects.length > 0 && { subjects }) })
    if (columns.length === 0) throw new Fault('NOT_FOUND', `${opened.id} has no subject for ${metrics.join(', ')}`)
    const heads = [
      ...axes.map(({ path, unit }) => `${path} [${unit}]`),
      ...columns.map(({ metric, subject, unit }) => `${metric} ${subject} [${unit}]`),
    ]
    if (!terminal.json) {
      terminal.raw(csvLine(heads))
      for (const { at, values } of rows) terminal.raw(csvLine([...at, ...values]))
    }
    terminal.say(EXACT)
    const notes = [...new Set(rows.flatMap(({ notes: own }) => own))]
    for (const note of notes) terminal.say(`outside the validated range: ${note}`)
    const cautions = cautionsFor(metrics)
    if (!terminal.json) printCautions(cautions, { ...terminal, print: terminal.say })
    terminal.document({
      teardown: opened.id,
      revision: opened.revision,
      axes,
      columns,
      rows,
      takenAsExact: axes.map(({ path }) => path),
      cautions,
    })
    return 0
  })
}
