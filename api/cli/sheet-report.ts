import { basename } from 'node:path'
import { printComplaint } from '../../graph/sheet/complaint.ts'
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
  for (const { path, what, mend, severity } of found)
    terminal.print(`${doubtful(severity)} ${path}: ${what}\n        ${faint(mend)}`)
  if (shown.readings && record)
    for (const { path, text: typed, read } of readings) terminal.print(`  ${path}: ${typed} ${faint(`→ ${read}`)}`)
  const tally = `${complaints.length} errors, ${warnings.length} warnings, ${found.length} findings of checks`
  terminal.print(`${record ? good('ok') : bad('not ok')} ${strong(basename(file))}: ${tally}`)
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

function checksFor({ record }: SheetReading): readonly DerivedCheck[] {
  return record ? checksOf(openSession(record)) : []
}
