import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Derived, DerivedFigure, DerivedPart } from '../../../graph/store/derived.ts'
import { normalMarking } from '../../../graph/store/marking.ts'
import { type OpenChoice, openStore } from '../../../graph/store/sqlite.ts'
import type { Store, Write } from '../../../graph/store/store.ts'

/** A part of the Saltmarsh Yard's invented units; what a test is about differs from this. */
export function part(path: string, differs: Partial<DerivedPart> = {}): DerivedPart {
  const marking = differs.marking ?? null
  return {
    path: asPath(path),
    id: path.slice(path.lastIndexOf('/') + 1),
    class: 'film-capacitor',
    group: 'passive',
    parent: null,
    built: 1,
    found: 1,
    type: null,
    marking,
    markingNormal: marking === null ? null : normalMarking(marking),
    material: null,
    states: ['whole'],
    nets: [],
    potentials: [],
    heatEnds: [],
    properties: [],
    bases: ['measured'],
    text: `${path} film capacitor`,
    ...differs,
  }
}

export function figure(metric: string, value: number | null, differs: Partial<DerivedFigure> = {}): DerivedFigure {
  return {
    metric,
    subject: asPath('specimen'),
    conditions: 'default',
    status: value === null ? 'MISSING' : 'OK',
    unit: 'kW/L',
    value,
    atTaken: value,
    uncertainty: value === null ? null : value / 10,
    low: value === null ? null : value * 0.8,
    high: value === null ? null : value * 1.2,
    how: 'first-order',
    basis: value === null ? null : 'measured',
    reason: value === null ? 'measure the volume' : null,
    components: value === null ? {} : { 'own tolerance': value / 10 },
    body: JSON.stringify({ metric, value }),
    ...differs,
  }
}

export function derived(differs: Partial<Derived> = {}): Derived {
  return {
    summary: {
      title: 'Fore drive of a ferry',
      kind: 'traction-inverter',
      maker: null,
      model: null,
      text: 'ferry fore drive',
    },
    parts: [part('parts/link-cap')],
    passages: [],
    figures: [figure('POWER_DENSITY', 11.1)],
    traits: [],
    checks: [],
    ...differs,
  }
}

/** Named parts and the passages that cool them, in the order of the coolant. */
export function cooled(
  ...stages: readonly (readonly [passage: string, ...parts: readonly DerivedPart[]])[]
): Partial<Derived> {
  const paths = stages.map(([passage]) => asPath(`coolant/${passage}`))
  return {
    parts: stages.flatMap(([, ...parts], at) =>
      parts.map((one) => ({ ...one, heatEnds: [...one.heatEnds, paths[at]!] })),
    ),
    passages: paths.map((path, stage) => ({ path, stage, upstream: paths.slice(0, stage) })),
  }
}

export const AT = '2026-11-19T08:00:00Z'

export function write(id: string, differs: Partial<Write> = {}): Write {
  return {
    id,
    sheetText: `id: ${id}\n`,
    body: JSON.stringify({ id }),
    expected: undefined,
    derived: derived(),
    at: AT,
    ...differs,
  }
}

const folders: string[] = []
const stores: Store[] = []

afterEach(async () => {
  for (const store of stores.splice(0)) await store.close()
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

/** A path in a folder of its own, which goes after the test. */
export function newFile(name = 'units.db'): string {
  const folder = mkdtempSync(join(tmpdir(), 'store-'))
  folders.push(folder)
  return join(folder, name)
}

/** A store that is closed after the test. */
export async function opened(choice: Partial<OpenChoice> = {}): Promise<Store> {
  const store = await openStore({ file: newFile(), ...choice })
  stores.push(store)
  return store
}

export async function filled(
  units: Readonly<Record<string, Partial<Derived>>>,
  choice?: Partial<OpenChoice>,
): Promise<Store> {
  const store = await opened(choice)
  await store.commitAll(Object.entries(units).map(([id, differs]) => write(id, { derived: derived(differs) })))
  return store
}
