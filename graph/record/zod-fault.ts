import type { z } from 'zod'
import { childOf, type Fault, type TreePath } from './fault.ts'
import { kindOf } from './piece.ts'
import type { Tree } from './record.ts'
import { didYouMean } from './suggest.ts'

/** Faults in our words for the issues of a schema; what was received is read from the tree. */
export function faultsOf(error: z.ZodError, tree: Tree): readonly Fault[] {
  return error.issues.flatMap((issue) => faultsOfIssue(issue, tree))
}

function faultsOfIssue(issue: z.core.$ZodIssue, tree: Tree): readonly Fault[] {
  const at = issue.path.filter((key) => typeof key !== 'symbol') as TreePath
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        at: [...at, key],
        key: true,
        what: `unknown key "${key}"`,
        mend: didYouMean(key, issue.message.split(' ')),
      }))
    case 'invalid_type':
      return [wrongType(issue.expected, at, tree)]
    case 'custom': {
      const { mend = '', key, offset } = (issue.params ?? {}) as { mend?: string; key?: true; offset?: number }
      const missing = issue.message === 'is missing'
      const what = missing ? `"${String(at.at(-1))}" is missing` : issue.message
      return [
        {
          at: missing ? at.slice(0, -1) : at,
          what,
          mend,
          ...(key && { key }),
          ...(offset !== undefined && { offset }),
        },
      ]
    }
    default:
      return [{ at, what: issue.message, mend: 'see the format of the sheet' }]
  }
}

function wrongType(expected: string, at: TreePath, tree: Tree): Fault {
  const found = at.reduce<Tree | undefined>((here, key) => childOf(here, key), tree)
  const key = String(at.at(-1) ?? 'the sheet')
  if (found === undefined) return { at: at.slice(0, -1), what: `"${key}" is missing`, mend: `add ${key}: …` }
  if (expected === 'array')
    return { at, what: `${kindOf(found)} where a list is expected`, mend: `write ${key}: [ … ], or one "- " a line` }
  return { at, what: `${kindOf(found)} where a mapping is expected`, mend: `write ${key}: { key: value, … }` }
}
