import { figureArgs, figuresOf } from './figure-args.ts'
import { partAt, withoutPieces } from './parts.ts'
import { type At, Component, Figure, Loop, Net, Terminal } from './refs.ts'
import { recordOf } from './teardown-node.ts'
import { BasisEnum, Potential } from './words.ts'

Net.implement({
  description: 'An electrical net: one ideal node, and the metal that carries it.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: ({ teardown, path }) => `${teardown.row.id}/${path}` }),
    path: t.exposeString('path', { description: 'Canonical path.' }),
    name: t.string({ description: 'Id of the net in the sheet.', resolve: ({ path }) => path.slice('nets/'.length) }),
    potential: t.field({
      type: Potential,
      nullable: true,
      description: 'What it is at; null when it rides on another net or nobody said.',
      resolve: ({ teardown, path }) => recordOf(teardown).session().structure.potentialOf(path) as never,
    }),
    components: t.field({
      type: [Component],
      description: 'Parts with a terminal on it.',
      extensions: { many: 10 },
      resolve: (net) => partsAt(net, { ask: 'on-net', net: net.path }),
    }),
    metal: t.field({
      type: [Component],
      description: 'Parts that are its metal.',
      extensions: { many: 3 },
      resolve: (net) => partsAt(net, { ask: 'metal-of', net: net.path }),
    }),
  }),
})

type Ask = Parameters<ReturnType<ReturnType<typeof recordOf>['session']>['structure']['answer']>[0]

/** Parts that a structural question answers, pieces gathered under their part. */
export function partsAt({ teardown }: At, query: Ask) {
  const { record, session } = recordOf(teardown)
  const { structure, settings } = session()
  const paths = new Set(structure.answer(query, settings).paths.map(withoutPieces))
  return record.parts.entries.filter(({ path }) => paths.has(path)).map((entry) => partAt(teardown, entry))
}

Terminal.implement({
  description: 'A terminal of one piece, and the net it is on.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'As its class calls it, or the pin number.' }),
    piece: t.string({ description: 'Path of the piece.', resolve: ({ path }) => path }),
    net: t.field({ type: Net, description: 'The net.', resolve: ({ teardown, net }) => ({ teardown, path: net }) }),
    basis: t.field({
      type: BasisEnum,
      description: 'How it is known that it is on this net.',
      resolve: ({ evidence }) => evidence.basis,
    }),
    restsOn: t.stringList({
      description: 'Findings it stands or falls with.',
      resolve: ({ evidence }) => evidence.restsOn,
    }),
  }),
})

Loop.implement({
  description: 'A commutation loop: a half bridge, the capacitors across its rails, and the metal between.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: ({ teardown, path }) => `${teardown.row.id}/${path}` }),
    path: t.exposeString('path', { description: 'Canonical path.' }),
    bridge: t.field({
      type: [Component],
      description: 'The half bridge, or its two switches.',
      extensions: { many: 2 },
      resolve: (loop) => partsAt(loop, { ask: 'loop-bridge', loop: loop.path }),
    }),
    capacitors: t.field({
      type: [Component],
      description: 'Capacitors that belong to it.',
      extensions: { many: 4 },
      resolve: (loop) => partsAt(loop, { ask: 'loop-capacitors', loop: loop.path }),
    }),
    figures: t.field({
      type: [Figure],
      description: 'Figures about this loop.',
      args: figureArgs,
      extensions: { needs: 'figures', many: 5 },
      resolve: ({ teardown, path }, args) => figuresOf(teardown, args, (subject) => subject === path),
    }),
  }),
})
