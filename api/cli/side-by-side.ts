import { describeLack } from '../../graph/lack.ts'
import type { Result } from '../../queries/evaluate/result.ts'
import type { Moved, SideBySide } from '../../queries/side-by-side.ts'
import { headOf } from '../answers.ts'
import { doubtful, faint, good, strong } from './emphasis.ts'
import { intervalText, numberText, shortened, uncertaintyText } from './numbers.ts'
import { table } from './table.ts'
import type { Terminal } from './terminal.ts'

/** What a change moved: figures before and after, then traits and checks. */
export function printSideBySide({ figures, traits, checks }: SideBySide, terminal: Terminal): void {
  const moved = figures.filter(({ changed }) => changed)
  const columns = [
    { head: 'figure', cell: (one: Moved) => one.metric },
    { head: 'subject', cell: (one: Moved) => one.subject, wraps: true },
    { head: 'before', cell: (one: Moved) => valueText(one.before) },
    { head: 'after', cell: (one: Moved) => valueText(one.after) },
    { head: 'unit', cell: (one: Moved) => one.unit },
    { head: 'because of', cell: (one: Moved) => shortened(one.because.join('; ')), wraps: true },
  ]
  const still = figures.length - moved.length
  terminal.print(moved.length > 0 ? table(columns, moved, terminal.width) : 'no figure changes')
  if (still > 0) terminal.print(faint(`${still} figure(s) stay as they are`))
  for (const { id, before, after } of traits)
    terminal.print(`${strong(id)}: ${before ?? 'not told'} → ${after ?? 'not told'}`)
  for (const { id, path, what, now } of checks)
    terminal.print(`${now === 'raised' ? doubtful('raised') : good('settled')} ${id} ${path}: ${what}`)
}

function valueText(result: Result | null): string {
  if (!result) return 'no such subject'
  const head = headOf(result)
  if (head.value !== null)
    return [numberText(head.value, head.uncertainty), uncertaintyText(head)].filter(Boolean).join(' ± ')
  return head.low === null ? result.status : intervalText(head)
}

export function sideBySideDocument({ figures, traits, checks }: SideBySide) {
  return {
    figures: figures
      .filter(({ changed }) => changed)
      .map(({ metric, subject, unit, before, after, because }) => ({
        metric,
        subject,
        unit,
        before: before && figureDocument(before),
        after: after && figureDocument(after),
        because,
      })),
    unchanged: figures.filter(({ changed }) => !changed).length,
    traits,
    checks,
  }
}

function figureDocument({ status, value, u, low, high, how, missing }: Result) {
  return { status, value, uncertainty: u, low, high, how, missing: missing.map(describeLack) }
}
