import type { Path } from '../../graph/quantity/quantity.ts'
import { figureArgs, figuresOf } from './figure-args.ts'
import { type At, Figure, HeatEnd, HeatLayer, HeatPath, Passage, Property } from './refs.ts'
import { recordOf } from './teardown-node.ts'
import { HeatEndKind } from './words.ts'

function answer(
  { teardown }: At,
  query: Parameters<ReturnType<ReturnType<typeof recordOf>['session']>['structure']['answer']>[0],
): readonly Path[] {
  const { structure, settings } = recordOf(teardown).session()
  return structure.answer(query, settings).paths
}

const RESISTANCE = 'PATH_RESISTANCE'

HeatPath.implement({
  description: 'One way that heat takes from a part or face through layers to where the path ends.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: ({ teardown, path }) => `${teardown.row.id}/${path}` }),
    from: t.string({
      description: 'Path of the piece or face it starts at.',
      resolve: (at) => answer(at, { ask: 'heat-start', path: at.path })[0] ?? '',
    }),
    layers: t.field({
      type: [HeatLayer],
      description: 'What the heat passes through, in order.',
      extensions: { many: 5 },
      resolve: (at) =>
        answer(at, { ask: 'heat-layers', path: at.path }).map((path) => ({ teardown: at.teardown, path })),
    }),
    resistance: t.field({
      type: Figure,
      nullable: true,
      description: 'Thermal resistance of the path; null when there is no such figure of it.',
      args: figureArgs,
      extensions: { needs: 'figures' },
      resolve: ({ teardown, path }, args) =>
        figuresOf(teardown, { ...args, metrics: [RESISTANCE] }, (subject) => subject === path)[0],
    }),
    end: t.field({
      type: HeatEnd,
      description: 'Where the path ends.',
      resolve: (at) => ({ teardown: at.teardown, path: answer(at, { ask: 'heat-to', path: at.path })[0] ?? at.path }),
    }),
  }),
})

HeatLayer.implement({
  description: 'One layer of a heat path.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Canonical path.' }),
    part: t.string({
      nullable: true,
      description: 'Path of the part it is made of, when it is a recorded part.',
      resolve: (at) => answer(at, { ask: 'layer-part', layer: at.path })[0],
    }),
    properties: t.field({
      type: [Property],
      description: 'What is stated of the layer itself.',
      extensions: { many: 4 },
      resolve: ({ teardown, path }) =>
        [...recordOf(teardown).record.facts.values()]
          .filter((fact) => fact.path.startsWith(`${path}/`))
          .map((fact) => ({ teardown, path: fact.path, fact })),
    }),
  }),
})

HeatEnd.implement({
  description: 'Where a heat path ends: a face of another part, a passage, the air, or the frame.',
  fields: (t) => ({
    kind: t.field({ type: HeatEndKind, description: 'What it is.', resolve: kindOf }),
    path: t.exposeString('path', { description: 'Canonical path of it.' }),
    passage: t.field({
      type: Passage,
      nullable: true,
      description: 'The passage in which the heat finally ends, when it is one.',
      resolve: passageOf,
    }),
  }),
})

function kindOf(end: At): 'FACE' | 'PASSAGE' | 'AMBIENT' | 'FRAME' {
  if (end.path === 'ambient' || end.path === 'ambient/air') return 'AMBIENT'
  if (end.path === 'frame' || end.path === 'ambient/frame') return 'FRAME'
  return isPassage(end) ? 'PASSAGE' : 'FACE'
}

const isPassage = (end: At): boolean => answer(end, { ask: 'passages' }).includes(end.path)

function passageOf(end: At): At | null {
  if (isPassage(end)) return end
  const found = answer(end, { ask: 'heat-ends', piece: end.path }).find((path) => isPassage({ ...end, path }))
  return found ? { teardown: end.teardown, path: found } : null
}
