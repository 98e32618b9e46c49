import type { GraphQLResolveInfo } from 'graphql'
import type { Page } from '../../graph/store/question.ts'
import { Fault } from '../errors.ts'
import { selectedUnder } from './needs.ts'
import { type ConnectionOf, PageInfo } from './refs.ts'

/** How many items a page holds when nobody says, and at most. More is refused, never silently cut. */
export const PAGE = { usual: 20, most: 200 } as const

export const ABOUT_FIRST = `At most this many; ${PAGE.usual} when left out, ${PAGE.most} at most.`
export const ABOUT_AFTER = 'Cursor of the last item of the page before.'

/** The size of a page as asked for. */
export function pageSize(first: number | null | undefined): number {
  if (first === null || first === undefined) return PAGE.usual
  if (first >= 0 && first <= PAGE.most) return first
  throw new Fault('PAGE', `first is ${first}`, `a whole number from 0 to ${PAGE.most}; left out it is ${PAGE.usual}`)
}

/** A page of the store as a connection of nodes; the total is counted only when it is asked for. */
export async function connectionOf<A, T>(
  page: Page<A>,
  nodes: readonly T[],
  count: () => Promise<number>,
  info: GraphQLResolveInfo,
): Promise<ConnectionOf<T>> {
  const counted = selectedUnder(info).some(({ field }) => field.name === 'totalCount')
  return {
    edges: page.items.map(({ cursor }, at) => ({ cursor, node: nodes[at]! })),
    hasNext: page.hasNext,
    hasPrevious: page.hasPrevious,
    total: counted ? await count() : 0,
  }
}

PageInfo.implement({
  description: 'Where a page stands in its list.',
  fields: (t) => ({
    hasNextPage: t.exposeBoolean('hasNext', { description: 'Whether another page follows.' }),
    hasPreviousPage: t.exposeBoolean('hasPrevious', { description: 'Whether a page came before.' }),
    startCursor: t.string({
      nullable: true,
      description: 'Cursor of the first item; null on an empty page.',
      resolve: ({ edges }) => edges[0]?.cursor,
    }),
    endCursor: t.string({
      nullable: true,
      description: 'Cursor of the last item, the `after` of the next page; null on an empty page.',
      resolve: ({ edges }) => edges.at(-1)?.cursor,
    }),
  }),
})
