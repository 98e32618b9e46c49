import { asPath, type Path } from '../quantity/quantity.ts'
import { splitPiece } from './part-index.ts'
import type { TeardownRecord } from './record.ts'

/** Canonical path of anything a sheet names, with or without its section: `film/thickness` → `parts/film/thickness`. */
export function thingPath(record: TeardownRecord, text: string): Path {
  const reference = record.parts.refer(text)
  if ('entry' in reference) return asPath([record.parts.pathOf(reference), ...reference.rest].join('/'))
  const section = sectionOf(record, splitPiece(text.split('/')[0] ?? '').name)
  return asPath(section === undefined ? text : `${section}/${text}`)
}

/** Section that holds an id which is no part's: ids are unique in the whole sheet. */
function sectionOf({ sheet }: TeardownRecord, id: string): string | undefined {
  const lists = {
    coolant: (sheet.coolant ?? []).flatMap(({ passages }) => passages ?? []),
    heat: sheet.heat,
    joints: sheet.joints,
    voltages: sheet.voltages,
    spacings: sheet.spacings,
    boundaries: sheet.boundaries,
    steps: sheet.steps,
    findings: sheet.findings,
    photos: sheet.photos,
    census: sheet.census,
    observed: sheet.observed,
  }
  const named = { nets: sheet.nets, loops: sheet.loops, materials: sheet.materials, instruments: sheet.instruments }
  const holds = (list: readonly { readonly id: string }[] | undefined): boolean =>
    (list ?? []).some((one) => one.id === id)
  return (
    Object.entries(lists).find(([, list]) => holds(list))?.[0] ??
    Object.entries(named).find(([, entries]) => Object.hasOwn(entries ?? {}, id))?.[0]
  )
}
