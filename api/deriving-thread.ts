import { recordFromTree } from '../graph/record/from-tree.ts'
import type { Tree } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import { materialise } from '../queries/corpus/materialise.ts'

/** What a worker thread does: everything that is derived from the tree of a record. */
export function derive(tree: Tree): Derived {
  const read = recordFromTree(tree)
  if ('faults' in read) throw new Error(`a record that was read before is not read again: ${read.faults[0]?.what}`)
  return materialise(read.record)
}
