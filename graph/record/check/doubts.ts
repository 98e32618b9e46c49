import { asPath } from '../../quantity/quantity.ts'
import { MATERIALS } from '../material-table.ts'
import { closest } from '../suggest.ts'
import type { Known } from './known.ts'

/** What is not wrong but should be known to whoever wrote the sheet. */
export function warnOfDoubts(known: Known): void {
  provedDead(known)
  glycolShare(known)
  materialNames(known)
}

/** A link that holds its charge is the first thing that kills: the log of a unit with one starts with the proof. */
function provedDead({ record, warn }: Known): void {
  const potentials = Object.values(record.sheet.nets ?? {}).map((net) => net.potential)
  const link =
    potentials.includes('hv-positive') ||
    potentials.includes('hv-negative') ||
    record.parts.entries.some((entry) => entry.class === 'dc-link-film-capacitor')
  const steps = record.sheet.steps ?? []
  if (!link || steps[0]?.['proved-dead']) return
  const later = steps.findIndex((step) => step['proved-dead'])
  const what =
    later < 0 ? 'a unit with a DC link, and no step proves it dead' : 'the first step does not prove the DC link dead'
  warn(
    steps.length > 0 ? ['steps', 0] : ['specimen'],
    what,
    'start with { id: prove-dead, proved-dead: { across: [dc-plus, dc-minus], reading: … } }; a charged link kills, follow local codes and leave it to licensed hands',
  )
}

function glycolShare({ record, warn }: Known): void {
  for (const [n, circuit] of (record.sheet.coolant ?? []).entries()) {
    const path = asPath(circuit.id === undefined ? 'coolant/fluid' : `coolant/${circuit.id}/fluid`)
    const fluid = record.facts.get(path)?.taken.word
    if (fluid?.includes('glycol') && !circuit['glycol-by-volume'] && !circuit['glycol-by-mass']) {
      warn(
        record.sheet.coolant?.length === 1 ? ['coolant'] : ['coolant', n],
        `${fluid} without the share of glycol`,
        'add glycol-by-volume: 50 % (marked), or glycol-by-mass',
      )
    }
  }
}

/** A material that is in no table carries no data: said once for each name. */
function materialNames({ record, partPlaces, warn }: Known): void {
  const own = Object.keys(record.sheet.materials ?? {})
  const known = new Set([...own, ...Object.keys(MATERIALS)])
  const said = new Set<string>()
  for (const [path, { taken, dimension }] of record.facts) {
    if (dimension !== 'text' || !path.startsWith('parts/') || !path.endsWith('/material') || taken.word === undefined)
      continue
    if (known.has(taken.word) || said.has(taken.word)) continue
    said.add(taken.word)
    const near = closest(taken.word, known)
    const place = path.replace(/\.[^/]*/g, '').replace(/\/material$/, '')
    const entry = record.parts.entries.find((one) => one.path === place)
    warn(
      [...(partPlaces.get(entry?.id ?? '') ?? ['parts']), 'material'],
      `the material "${taken.word}" is in no table: its density and conductivity are not known`,
      near === undefined ? 'add it under materials:, or state what is needed at the part' : `did you mean "${near}"?`,
    )
  }
}
