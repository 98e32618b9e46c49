import { describeLack } from '../../graph/lack.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import { ucumOf } from '../../graph/quantity/units.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { askFor } from '../../queries/measure-next.ts'
import { changesFrom } from '../../queries/what-if.ts'
import type { FigureAnswer, Working } from '../answers.ts'
import { cautionsFor } from '../cautions.ts'
import { customary, perCustomary } from '../customary.ts'
import { Fault } from '../errors.ts'
import { figuresFor } from '../stored-figures.ts'
import { printCautions } from './cautions.ts'
import { type Call, listOf } from './command.ts'
import { conditionsText } from './conditions-text.ts'
import { withCorpus } from './database.ts'
import { bad, doubtful, faint, good, strong } from './emphasis.ts'
import { conditionsOf, metricsOf } from './metrics.ts'
import { conciseText, intervalText, numberText, shareText, shortened, uncertaintyText } from './numbers.ts'
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
    const edits = changes.flatMap((text) => changesFrom(opened.record, text))
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
    for (const text of changes) terminal.print(faint(`what if ${text}`))
    terminal.print('')
    if (metrics || subjects.length > 0) for (const answer of answers) printWorking(answer, opened.record, terminal)
    else printTable(answers, terminal)
    printCautions(cautions, terminal)
    terminal.document({
      teardown: opened.id,
      revision: opened.revision,
      conditions,
      whatIf: changes,
      figures: answers.map(figureDocument),
      cautions,
    })
    return 0
  })
}

/** In a table of many figures a reason is a hint; with --metric it is told whole. */
const REASON_IN_TABLE = 40

const SHOWN = { OK: good, MISSING: doubtful, NOT_APPLICABLE: faint, OUT_OF_RANGE: bad } as const

function printTable(answers: readonly FigureAnswer[], terminal: Terminal): void {
  const columns = [
    { head: 'figure', cell: (one: FigureAnswer) => one.metric },
    { head: 'subject', cell: (one: FigureAnswer) => one.subject, wraps: true },
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
  terminal.print(table(columns, answers, terminal.width))
  terminal.print(faint('\nu is the standard uncertainty. With --metric the working of a figure is shown.'))
}

function printWorking(answer: FigureAnswer, record: TeardownRecord, terminal: Terminal): void {
  const { metric, subject, status, value, unit, how, basis } = answer
  const { inputs, interaction, missing, method, sources, warnings, restsOn, weak, draws, standardError } =
    answer.working()
  const u = uncertaintyText(answer)
  const shown = value === null ? '' : ` ${numberText(value, answer.uncertainty)}${u && ` ± ${u}`} ${unit}`
  terminal.print(`${strong(`${metric} ${subject}`)}:${shown} ${SHOWN[status](status)}`)
  const interval = intervalText(answer)
  const concise = conciseText(answer)
  if (concise !== null) terminal.print(`  concise: ${concise} ${unit}`)
  if (interval)
    terminal.print(
      `  95 %: ${interval} ${unit} (${how}${drawnText(answer, draws, standardError)}); ± is the standard uncertainty`,
    )
  if (basis) terminal.print(`  weakest basis: ${basis}`)
  terminal.print(`  ${method}`)
  if (inputs.length > 0) {
    const columns = [
      { head: '  input', cell: (one: (typeof inputs)[number]) => `  ${one.path}`, wraps: true },
      { head: 'value', cell: (one: (typeof inputs)[number]) => inputText(one), align: 'point' as const },
      {
        head: 'basis',
        cell: (one: (typeof inputs)[number]) => `${one.basis}${one.defaulted ? ', width by default' : ''}`,
      },
      { head: 'u', cell: (one: (typeof inputs)[number]) => widthText(one), align: 'point' as const },
      { head: `changes it by [${unit}]`, cell: (one: (typeof inputs)[number]) => sensitivityText(one), wraps: true },
      { head: 'share', cell: (one: (typeof inputs)[number]) => shareText(one.share), align: 'point' as const },
    ]
    terminal.print(table(columns, inputs, terminal.width))
    if (interaction !== null && Math.abs(interaction) >= 0.001)
      terminal.print(`  ${faint(`of no single input: ${shareText(interaction)}`)}`)
  }
  printWeak(weak, terminal)
  for (const { path } of inputs) printOthers(record, path, terminal)
  for (const path of restsOn) terminal.print(`  rests on ${path}`)
  for (const lack of missing) terminal.print(`  ${doubtful('missing')} ${describeLack(lack)}\n    ${askFor(lack)}`)
  for (const text of warnings) terminal.print(`  ${doubtful('note')} ${text}`)
  terminal.print(faint(`  sources: ${sources.join('; ')}`))
  terminal.print('')
}

/** How many draws, and how well they know the standard uncertainty. */
function drawnText({ uncertainty }: FigureAnswer, draws = 0, standardError = 0): string {
  if (draws === 0) return ''
  const known = uncertainty ? `, u known to ${Number(((100 * standardError) / uncertainty).toPrecision(2))} %` : ''
  return `, ${draws} draws${known}`
}

/** How much of it nobody measured, read or published. */
function printWeak({ ofVariance, ofValue }: Working['weak'], terminal: Terminal): void {
  const parts = [
    ...(ofVariance === null ? [] : [`${shareText(ofVariance)} of the variance`]),
    ...(ofValue === null ? [] : [`${shareText(ofValue)} of the value`]),
  ]
  if (parts.length > 0) terminal.print(`  on judged and assumed inputs: ${parts.join(', ')}`)
}

/** Claims of an input that are kept but not taken. */
function printOthers(record: TeardownRecord, path: Path, terminal: Terminal): void {
  const fact = record.facts.get(path)
  for (const { id, text, evidence } of fact?.claims ?? [])
    if (id !== fact?.taken.id)
      terminal.print(`  also claimed of ${path}: ${text}${text.includes(evidence.basis) ? '' : ` (${evidence.basis})`}`)
}

function widthText({ value, dimension, uncertainty }: Working['inputs'][number]): string {
  return uncertaintyText(customary(value, dimension, uncertainty))
}

function sensitivityText({ sensitivity, dimension, value }: Working['inputs'][number]): string {
  const per = perCustomary(sensitivity, dimension)
  const { unit } = customary(value, dimension)
  return per === null ? '' : `${numberText(per)}${unit === '1' ? '' : ` per ${unit}`}`
}

function inputText({ value, dimension, uncertainty }: ReturnType<FigureAnswer['working']>['inputs'][number]): string {
  const shown = customary(value, dimension, uncertainty)
  return `${numberText(shown.value, shown.uncertainty)} ${shown.unit}`
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
    missing: missing.map((lack) => ({ asks: askFor(lack), reason: describeLack(lack), lack })),
    method,
    sources,
    warnings,
  }
}
