import { FAILSAFE_SCHEMA, load, YAMLException } from 'js-yaml'
import type { Fault } from '../record/fault.ts'
import { type Reading, recordFromTree } from '../record/from-tree.ts'
import type { TeardownRecord, Tree } from '../record/record.ts'
import type { Complaint } from './complaint.ts'
import { eatenComments } from './eaten.ts'
import { emptyValues } from './empty.ts'
import { gate, LARGEST } from './gate.ts'
import { locator } from './locate.ts'
import { inOurWords } from './yaml-trouble.ts'

/** A sheet read: the record, or everything that is wrong with it, each at its place. */
export type SheetRead =
  | { readonly record: TeardownRecord; readonly warnings: readonly Complaint[]; readonly readings: readonly Reading[] }
  | { readonly complaints: readonly Complaint[]; readonly warnings: readonly Complaint[] }

/**
 * Reads the text of a sheet. Synchronous and pure: file access is the caller's. What could do harm is refused before it
 * is parsed; every scalar stays the text that was typed; all complaints are given at once.
 *
 * @param file name to print in complaints
 */
export function readSheet(text: string, file: string): SheetRead {
  const refused = gate(text)
  const eaten = text.length > LARGEST ? { errors: [], warnings: [] } : eatenComments(text)
  if (refused.length > 0) {
    const others = eaten.errors.length > 0 ? refused.filter(({ what }) => !what.includes('never closed')) : refused
    return {
      complaints: [...eaten.errors, ...others].map((one) => ({ file, path: '', ...one })).toSorted(inOrder),
      warnings: [],
    }
  }
  const parsed = parse(text)
  if ('trouble' in parsed) {
    const troubles = eaten.errors.length > 0 ? eaten.errors : [inOurWords(parsed.trouble, text)]
    return { complaints: troubles.map((one) => ({ file, path: '', ...one })), warnings: [] }
  }
  const { tree, faults: empty } = emptyValues(parsed.tree)
  if (empty.length > 0) return { complaints: located(empty, text, file), warnings: [] }
  const read = recordFromTree(tree)
  const complaints = [
    ...eaten.errors.map((one) => ({ file, path: '', ...one })),
    ...('faults' in read ? located(read.faults, text, file) : []),
  ]
  const warnings = [...eaten.warnings.map((one) => ({ file, path: '', ...one })), ...located(read.warnings, text, file)]
  if ('faults' in read || complaints.length > 0) return { complaints: complaints.toSorted(inOrder), warnings }
  return {
    record: read.record,
    warnings: warnings.toSorted(inOrder),
    get readings() {
      return read.readings
    },
  }
}

function parse(text: string): { readonly tree: unknown } | { readonly trouble: YAMLException } {
  try {
    return { tree: load(text, { schema: FAILSAFE_SCHEMA }) }
  } catch (error) {
    if (error instanceof YAMLException) return { trouble: error }
    throw error
  }
}

function located(faults: readonly Fault[], text: string, file: string): readonly Complaint[] {
  return faults.length === 0 ? [] : faults.map(locator(text, file))
}

const inOrder = (a: Complaint, b: Complaint): number => a.line - b.line || a.column - b.column

/** The tree of a sheet that is known to be well formed, e.g. one that was read before. */
export function treeOf(text: string): Tree {
  return emptyValues(load(text, { schema: FAILSAFE_SCHEMA })).tree
}
