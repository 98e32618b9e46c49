import { calculators } from '../../queries/calculators.ts'
import { figures } from '../../queries/figures/registry.ts'
import { revisionAt } from '../as-of.ts'
import { Fault } from '../errors.ts'
import { groupName } from '../group-name.ts'
import { Benchmark } from './benchmark.ts'
import { BenchmarkGroup, BenchmarkOrder, BenchmarkPer, Reduction } from './benchmark-args.ts'
import { benchmarkPage } from './benchmark-page.ts'
import { builder } from './builder.ts'
import { Calc } from './calc.ts'
import { ConditionsArg, conditionsFrom } from './conditions.ts'
import { ABOUT_AFTER, ABOUT_FIRST, connectionOf, PAGE, pageSize } from './connection.ts'
import { ComponentConnection, TeardownConnection } from './connections.ts'
import { fetchNodes, figuresWanted } from './fetch.ts'
import { fetchOpened } from './fetch-opened.ts'
import { History, historyOf } from './history.ts'
import { Component, Metric, type PartAt, Teardown } from './refs.ts'
import {
  ComponentWhereArg,
  componentWhere,
  TeardownOrderArg,
  TeardownWhereArg,
  teardownOrder,
  teardownWhere,
} from './where.ts'
import { MetricId } from './words.ts'

builder.queryType({
  description: 'Everything that can be asked. Numbers are never zero for "not known": null, with what to measure.',
  fields: (t) => ({
    teardown: t.field({
      type: Teardown,
      nullable: true,
      description: 'One record; null when nothing is stored under the id.',
      args: {
        id: t.arg.id({ required: true, description: 'Id of the sheet.' }),
        asOf: t.arg.string({
          description: 'As it was thought of then: a date (its end), a moment, or the number of a revision.',
        }),
      },
      resolve: async (_root, { id, asOf }, context, info) => {
        if (asOf !== null && asOf !== undefined) {
          const { corpus } = context
          return fetchOpened(corpus, await revisionAt(corpus, String(id), asOf), figuresWanted(info))
        }
        const rows = await context.corpus.store.teardownRows([String(id)])
        return (await fetchNodes(rows, context, info))[0] ?? null
      },
    }),
    history: t.field({
      type: History,
      description: 'What was thought at two times of one unit, what changed between, and which figures moved.',
      args: {
        teardown: t.arg.id({ required: true, description: 'Id of the record.' }),
        since: t.arg.string({ description: 'Date, moment or revision to start from; the first when left out.' }),
        asOf: t.arg.string({ description: 'Date, moment or revision to end at; now when left out.' }),
        metrics: t.arg({ type: [MetricId], description: 'Figures to look at; all when left out.' }),
      },
      extensions: { cost: 100 },
      resolve: (_root, { teardown, since, asOf, metrics }, { corpus }) =>
        historyOf(corpus, {
          id: String(teardown),
          ...(since && { since }),
          ...(asOf && { asOf }),
          ...(metrics && { metrics }),
        }),
    }),
    teardowns: t.field({
      type: TeardownConnection,
      description: 'Records, a page at a time.',
      args: {
        where: t.arg({ type: TeardownWhereArg, description: 'Which; all when left out.' }),
        orderBy: t.arg({ type: TeardownOrderArg, description: 'In which order; by id when left out.' }),
        first: t.arg.int({ description: ABOUT_FIRST }),
        after: t.arg.string({ description: ABOUT_AFTER }),
      },
      extensions: { many: PAGE.usual },
      resolve: async (_root, args, context, info) => {
        const { store } = context.corpus
        const where = teardownWhere(args.where)
        const page = await store.teardowns(where, teardownOrder(args.orderBy), {
          first: pageSize(args.first),
          after: args.after ?? null,
        })
        const nodes = await fetchNodes(
          page.items.map(({ node }) => node),
          context,
          info,
        )
        return connectionOf(page, nodes, () => store.countTeardowns(where), info)
      },
    }),
    component: t.field({
      type: Component,
      nullable: true,
      description: 'One part of one record; null when there is none at the path.',
      args: {
        teardown: t.arg.id({ required: true, description: 'Id of the record.' }),
        path: t.arg.string({ required: true, description: 'Path of the part; `parts/` may be left out.' }),
      },
      resolve: async (_root, { teardown, path }, context, info) => {
        const { store } = context.corpus
        const full = path.startsWith('parts/') ? path : `parts/${path}`
        const row = await store.component(String(teardown), full)
        if (!row) return null
        const [node] = await fetchNodes(await store.teardownRows([row.teardown]), context, info)
        return node ? { teardown: node, path: row.path, class: row.class, leaf: true } : null
      },
    }),
    components: t.field({
      type: ComponentConnection,
      description: 'Parts of all records, a page at a time.',
      args: {
        where: t.arg({ type: ComponentWhereArg, description: 'Which; all when left out.' }),
        first: t.arg.int({ description: ABOUT_FIRST }),
        after: t.arg.string({ description: ABOUT_AFTER }),
      },
      extensions: { many: PAGE.usual },
      resolve: async (_root, args, context, info) => {
        const { store } = context.corpus
        const where = componentWhere(args.where)
        const page = await store.components(where, { first: pageSize(args.first), after: args.after ?? null })
        const ids = [...new Set(page.items.map(({ node }) => node.teardown))]
        const nodes = await fetchNodes(await store.teardownRows(ids), context, info)
        const byId = new Map(nodes.map((node) => [node.row.id, node]))
        const parts = page.items.map(
          ({ node }): PartAt => ({
            teardown: byId.get(node.teardown)!,
            path: node.path,
            class: node.class,
            leaf: true,
          }),
        )
        return connectionOf(page, parts, () => store.countComponents(where), info)
      },
    }),
    metrics: t.field({
      type: [Metric],
      description: 'Every figure that can be asked for.',
      extensions: { many: figures.length },
      resolve: () => figures,
    }),
    benchmark: t.field({
      type: Benchmark,
      description: 'Units compared on equal conditions.',
      args: {
        metrics: t.arg({ type: [MetricId], required: true, description: 'Figures to compare, at least one.' }),
        where: t.arg({ type: TeardownWhereArg, description: 'Which units; all when left out.' }),
        conditions: t.arg({
          type: ConditionsArg,
          description: 'Conditions for all alike; the defaults when left out.',
        }),
        per: t.arg({ type: BenchmarkPer, description: 'One row for what; TEARDOWN when left out.' }),
        across: t.arg({ type: Reduction, description: 'How several subjects of a unit become one number.' }),
        orderBy: t.arg({
          type: BenchmarkOrder,
          description: 'In which order; the first figure, largest first, when left out.',
        }),
        groupBy: t.arg({ type: BenchmarkGroup, description: 'Gather the rows as well.' }),
        first: t.arg.int({ description: ABOUT_FIRST }),
        after: t.arg.string({ description: ABOUT_AFTER }),
      },
      extensions: { many: PAGE.usual, cost: 100 },
      resolve: (_root, args, context, info) => {
        if (args.metrics.length === 0) throw new Fault('USAGE', 'no figure to compare', 'metrics: [POWER_DENSITY]')
        const { orderBy } = args
        const asked = {
          metrics: args.metrics,
          where: teardownWhere(args.where),
          conditions: conditionsFrom(args.conditions),
          per: args.per ?? ('TEARDOWN' as const),
          across: args.across ?? null,
          orderBy: orderBy ? { metric: orderBy.metric, direction: orderBy.direction ?? ('DESC' as const) } : null,
          groupBy: groupName(args.groupBy),
        }
        return benchmarkPage(asked, { first: pageSize(args.first), after: args.after }, context, info)
      },
    }),
    calc: t.field({ type: Calc, description: `${calculators.length} bench calculators.`, resolve: () => ({}) }),
  }),
})
