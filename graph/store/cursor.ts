import { createHash } from 'node:crypto'
import type { Page, Span } from './question.ts'
import type { SqlValue } from './sql.ts'
import { BadCursor, BadRequest } from './store-error.ts'

const PAGE_LIMIT = 1000

/**
 * A cursor names the last item seen by its place in the order, never by how many came before. It carries a digest of
 * itself and of the list it belongs to (filter and order), so that one that was altered or taken from elsewhere is
 * noticed rather than answered from the wrong place.
 */
export interface Cursors {
  write(position: readonly SqlValue[]): string
  read(cursor: string): readonly SqlValue[]
}

/** @param list what the cursors belong to: plain data, such as name, filter and order of the list */
export function cursorsOf(list: unknown): Cursors {
  const about = stable(list)
  const seal = (position: string) =>
    createHash('sha256').update(`${about}\n${position}`).digest('base64url').slice(0, 12)
  return {
    write: (position) => {
      const text = JSON.stringify(position)
      return `${Buffer.from(text).toString('base64url')}.${seal(text)}`
    },
    read: (cursor) => {
      const [encoded = '', given] = cursor.split('.')
      const text = Buffer.from(encoded, 'base64url').toString()
      if (given !== seal(text) || cursor.split('.').length !== 2) {
        throw new BadCursor('after', 'this is not a cursor of this list, filter and order', 'start from the first page')
      }
      return JSON.parse(text)
    },
  }
}

/** JSON with sorted keys and without what is undefined: the same question always gives the same text. */
function stable(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  )
}

export function assertSpan({ first }: Span): void {
  if (!Number.isInteger(first) || first < 0 || first > PAGE_LIMIT) {
    throw new BadRequest('first', `a page of ${first}`, `ask for 0 to ${PAGE_LIMIT}`)
  }
}

/** @param found up to one more than asked, so that it is known whether there is another page */
export function pageOf<T>(
  found: readonly { readonly cursor: string; readonly node: T }[],
  span: Span,
  hasPrevious: boolean,
): Page<T> {
  return { items: found.slice(0, span.first), hasNext: found.length > span.first, hasPrevious }
}
