import { basename } from 'node:path'
import { printComplaint } from '../../graph/sheet/complaint.ts'
import { pathLocator } from '../../graph/sheet/locate-path.ts'
import type { DerivedCheck } from '../../graph/store/derived.ts'
import { checksOf } from '../../queries/corpus/materialise.ts'
import { openSession } from '../../queries/evaluate/session.ts'
import { bad, doubtful, faint, good, strong } from './emphasis.ts'
import type { SheetReading } from './sheet-file.ts'
import type { Terminal } from './terminal.ts'

/** A reading for a person: errors, warnings, what the checks find, how quantities were read, one line to end with. */
export function printReading(reading: SheetReading, terminal: Terminal, shown: { readonly readings: boolean }): void {
  const { file, text, record, complaints, warnings, readings } = reading
  for (const one of complaints) terminal.print(`${bad('error')} ${printComplaint(one, text)}`)
  for (const one of warnings) terminal.print(`${doubtful('warning')} ${printComplaint(one, text)}`)
  const found = checksFor(reading)
  for (const one of found) terminal.print(findingText(reading, one))
  if (shown.readings && record)
    for (const { path, text: typed, read } of readings) terminal.print(`  ${path}: ${typed} ${faint(`→ ${read}`)}`)
  const tally = `${complaints.length} errors, ${warnings.length} warnings, ${found.length} findings of checks`
  terminal.print(`${record ? good('ok') : bad('not ok')} ${strong(basename(file))}: ${tally}`)
}

/** As an error is printed, with the line of the sheet; of a place that the sheet does not spell out, with its path alone. */
function findingText({ file, text }: SheetReading, { path, severity, what, mend, line, column }: PlacedCheck): string {
  if (line === null || column === null)
    return `${doubtful(`check (${severity})`)} ${path}: ${what}\n        ${faint(mend)}`
  return `${doubtful(`check (${severity})`)} ${printComplaint({ file, line, column, path, what, mend }, text)}`
}

export function readingDocument(reading: SheetReading) {
  const { file, record, complaints, warnings, readings } = reading
  return {
    file,
    id: record?.id ?? null,
    ok: record !== null,
    errors: complaints,
    warnings,
    checks: checksFor(reading),
    readings,
  }
}

/** A finding of a check with its line, 1-based; null where the sheet does not spell its place out. */
type PlacedCheck = DerivedCheck & { readonly line: number | null; readonly column: number | null }

function checksFor({ record, text }: SheetReading): readonly PlacedCheck[] {
  const found = record ? checksOf(openSession(record)) : []
  if (found.length === 0) return []
  const spot = pathLocator(text)
  return found.map((one) => ({ ...one, ...(spot(one.path) ?? { line: null, column: null }) }))
}
