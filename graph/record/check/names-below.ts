import { structureKeys } from '../part.ts'
import { partClassOf } from '../part-class.ts'
import { COMMON_FIELDS } from '../part-fields.ts'

const ALWAYS: readonly string[] = [
  ...Object.keys(COMMON_FIELDS),
  ...[
    'at',
    'turn',
    'terminals',
    'faces',
    'count',
    'each',
    'loss',
    'state',
    'net',
    'parts',
    'class',
    'id',
    'type',
    'also',
  ],
]

/** Names that can follow a part of one of these classes in a path. */
export function namesBelow(classes: Iterable<string>): ReadonlySet<string> {
  const names = new Set(ALWAYS)
  for (const name of classes) {
    const found = partClassOf(name)
    if (!found) continue
    for (const property in found.properties) names.add(property)
    for (const structure of found.structures) for (const key of structureKeys(structure)) names.add(key)
  }
  return names
}
