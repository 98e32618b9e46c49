import type { Basis } from '../../graph/quantity/basis.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { PartEntry } from '../../graph/record/part-index.ts'
import type { Fact, TeardownRecord } from '../../graph/record/record.ts'
import type { DerivedInstrument, DerivedPart, DerivedProperty, DerivedSummary } from '../../graph/store/derived.ts'
import { normalMarking } from '../../graph/store/marking.ts'
import type { Session } from '../evaluate/session.ts'

/** What a corpus search finds a record by. */
export function summaryOf(record: TeardownRecord): DerivedSummary {
  const word = (name: string): string | null => wordAt(record, asPath(`specimen/${name}`))
  const words = [...record.facts.values()].flatMap((fact) => (fact.taken.word ? [fact.taken.word] : []))
  const findings = (record.sheet.findings ?? []).flatMap((one) => [one.observation, one.reading, one.question])
  return {
    title: record.title,
    kind: record.sheet.specimen.kind ?? '',
    maker: word('maker'),
    model: word('model'),
    text: [record.title, ...words, ...findings].filter(Boolean).join('\n'),
  }
}

/** One searchable row per entry of the parts list. */
export function derivedParts(session: Session): readonly DerivedPart[] {
  const properties = propertiesByEntry(session.record)
  return session.record.parts.entries.map((entry) => derivedPart(session, entry, properties.get(entry.path) ?? []))
}

function derivedPart(session: Session, entry: PartEntry, facts: readonly Fact[]): DerivedPart {
  const { record, structure, settings } = session
  const part = structure.partNode(entry.path)
  const built = record.parts.piecesOf(entry)
  const found = structure.answer({ ask: 'pieces', of: entry.path }, { ...settings, counts: 'FOUND' }).paths.length
  const nets = unique(built.flatMap((piece) => structure.netsOf(piece.path)))
  const word = (name: string): string | null => wordAt(record, asPath(`${entry.path}/${name}`))
  const marking = word('marking')
  return {
    path: entry.path,
    id: entry.id,
    class: entry.class,
    group: part.group,
    parent: entry.parent?.path ?? null,
    built: built.length,
    found,
    type: word('type'),
    marking,
    markingNormal: marking === null ? null : normalMarking(marking),
    material: word('material'),
    states: unique(built.map((piece) => structure.stateOf(piece.path))),
    nets,
    potentials: unique(nets.flatMap((net) => structure.potentialOf(net) ?? [])),
    heatEnds: unique(
      built.flatMap((piece) => structure.answer({ ask: 'heat-ends', piece: piece.path }, settings).paths),
    ),
    properties: facts.map((fact) => propertyOf(entry.path, fact)),
    bases: unique(facts.flatMap((fact) => fact.claims.map((claim): Basis => claim.evidence.basis))),
    text: [entry.id, entry.class, part.group, ...facts.flatMap((fact) => fact.taken.word ?? [])].join(' '),
  }
}

/** Facts of each entry: its own, those of its faces and terminals, and those of single pieces. */
function propertiesByEntry(record: TeardownRecord): ReadonlyMap<Path, readonly Fact[]> {
  const byEntry = new Map<Path, Fact[]>()
  const known = new Set<string>(record.parts.entries.map((entry) => entry.path))
  for (const fact of record.facts.values()) {
    const owner = ownerOf(fact.path, known)
    if (owner) byEntry.set(owner, [...(byEntry.get(owner) ?? []), fact])
  }
  return byEntry
}

function ownerOf(path: Path, entries: ReadonlySet<string>): Path | undefined {
  const segments = path.replace(/\.[^/]*/g, '').split('/')
  for (let length = segments.length - 1; length >= 2; length--) {
    const prefix = segments.slice(0, length).join('/')
    if (entries.has(prefix)) return asPath(prefix)
  }
  return undefined
}

function propertyOf(entry: Path, { path, taken }: Fact): DerivedProperty {
  const plain = path.replace(/\.[^/]*/g, '')
  return {
    name: plain.slice(entry.length + 1),
    value: taken.quantity && !taken.quantity.bound ? taken.quantity.value : null,
    word: taken.word ?? taken.nothing ?? (taken.quantity?.bound ? taken.text : null),
    basis: taken.evidence.basis,
  }
}

function wordAt(record: TeardownRecord, path: Path): string | null {
  return record.facts.get(path)?.taken.word ?? null
}

/** Instruments of the sheet that say which one they are: kind and serial make the same one in another record. */
export function instrumentsOf(record: TeardownRecord): readonly DerivedInstrument[] {
  return Object.entries(record.sheet.instruments ?? {}).flatMap(([id, { kind, serial }]) =>
    kind !== undefined && serial !== undefined ? [{ path: asPath(`instruments/${id}`), key: `${kind} ${serial}` }] : [],
  )
}

const unique = <T>(items: readonly T[]): readonly T[] => [...new Set(items)]
