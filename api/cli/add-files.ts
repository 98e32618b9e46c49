import { Presets, SingleBar } from 'cli-progress'
import { pMapIterable } from 'p-map'
import type { Committed, Expected, Store, Write } from '../../graph/store/store.ts'
import { type Deriving, openDeriving } from '../deriving.ts'
import { FAULTS, type FaultDocument, faultDocument } from '../errors.ts'
import { faultOf } from '../fault-of.ts'
import { DERIVED_STAMP, writeOf } from '../sheets.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { bad } from './emphasis.ts'
import { readSheetFile, type SheetReading } from './sheet-file.ts'
import { printReading, readingDocument } from './sheet-report.ts'
import type { Terminal } from './terminal.ts'

interface Choice {
  readonly expected?: Expected
  readonly by?: string
}

interface Added {
  readonly reading: SheetReading
  readonly committed: Committed | null
  readonly fault: FaultDocument | null
}

/** A bar is drawn from so many files on. */
const MANY = 5

/** Stores sheets one by one; a file that is refused leaves the others alone. The worst status is the answer's. */
export function addFiles(call: Call, files: readonly string[], choice: Choice): Promise<number> {
  return withCorpus(call, 'make', async ({ store }) => {
    const added = await addAll(call, store, files, choice)
    const refused = added.filter(({ committed }) => committed === null)
    if (refused.length > 0)
      call.terminal.say(`${refused.length} of ${added.length} files not stored; nothing of them was written`)
    call.terminal.document({ ok: refused.length === 0, files: added.map(documentOf) })
    return Math.max(0, ...refused.map(({ fault }) => (fault ? FAULTS[fault.code].exit : FAULTS.SHEET_INVALID.exit)))
  })
}

/** Sheets are read and derived beside each other, and stored in the order they were named. */
async function addAll(call: Call, store: Store, files: readonly string[], choice: Choice): Promise<readonly Added[]> {
  const deriving = openDeriving(files.length)
  const progress = startProgress(call.terminal, files.length)
  const added: Added[] = []
  try {
    const prepared = (file: string) => prepareFile(call, { store, deriving }, file, choice)
    for await (const { reading, finish } of pMapIterable(files, prepared, deriving.ahead)) {
      const one: Added = { reading, ...(await finish()) }
      added.push(one)
      if (progress) progress()
      else report(one, call.terminal)
    }
    // A line between would break the bar.
    if (progress) for (const one of added) report(one, call.terminal)
    return added
  } finally {
    await deriving.close()
  }
}

interface Prepared {
  readonly reading: SheetReading
  /** Writes it, if there is anything to write. */
  finish(): Promise<Omit<Added, 'reading'>>
}

async function prepareFile(
  call: Call,
  { store, deriving }: { readonly store: Store; readonly deriving: Deriving },
  file: string,
  { expected, by }: Choice,
): Promise<Prepared> {
  const reading = await readSheetFile(file, call.stdin)
  const { record, text } = reading
  if (!record) return { reading, finish: async () => ({ committed: null, fault: null }) }
  const known = await alreadyStored(store, record.id, text, expected)
  if (known) return { reading, finish: async () => ({ committed: known, fault: null }) }
  const derived = await deriving.derive(record)
  const write = writeOf(record, text, derived, { at: call.now(), expected, ...(by && { by }) })
  return { reading, finish: () => commit(store, write) }
}

async function commit(store: Store, write: Write): Promise<Omit<Added, 'reading'>> {
  try {
    return { committed: await store.commit(write), fault: null }
  } catch (error) {
    const fault = faultOf(error)
    if (fault.code === 'INTERNAL') throw fault
    return { committed: null, fault: faultDocument(fault) }
  }
}

/** What is stored, when it is this text with the figures of this version: nothing needs to be computed. */
async function alreadyStored(
  store: Store,
  id: string,
  text: string,
  expected: Expected,
): Promise<Committed | undefined> {
  if ((await store.teardownRows([id])).length === 0) return undefined
  const { stamp } = await store.head(id)
  const { revision, hash, sheetText } = await store.revision(id)
  const asExpected = expected === undefined || expected === revision
  return asExpected && stamp === DERIVED_STAMP && sheetText === text
    ? { id, revision, hash, unchanged: true }
    : undefined
}

function report({ reading, committed, fault }: Added, terminal: Terminal): void {
  if (committed) {
    const { id, revision, unchanged } = committed
    terminal.print(`${id}: ${unchanged ? `revision ${revision} says this already` : `stored as revision ${revision}`}`)
    for (const { line, path, what } of reading.warnings) terminal.say(`${reading.file}:${line} ${path}: ${what}`)
  } else if (fault) terminal.print(`${bad('refused')} ${reading.file}: ${fault.message}\n        ${fault.mend ?? ''}`)
  else printReading(reading, terminal, { readings: false })
}

function documentOf({ reading, committed, fault }: Added) {
  const { readings: _, ...read } = readingDocument(reading)
  return { ...read, ok: committed !== null, stored: committed, ...(fault && { error: fault }) }
}

/** A bar on standard error while a person watches; the answer is called when one more file is done. */
function startProgress({ watched, stderr }: Terminal, total: number): (() => void) | null {
  if (!watched || total < MANY) return null
  const bar = new SingleBar(
    { stream: stderr as NodeJS.WriteStream, clearOnComplete: true, format: 'sheets {bar} {value}/{total}' },
    Presets.rect,
  )
  bar.start(total, 0)
  let done = 0
  return () => {
    bar.increment()
    done += 1
    if (done === total) bar.stop()
  }
}
