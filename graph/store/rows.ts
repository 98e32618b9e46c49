import { basesToBits } from './bases.ts'
import type { Derived, DerivedPart } from './derived.ts'
import { folded } from './marking.ts'
import { packed } from './packed.ts'
import { byCodePoint, PARTS_LIMIT, partRange } from './part-number.ts'
import { Unstorable } from './store-error.ts'
import type { StoredRow, StoredRows } from './tables.ts'
import { searchable } from './words.ts'

/** Everything derived from one record as rows of the tables. */
export function rowsOf(id: string, teardown: number, derived: Derived): StoredRows {
  const parts = [...derived.parts].sort((a, b) => byCodePoint(a.path, b.path))
  if (parts.length > PARTS_LIMIT)
    throw new Unstorable(id, `${parts.length} parts`, `at most ${PARTS_LIMIT} can be kept`)
  const first = partRange(teardown).low
  const passages = new Map(derived.passages.map((passage) => [passage.path as string, passage.upstream]))
  return {
    summary: [summaryRow(teardown, derived)],
    part: parts.map((part, at) => partRow(teardown, first + at, part)),
    tag: parts.flatMap((part, at) => tagRows(first + at, part, passages)),
    property: parts.flatMap((part, at) => propertyRows(first + at, part)),
    passage: derived.passages.map(({ path, stage, upstream }) => [teardown, path, stage, JSON.stringify(upstream)]),
    figure: derived.figures.map((figure) => [
      ...[figure.metric, figure.conditions, teardown, figure.subject, figure.status, figure.unit],
      ...[figure.value, figure.atTaken, figure.uncertainty, figure.low, figure.high],
      ...[figure.how, figure.basis, figure.reason],
    ]),
    detail: derived.figures.map((figure) => [
      ...[teardown, figure.metric, figure.conditions, figure.subject],
      ...[packed(componentsText(id, figure)), packed(figure.body)],
    ]),
    trait: derived.traits.map(({ id: trait, subject, value, basis }) => [trait, value, teardown, subject, basis]),
    finding: derived.checks.map((check, rank) => [
      ...[teardown, rank, check.id, check.path, check.severity, check.what, check.mend],
    ]),
    instrument: (derived.instruments ?? []).map(({ key, path }) => [key, teardown, path]),
  }
}

function summaryRow(teardown: number, { summary }: Derived): StoredRow {
  const { title, kind, maker, model, text } = summary
  return [teardown, title, folded(title), kind, maker, maker === null ? null : folded(maker), model, searchable(text)]
}

function partRow(teardown: number, number: number, part: DerivedPart): StoredRow {
  return [
    ...[number, part.path, teardown, part.id, part.class, part.group, part.parent, part.built, part.found],
    ...[part.type, part.marking, part.markingNormal, part.material, basesToBits(part.bases), searchable(part.text)],
  ]
}

/** `upstream` repeats for each part what its passages have before them, so that following the coolant is one step. */
function tagRows(number: number, part: DerivedPart, passages: ReadonlyMap<string, readonly string[]>): StoredRow[] {
  const reached = part.heatEnds.filter((end) => passages.has(end))
  const tags: Readonly<Record<string, readonly string[]>> = {
    class: [part.class, part.group],
    net: part.nets.map(netPath),
    potential: part.potentials,
    state: part.states,
    end: part.heatEnds,
    'end-name': part.heatEnds.flatMap(namesOfEnd),
    passage: reached,
    upstream: reached.flatMap((end) => passages.get(end) ?? []),
  }
  return Object.entries(tags).flatMap(([kind, values]) => [...new Set(values)].map((value) => [number, kind, value]))
}

function propertyRows(number: number, part: DerivedPart): StoredRow[] {
  const ranks = new Map<string, number>()
  return part.properties.map(({ name, value, word, basis }) => {
    const rank = ranks.get(name) ?? 0
    ranks.set(name, rank + 1)
    return [number, name, rank, value, word, basis]
  })
}

/** The section may be left out of a net's path. */
export function netPath(net: string): string {
  return net.startsWith('nets/') ? net : `nets/${net}`
}

/** `coolant/lower.v` → itself, `coolant/lower`, `lower.v`, `lower`: what a person may call it. */
function namesOfEnd(path: string): readonly string[] {
  const last = path.slice(path.lastIndexOf('/') + 1)
  return [path, path.replace(/\.[^/]*/g, ''), last, last.replace(/\..*$/, '')]
}

function componentsText(id: string, { metric, subject, components }: Derived['figures'][number]): string {
  const entries = Object.entries(components).sort(([a], [b]) => byCodePoint(a, b))
  for (const [influence, component] of entries) {
    if (!Number.isFinite(component)) {
      throw new Unstorable(
        `${id} ${metric} ${subject}`,
        `the component of ${influence} is ${component}`,
        'leave it out',
      )
    }
  }
  return JSON.stringify(Object.fromEntries(entries))
}
