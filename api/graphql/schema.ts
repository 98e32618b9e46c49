import { builder } from './builder.ts'

builder.queryType({
  description: 'Everything that can be asked.',
  fields: (t) => ({ metrics: t.stringList({ resolve: () => ['A'] }) }),
})

export const schema = builder.toSchema()
