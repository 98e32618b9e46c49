import type { Claim, Fact } from '../../graph/record/record.ts'
import type { RevisionHead, Store } from '../../graph/store/store.ts'
import { CAUTIONS } from '../cautions.ts'
import type { Opened } from '../corpus.ts'
import { Fault } from '../errors.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { textOf } from './command.ts'
import { withCorpus } from './database.ts'
import { doubtful, faint, strong } from './emphasis.ts'
import { table } from './table.ts'
import type { Terminal } from './terminal.ts'

export function showRecord(call: Call): Promise<number> {
  const { options, terminal } = call
  const id = call.args[0]!
  return withCorpus(call, 'refuse', async (corpus) => {
    if (options.history === true) return showHistory(corpus.store, id, terminal)
    if (options.sheet === true) return showSheet(corpus.store, id, revisionOf(textOf(options, 'revision')), terminal)
    const opened = await corpus.open(id)
    if (options.values === true) return showValues(opened, terminal)
    return showSummary(corpus.store, opened, terminal)
  })
}

async function showHistory(store: Store, id: string, terminal: Terminal): Promise<number> {
  const revisions = await store.history(id)
  const columns = [
    { head: 'revision', cell: (one: RevisionHead) => String(one.revision), align: 'right' as const },
    { head: 'written', cell: (one: RevisionHead) => one.at },
    { head: 'by', cell: (one: RevisionHead) => one.by ?? '' },
    { head: 'hash', cell: (one: RevisionHead) => one.hash.slice(0, 12) },
    { head: '', cell: (one: RevisionHead) => (one.withdrawn ? 'withdrawn' : '') },
  ]
  terminal.print(table(columns, revisions, terminal.width))
  terminal.document({ id, revisions })
  return 0
}

async function showSheet(store: Store, id: string, revision: number | undefined, terminal: Terminal): Promise<number> {
  const found = await store.revision(id, revision)
  terminal.print(found.sheetText.trimEnd())
  terminal.document({ id, revision: found.revision, sheet: found.sheetText })
  return 0
}

function showValues({ id, revision, record }: Opened, terminal: Terminal): number {
  const facts = [...record.facts.values()]
  const columns = [
    { head: 'path', cell: (one: Fact) => one.path, wraps: true },
    { head: 'as written', cell: (one: Fact) => one.taken.text, wraps: true },
    { head: 'basis', cell: (one: Fact) => one.taken.evidence.basis },
    { head: 'also claimed', cell: (one: Fact) => losing(one).map(claimText).join('; '), wraps: true },
  ]
  terminal.print(table(columns, facts, terminal.width))
  terminal.document({
    id,
    revision,
    values: facts.map((fact) => ({
      path: fact.path,
      text: fact.taken.text,
      basis: fact.taken.evidence.basis,
      ...(fact.because !== undefined && { because: fact.because }),
      others: losing(fact).map(({ text, evidence }) => ({ text, basis: evidence.basis })),
    })),
  })
  return 0
}

/** Claims that are kept but not taken. */
const losing = ({ claims, taken }: Fact): readonly Claim[] => claims.filter((claim) => claim.id !== taken.id)

const claimText = ({ text, evidence }: Claim): string =>
  text.includes(evidence.basis) ? text : `${text} (${evidence.basis})`

async function showSummary(store: Store, { id, title, revision, record }: Opened, terminal: Terminal): Promise<number> {
  const [row] = await store.teardownRows([id])
  const traits = await store.traitsOf([id])
  const checks = await store.checksOf([id])
  const parts = record.parts.entries.map((entry) => ({
    path: entry.path,
    class: entry.class,
    built: record.parts.piecesOf(entry).length,
    inside: entry.parent?.id ?? null,
  }))
  const findings = record.sheet.findings ?? []
  terminal.print(strong(`${title} (${id}, revision ${revision})`))
  terminal.print(faint([row?.kind, row?.maker, row?.model, `written ${row?.at}`].filter(Boolean).join(' · ')))
  terminal.print('')
  const columns = [
    { head: 'part', cell: (part: (typeof parts)[number]) => part.path, wraps: true },
    { head: 'class', cell: (part: (typeof parts)[number]) => part.class },
    { head: 'pieces', cell: (part: (typeof parts)[number]) => String(part.built), align: 'right' as const },
    { head: 'inside', cell: (part: (typeof parts)[number]) => part.inside ?? '' },
  ]
  terminal.print(table(columns, parts, terminal.width))
  terminal.print('')
  for (const { id: name, value, basis } of traits)
    terminal.print(`${name}: ${value}${basis ? faint(` (${basis})`) : ''}`)
  for (const { path, severity, what, mend } of checks)
    terminal.print(`${doubtful(severity)} ${path}: ${what}\n        ${faint(mend)}`)
  for (const one of findings) {
    terminal.print(
      `finding ${one.id}${one.status ? ` (${one.status})` : ''}: ${one.observation ?? one.question ?? ''} ${one.reading ? `→ ${one.reading}` : ''}`,
    )
  }
  printCautions(CAUTIONS, terminal)
  terminal.document({ ...row, parts, traits, checks, findings, cautions: CAUTIONS })
  return 0
}

function revisionOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  if (/^[1-9]\d{0,8}$/.test(text)) return Number(text)
  throw new Fault('USAGE', `"${text}" is not a revision`, 'a whole number from 1')
}
