import { asPath, type Influence } from '../quantity/quantity.ts'
import { addFact, addInfluence, type Book } from './book.ts'
import { MATERIAL_DIMENSIONS, MATERIAL_SOURCE, MATERIALS, type Spread } from './material-table.ts'
import type { Claim, Fact } from './record.ts'

type Property = keyof typeof MATERIAL_DIMENSIONS
const PROPERTIES = Object.keys(MATERIAL_DIMENSIONS) as readonly Property[]

/**
 * Data of the materials that parts are made of, where the sheet states none of its own, at `materials/<name>/<property>`.
 * That this piece has them is assumed; their spread is one cause of doubt for every unit with that material.
 */
export function enterMaterials(book: Book): void {
  const names = new Set<string>()
  for (const { path, taken, dimension } of book.facts.values()) {
    if (dimension === 'text' && path.endsWith('material') && taken.word !== undefined) names.add(taken.word)
  }
  for (const name of names) {
    if (!Object.hasOwn(MATERIALS, name)) continue
    for (const property of PROPERTIES) {
      const spread = MATERIALS[name]?.[property]
      const path = asPath(`materials/${name}/${property}`)
      if (!spread || book.facts.has(path)) continue
      const { fact, influence } = factOf(name, property, spread)
      addFact(book, fact)
      addInfluence(book, influence)
    }
  }
}

const made = new Map<string, { readonly fact: Fact; readonly influence: Influence }>()

function factOf(name: string, property: Property, [value, relative]: Spread) {
  const path = asPath(`materials/${name}/${property}`)
  const known = made.get(path)
  if (known) return known
  const id = `table:${path}`
  const shape = { kind: 'rectangular', low: -relative, high: relative } as const
  const influence: Influence = { id, scope: 'corpus', shape, about: `${property} of ${name} in the table of materials` }
  const text = `${value} ± ${+(relative * 100).toPrecision(2)} % (table of materials)`
  const claim: Claim = {
    id: `${path}#1`,
    text,
    evidence: { basis: 'assumed', restsOn: [], from: MATERIAL_SOURCE },
    quantity: {
      value,
      terms: [{ influence: id, mode: 'scale', weight: 1 }],
      basis: 'assumed',
      claim: `${path}#1`,
      text,
      defaulted: false,
      restsOn: [],
    },
  }
  const fact: Fact = { path, dimension: MATERIAL_DIMENSIONS[property], claims: [claim], taken: claim }
  made.set(path, { fact, influence })
  return { fact, influence }
}
