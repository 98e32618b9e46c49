import { basename } from 'node:path'
import { printComplaint } from '../../graph/sheet/complaint.ts'
import { pathLocator } from '../../graph/sheet/locate-path.ts'
import type { DerivedCheck } from '../../graph/store/derived.ts'
import { checksOf } from '../../queries/corpus/materialise.ts'
import { asStated } from '../../queries/evaluate/budget.ts'
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
  for (const [first, ...alike] of groupedAlike(found)) terminal.print(findingText(reading, first, alike.length))
  if (shown.readings && record)
    for (const { path, text: typed, read } of readings) terminal.print(`  ${path}: ${typed} ${faint(`→ ${read}`)}`)
  const counts = tallyOf(found)
  const tally = `${complaints.length} errors, ${warnings.length} warnings, ${tallyText(counts, found.length)}`
  const stored = record && counts.error > 0 ? '; it can be stored all the same' : ''
  terminal.print(`${verdict(reading, counts)} ${strong(basename(file))}: ${tally}${stored}`)
}

/** A sheet that can be read is not ok where a check finds that its values contradict each other. */
function verdict({ record }: SheetReading, { error }: Tally): string {
  if (!record) return bad('not ok')
  return error > 0 ? doubtful('doubtful') : good('ok')
}

type Tally = Readonly<Record<DerivedCheck['severity'], number>>

function tallyOf(found: readonly DerivedCheck[]): Tally {
  const of = (severity: DerivedCheck['severity']): number => found.filter((one) => one.severity === severity).length
  return { error: of('error'), warning: of('warning'), question: of('question') }
}

function tallyText(counts: Tally, all: number): string {
  const parts = Object.entries(counts).flatMap(([name, count]) =>
    count > 0 ? [`${count} ${name}${count > 1 ? 's' : ''}`] : [],
  )
  return `${all} findings of checks${parts.length > 0 ? ` (${parts.join(', ')})` : ''}`
}

/** Findings that differ in nothing but the names of pieces are one, at its first place. */
function groupedAlike(found: readonly PlacedCheck[]): Iterable<readonly [PlacedCheck, ...PlacedCheck[]]> {
  const groups = new Map<string, [PlacedCheck, ...PlacedCheck[]]>()
  for (const one of found) {
    const reads = [one.id, one.severity, one.path, one.what, one.mend].map(asStated).join('|')
    const known = groups.get(reads)
    if (known) known.push(one)
    else groups.set(reads, [one])
  }
  return groups.values()
}

/** As an error is printed, with the line of the sheet; of a place that the sheet does not spell out, with its path alone. */
function findingText({ file, text }: SheetReading, found: PlacedCheck, alike: number): string {
  const { path, severity, mend, line, column } = found
  const what = `${found.what}${alike > 0 ? ` (and ${alike} alike)` : ''}`
  const head = (severity === 'error' ? bad : doubtful)(`check (${severity})`)
  if (line === null || column === null) return `${head} ${path}: ${what}\n        ${faint(mend)}`
  return `${head} ${printComplaint({ file, line, column, path, what, mend }, text)}`
}

export function readingDocument(reading: SheetReading) {
  const { file, record, complaints, warnings, readings } = reading
  const found = checksFor(reading)
  return {
    file,
    id: record?.id ?? null,
    ok: record !== null,
    errors: complaints,
    warnings,
    checks: found,
    found: tallyOf(found),
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
