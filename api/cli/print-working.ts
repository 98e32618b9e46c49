import { describeLack, type Lack } from '../../graph/lack.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { asStated } from '../../queries/evaluate/budget.ts'
import { asksOf } from '../../queries/measure-next.ts'
import type { FigureAnswer, Working } from '../answers.ts'
import { customary, perCustomary } from '../customary.ts'
import type { Call } from './command.ts'
import { bad, doubtful, faint, good, strong } from './emphasis.ts'
import { conciseText, intervalText, numberText, shareText, uncertaintyText } from './numbers.ts'
import { table } from './table.ts'
import type { Terminal } from './terminal.ts'

const SHOWN = { OK: good, MISSING: doubtful, NOT_APPLICABLE: faint, OUT_OF_RANGE: bad } as const

/** Of each figure what it was made of; pieces that look alike to every digit shown are told together. */
export function printWorkings(answers: readonly FigureAnswer[], record: TeardownRecord, call: Call): void {
  const groups = new Map<string, FigureAnswer[]>()
  for (const answer of answers) {
    const looks = looksOf(answer)
    groups.set(looks, [...(groups.get(looks) ?? []), answer])
  }
  const every = call.options.everyInput === true
  for (const [first, ...alike] of groups.values()) {
    printHead(first!, call.terminal)
    if (alike.length > 0) call.terminal.print(`  and alike: ${alike.map(({ subject }) => subject).join(', ')}`)
    printWorking(first!, record, { terminal: call.terminal, every })
  }
}

/** All that is printed of a figure, without the names of pieces. */
function looksOf(answer: FigureAnswer): string {
  const { metric, subject, status, value, uncertainty, reason } = answer
  const { inputs, restsOn, warnings } = answer.working()
  const shown = inputs
    .filter(matters)
    .map((input) => [asStated(input.path), shareText(input.share), sensitivityText(input)])
  const said = [subject, reason ?? '', ...restsOn, ...warnings].map(asStated)
  const numbers = [numberText(value, uncertainty), uncertaintyText(answer), intervalText(answer)]
  return JSON.stringify([metric, status, said, shown, numbers])
}

/** A share that is not 0.0 % when it is printed; of what has no uncertainty, everything. */
const matters = ({ share }: Working['inputs'][number]): boolean => share === null || Math.abs(share) >= 0.0005

function printHead(answer: FigureAnswer, terminal: Terminal): void {
  const { metric, subject, status, value, unit } = answer
  const u = uncertaintyText(answer)
  const shown = value === null ? '' : ` ${numberText(value, answer.uncertainty)}${u && ` ± ${u}`} ${unit}`
  terminal.print(`${strong(`${metric} ${subject}`)}:${shown} ${SHOWN[status](status)}`)
}

/** A gap with what fills it; of what cannot be here, only why. */
function printLack(lack: Lack, terminal: Terminal): void {
  const asks = asksOf(lack)
  if (asks === null) terminal.print(`  ${faint('because')} ${describeLack(lack)}`)
  else terminal.print(`  ${doubtful('missing')} ${describeLack(lack)}\n    ${asks}`)
}

interface Printing {
  readonly terminal: Terminal
  readonly every: boolean
}

function printWorking(answer: FigureAnswer, record: TeardownRecord, printing: Printing): void {
  const { terminal } = printing
  const { unit, how, basis } = answer
  const { inputs, missing, method, sources, warnings, restsOn, weak, draws, standardError } = answer.working()
  const interval = intervalText(answer)
  const concise = conciseText(answer)
  if (concise !== null) terminal.print(`  concise: ${concise} ${unit}`)
  if (interval)
    terminal.print(
      `  95 %: ${interval} ${unit} (${how}${drawnText(answer, draws, standardError)}); ± is the standard uncertainty`,
    )
  if (basis) terminal.print(`  weakest basis: ${basis}`)
  terminal.print(`  ${method}`)
  printInputs(answer, printing)
  printWeak(weak, terminal)
  for (const { path } of inputs) printOthers(record, path, terminal)
  for (const path of restsOn) terminal.print(`  rests on ${path}`)
  for (const lack of missing) printLack(lack, terminal)
  for (const text of warnings) terminal.print(`  ${doubtful('note')} ${text}`)
  terminal.print(faint(`  sources: ${sources.join('; ')}`))
  terminal.print('')
}

function printInputs({ unit, working }: FigureAnswer, { terminal, every }: Printing): void {
  const { inputs, interaction } = working()
  if (inputs.length === 0) return
  const shown = every ? inputs : inputs.filter(matters)
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
  terminal.print(table(columns, shown, terminal.width))
  const left = inputs.length - shown.length
  if (left > 0)
    terminal.print(
      faint(`  and ${left} input${left > 1 ? 's' : ''} with a share of less than 0.05 %: --every-input lists all`),
    )
  if (interaction !== null && Math.abs(interaction) >= 0.001)
    terminal.print(`  ${faint(`of no single input: ${shareText(interaction)}`)}`)
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
  return `${numberText(shown.value, shown.uncertainty)}${shown.unit === '1' ? '' : ` ${shown.unit}`}`
}
