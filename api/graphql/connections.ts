import { builder } from './builder.ts'
import { Component, type ConnectionOf, PageInfo, type PartAt, Teardown } from './refs.ts'
import type { TeardownNode } from './teardown-node.ts'

const ABOUT_EDGES = 'Items with their cursors.'
const ABOUT_TOTAL = 'Items on all pages; counted only when it is asked for.'
const ABOUT_CURSOR = 'Names the item in this list, filter and order.'

export const TeardownConnection = builder.objectRef<ConnectionOf<TeardownNode>>('TeardownConnection')
const TeardownEdge = builder.objectRef<ConnectionOf<TeardownNode>['edges'][number]>('TeardownEdge')
export const ComponentConnection = builder.objectRef<ConnectionOf<PartAt>>('ComponentConnection')
const ComponentEdge = builder.objectRef<ConnectionOf<PartAt>['edges'][number]>('ComponentEdge')

TeardownConnection.implement({
  description: 'A page of teardowns.',
  fields: (t) => ({
    edges: t.field({ type: [TeardownEdge], description: ABOUT_EDGES, resolve: ({ edges }) => edges }),
    pageInfo: t.field({ type: PageInfo, description: 'Where the page stands.', resolve: (page) => page }),
    totalCount: t.int({ description: ABOUT_TOTAL, resolve: ({ total }) => total }),
  }),
})

TeardownEdge.implement({
  description: 'A teardown in a list.',
  fields: (t) => ({
    cursor: t.exposeString('cursor', { description: ABOUT_CURSOR }),
    node: t.field({ type: Teardown, description: 'The teardown.', resolve: ({ node }) => node }),
  }),
})

ComponentConnection.implement({
  description: 'A page of parts.',
  fields: (t) => ({
    edges: t.field({ type: [ComponentEdge], description: ABOUT_EDGES, resolve: ({ edges }) => edges }),
    pageInfo: t.field({ type: PageInfo, description: 'Where the page stands.', resolve: (page) => page }),
    totalCount: t.int({ description: ABOUT_TOTAL, resolve: ({ total }) => total }),
  }),
})

ComponentEdge.implement({
  description: 'A part in a list.',
  fields: (t) => ({
    cursor: t.exposeString('cursor', { description: ABOUT_CURSOR }),
    node: t.field({ type: Component, description: 'The part.', resolve: ({ node }) => node }),
  }),
})
