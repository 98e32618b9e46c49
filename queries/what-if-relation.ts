import { FAILSAFE_SCHEMA, load } from 'js-yaml'
import type { Edit } from '../graph/edit.ts'
import { idOf, listAt, type Mapping } from '../graph/patch-tree.ts'
import { asPath } from '../graph/quantity/quantity.ts'
import { isList, isMapping } from '../graph/record/fault.ts'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import { idOfFace } from '../graph/record/relation-id.ts'
import { QuantityInputError } from './quantity-input.ts'

/** How a relation is changed, by the form of what is typed. Terminals are changed by the name of their net. */
export const RELATION_FORMS = {
  'coolant/sequence=[inlet, a, [b, c], outlet]': 'the order of the coolant, whole',
  'coolant/a/cools/face=removed': 'a passage no longer cools a face',
  'coolant/a/cools=part/face': 'a passage cools a face besides',
  'heat/a/to=part/face': 'a heat path ends elsewhere; /from: begins elsewhere',
  'heat=part to part/face': 'a heat path more, of no resistance of its own',
  'joints/a~b=joined': 'two pieces of metal are joined; =removed: parted',
  'part/in=assembly': 'a part sits in another assembly',
} as const

/** The edits that a changed relation stands for; undefined where the text is about none. @throws QuantityInputError */
export function relationChange(record: TeardownRecord, typed: string, value: string): readonly Edit[] | undefined {
  if (/^coolant(\/[^/]+)?\/sequence$/.test(typed)) return [{ add: asPath(typed), entry: sequenceFrom(value) }]
  const cools = /^(?:coolant\/)?(?<passage>[^/]+)\/cools(?:\/(?<face>.+))?$/.exec(typed)
  if (cools) return [coolsChange(record, cools.groups!.passage!, cools.groups!.face, value)]
  const end = /^heat\/[^/]+\/(from|to)$/.test(typed)
  if (end) return [{ add: asPath(typed), entry: value }]
  if (typed === 'heat') return [heatPath(value)]
  const joint = /^joints\/(?<a>[^/~]+)~(?<b>[^/~]+)$/.exec(typed)
  if (joint && value === 'joined') {
    const [from, to] = [joint.groups!.a!, joint.groups!.b!].map((id) => asPath(partPath(record, id)))
    return [{ relate: 'joins', from: from!, to: to!, on: true }]
  }
  if (typed.endsWith('/in')) {
    const to = asPath(partPath(record, typed.slice(0, -'/in'.length)))
    const from = asPath(partPath(record, value))
    if (from === to) throw new QuantityInputError(`"${value}" cannot sit in itself`, 'name another assembly')
    return [{ relate: 'contains', from, to, on: true }]
  }
  return undefined
}

function sequenceFrom(text: string): Tree {
  const mend = 'write the whole order: coolant/sequence=[inlet, wall, [upper, lower], outlet]'
  try {
    const read = load(text, { schema: FAILSAFE_SCHEMA }) as Tree
    if (isList(read)) return read
  } catch {
    // told below: what stands there is no list
  }
  throw new QuantityInputError(`"${text}" is no order of the coolant`, mend)
}

function coolsChange(record: TeardownRecord, passage: string, face: string | undefined, value: string): Edit {
  if (passage.includes('.'))
    throw new QuantityInputError(
      `"${passage}" is one piece: what it cools is written of all`,
      `name coolant/${passage.split('.')[0]}`,
    )
  const from = asPath(`coolant/${passage}`)
  const cooled = listAt(passageAt(record, passage), 'cools').flatMap((one) =>
    isMapping(one) && typeof one.face === 'string' ? [{ id: one.id, face: one.face }] : [],
  )
  if (face === undefined)
    return { relate: 'cools', from, to: asPath(`parts/${value.replace(/^parts\//, '')}`), on: true }
  const known = cooled.find((one) => [one.id, one.face, idOfFace(one.face)].includes(face))
  const names = cooled.map((one) => `coolant/${passage}/cools/${idOfFace(one.face)}`)
  if (!known)
    throw new QuantityInputError(
      `coolant/${passage} cools no "${face}"`,
      names.join(', ') || 'it is said to cool nothing',
    )
  if (value !== 'removed')
    throw new QuantityInputError(`what a passage cools is not "${value}"`, `coolant/${passage}/cools/${face}=removed`)
  return { relate: 'cools', from, to: asPath(`parts/${known.face}`), on: false }
}

function passageAt({ tree }: TeardownRecord, id: string): Mapping {
  const coolant = isMapping(tree) ? (tree.coolant ?? {}) : {}
  const circuits = isList(coolant) ? coolant : [coolant]
  const passages = circuits.flatMap((circuit) => (isMapping(circuit) ? listAt(circuit, 'passages') : []))
  const found = passages.find((one) => idOf(one) === id)
  if (isMapping(found)) return found
  const ids = passages.flatMap((one) => idOf(one) ?? [])
  throw new QuantityInputError(
    `there is no passage "${id}"`,
    ids.length > 0 ? `passages: ${ids.join(', ')}` : 'there are none',
  )
}

function heatPath(value: string): Edit {
  const [from, to, ...more] = value.split(' to ').map((one) => one.trim())
  if (!from || !to || more.length > 0)
    throw new QuantityInputError(`"${value}" is no heat path`, 'write from what to where: heat=choke to case/deck')
  return { relate: 'conducts', from: asPath(from), to: asPath(to), on: true }
}

function partPath(record: TeardownRecord, typed: string): string {
  const reference = record.parts.refer(typed)
  if ('entry' in reference && reference.rest.length === 0 && !reference.face) return record.parts.pathOf(reference)
  throw new QuantityInputError(`there is no part "${typed}"`, 'lidoff show ID lists the parts of a record')
}
