import { describeLack } from '../../graph/lack.ts'
import { ucumOf } from '../../graph/quantity/units.ts'
import { asStated } from '../../queries/evaluate/budget.ts'
import { asksOf } from '../../queries/measure-next.ts'
import { changesFrom, isTakenAsExact } from '../../queries/what-if.ts'
import type { FigureAnswer } from '../answers.ts'
import { cautionsFor } from '../cautions.ts'
import { customary, perCustomary } from '../customary.ts'
import { Fault } from '../errors.ts'
import { figuresFor } from '../stored-figures.ts'
import { printCautions } from './cautions.ts'
import { type Call, listOf } from './command.ts'
import { conditionsText, TAKEN_AS_EXACT } from './conditions-text.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { conditionsOf, metricsOf } from './metrics.ts'
import { conciseText, intervalText, numberText, shortened, uncertaintyText } from './numbers.ts'
import { printWorkings } from './print-working.ts'
import { table } from './table.ts'
import type { Terminal } from './terminal.ts'

/** Prints figures of a record: a table of all, or the working of those that were asked for. */
export function showFigures(call: Call, changes: readonly string[]): Promise<number> {
  return withCorpus(call, 'refuse', async (corpus) => {
    const { terminal, options } = call
    const opened = await corpus.open(call.args[0]!)
    const metrics = metricsOf(options)
    const subjects = listOf(options, 'subject')
    const conditions = conditionsOf(options)
    const edited = changes.map((text) => ({ text, edits: changesFrom(opened.record, text) }))
    const edits = edited.flatMap((one) => one.edits)
    const takenAsExact = edited.filter((one) => isTakenAsExact(one.edits)).map(({ text }) => text)
    const answers = await figuresFor(corpus, opened.id, {
      metrics,
      conditions,
      whatIf: edits,
      ...(subjects.length > 0 && { subjects }),
    })
    if (answers.length === 0 && subjects.length > 0) {
      throw new Fault(
        'NOT_FOUND',
        `no figure of ${opened.id} is about ${subjects.join(', ')}`,
        'lidoff figures ID lists subjects',
      )
    }
    const cautions = cautionsFor([...new Set(answers.map(({ metric }) => metric))])
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision})`))
    terminal.print(faint(conditionsText(conditions)))
    for (const text of changes)
      terminal.print(faint(`what if ${text}${takenAsExact.includes(text) ? ` (${TAKEN_AS_EXACT})` : ''}`))
    terminal.print('')
    if (metrics || subjects.length > 0) printWorkings(answers, opened.record, call)
    else printTable(answers, terminal)
    printCautions(cautions, terminal)
    terminal.document({
      teardown: opened.id,
      revision: opened.revision,
      conditions,
      whatIf: changes,
      takenAsExact,
      figures: answers.map(figureDocument),
      cautions,
    })
    return 0
  })
}

/** In a table of many figures a reason is a hint; with --metric it is told whole. */
const REASON_IN_TABLE = 40

interface TableRow {
  readonly answer: FigureAnswer
  /** Further pieces whose row would read the same. */
  alike: number
}

function printTable(answers: readonly FigureAnswer[], terminal: Terminal): void {
  const columns = [
    { head: 'figure', cell: ({ answer }: TableRow) => answer.metric },
    {
      head: 'subject',
      cell: ({ answer, alike }: TableRow) => `${answer.subject}${alike > 0 ? ` and ${alike} alike` : ''}`,
      wraps: true,
    },
    ...READ.map(({ head, cell, ...more }) => ({ head, cell: ({ answer }: TableRow) => cell(answer), ...more })),
  ]
  terminal.print(table(columns, withoutSisters(answers), terminal.width))
  terminal.print(
    faint('\nu is the standard uncertainty. With --metric the working of a figure is shown, with --json every piece.'),
  )
}

const READ = [
  { head: 'value', cell: (one: FigureAnswer) => numberText(one.value, one.uncertainty), align: 'point' as const },
  { head: 'u', cell: uncertaintyText, align: 'point' as const },
  { head: 'unit', cell: (one: FigureAnswer) => one.unit },
  { head: '95 %', cell: intervalText },
  { head: 'basis', cell: (one: FigureAnswer) => one.basis ?? '' },
  {
    head: 'status',
    cell: (one: FigureAnswer) =>
      one.status === 'OK' ? '' : `${one.status} ${shortened(one.reason ?? '', REASON_IN_TABLE)}`,
    wraps: true,
  },
]

/** Sister pieces whose rows read the same are one row. */
function withoutSisters(answers: readonly FigureAnswer[]): readonly TableRow[] {
  const rows = new Map<string, TableRow>()
  for (const answer of answers) {
    const reads = [answer.metric, asStated(answer.subject), ...READ.map(({ cell }) => cell(answer))].join('|')
    const known = rows.get(reads)
    if (known) known.alike++
    else rows.set(reads, { answer, alike: 0 })
  }
  return [...rows.values()]
}

/** The figure as the API gives it: the same names, so that a script may use either. */
function figureDocument({ working, used: _, reason: __, basis, ...head }: FigureAnswer) {
  const { inputs, interaction, restsOn, weak, missing, method, sources, warnings, draws, standardError } = working()
  return {
    ...head,
    ...(draws !== undefined && { draws, standardError }),
    concise: conciseText(head),
    ucum: ucumOf(head.unit),
    weakestBasis: basis,
    inputs: inputs.map(
      ({ path, value, dimension, uncertainty, basis: own, share, sensitivity, remaining, defaulted }) => ({
        path,
        ...customary(value, dimension, uncertainty),
        basis: own,
        share,
        sensitivity: perCustomary(sensitivity, dimension),
        remaining,
        defaulted,
      }),
    ),
    interaction,
    weak,
    restsOn,
    missing: missing.map((lack) => ({ asks: asksOf(lack), reason: describeLack(lack), lack })),
    method,
    sources,
    warnings,
  }
}
