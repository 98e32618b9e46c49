import { edges } from '../../graph/answers/context.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { PartEntry } from '../../graph/record/part-index.ts'
import type { Fact } from '../../graph/record/record.ts'
import { figuresOf, whatIfArgs } from './figure-args.ts'
import {
  Assembly,
  type At,
  Component,
  CoolantPosition,
  Count,
  Figure,
  HeatPath,
  type PartAt,
  Piece,
  Property,
  Terminal,
  type TerminalAt,
} from './refs.ts'
import { recordOf, type TeardownNode } from './teardown-node.ts'
import { PieceState } from './words.ts'

/** Parts of a record, in the order of the sheet. */
export function partsOf(teardown: TeardownNode): readonly PartAt[] {
  return recordOf(teardown).record.parts.entries.map((entry) => partAt(teardown, entry))
}

export function partAt(teardown: TeardownNode, entry: PartEntry): PartAt {
  return { teardown, path: entry.path, class: entry.class, leaf: entry.children.length === 0 }
}

/** The entry of the parts list that a part stands for. */
export function entryOf({ teardown, path }: At): PartEntry {
  const entry = recordOf(teardown).record.parts.entries.find((one) => one.path === path)
  if (!entry) throw new Error(`no part at ${path}`)
  return entry
}

function piecesOf(part: PartAt): readonly At[] {
  return recordOf(part.teardown)
    .record.parts.piecesOf(entryOf(part))
    .map(({ path }) => ({ teardown: part.teardown, path }))
}

/** Facts about an entry itself or a piece of it, not about parts inside. */
export function factsOf(part: PartAt): readonly Fact[] {
  const { record } = recordOf(part.teardown)
  return [...record.facts.values()].filter(({ path }) => ownerOf(record.parts.entries, path) === part.path)
}

/** Path of the entry that something below `parts/` belongs to: the longest that it begins with, pieces aside. */
export function ownerOf(entries: readonly PartEntry[], path: string): Path | undefined {
  const plain = withoutPieces(path)
  const above = entries.filter((entry) => plain === entry.path || plain.startsWith(`${entry.path}/`))
  return above.reduce<PartEntry | undefined>(
    (best, one) => (!best || one.path.length > best.path.length ? one : best),
    undefined,
  )?.path
}

/** `parts/module.v/switch.high/igbt.2` is a piece of `parts/module/switch/igbt`. */
export function withoutPieces(path: string): string {
  return path.replace(/\.[^/]*/g, '')
}

const globalId = ({ teardown, path }: At): string => `${teardown.row.id}/${path}`

Assembly.implement({
  description: 'A part that holds other parts.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: globalId }),
    path: t.exposeString('path', { description: 'Canonical path.' }),
    class: t.exposeString('class', { description: 'Part class.' }),
    count: t.field({ type: Count, description: 'How many of it.', resolve: (part) => part }),
    components: t.field({
      type: [Component],
      description: 'Parts directly inside.',
      extensions: { needs: 'body', many: 20 },
      resolve: (part) => entryOf(part).children.map((entry) => partAt(part.teardown, entry)),
    }),
  }),
})

Component.implement({
  description: 'One line of the parts list: a part with all its pieces.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: globalId }),
    path: t.exposeString('path', { description: 'Canonical path; pieces are not named in it.' }),
    class: t.exposeString('class', { description: 'Part class, as in the sheet.' }),
    teardown: t.id({ description: 'Id of the record it is in.', resolve: ({ teardown }) => teardown.row.id }),
    count: t.field({
      type: Count,
      description: 'How many of it, in all places.',
      extensions: { needs: 'body' },
      resolve: (part) => part,
    }),
    pieces: t.field({
      type: [Piece],
      description: 'Each physical piece as built.',
      extensions: { needs: 'body', many: 6 },
      resolve: piecesOf,
    }),
    properties: t.field({
      type: [Property],
      description: 'What is stated of it, with how it is known.',
      extensions: { needs: 'body', many: 15 },
      resolve: (part) => factsOf(part).map((fact) => ({ teardown: part.teardown, path: fact.path, fact })),
    }),
    terminals: t.field({
      type: [Terminal],
      description: 'Its terminals and the nets they are on, piece by piece.',
      extensions: { needs: 'body', many: 12 },
      resolve: (part) => piecesOf(part).flatMap(terminalsOf),
    }),
    heatPaths: t.field({
      type: [HeatPath],
      description: 'Ways its heat leaves by, layer by layer.',
      extensions: { needs: 'body', many: 6 },
      resolve: (part) => unique(piecesOf(part).flatMap((piece) => pathsFrom(piece))),
    }),
    coolantPositions: t.field({
      type: [CoolantPosition],
      description: 'Where along the coolant its heat ends; a double-sided part has two.',
      extensions: { needs: 'body', many: 6 },
      resolve: positionsOf,
    }),
    figures: t.field({
      type: [Figure],
      description: 'Figures about this part or a piece of it.',
      args: whatIfArgs,
      extensions: { needs: 'body', many: 20 },
      resolve: (part, args) => {
        const { entries } = recordOf(part.teardown).record.parts
        return figuresOf(part.teardown, args, (subject) => ownerOf(entries, subject) === part.path)
      },
    }),
  }),
})

function terminalsOf({ teardown, path }: At): readonly TerminalAt[] {
  const { graph } = recordOf(teardown).session().structure
  return edges(graph, path, 'terminal', 'out').flatMap(({ to, attributes }) =>
    attributes.kind === 'terminal'
      ? [{ teardown, path, piece: path, net: to, name: attributes.name, evidence: attributes.evidence }]
      : [],
  )
}

function pathsFrom({ teardown, path }: At): readonly At[] {
  const { structure, settings } = recordOf(teardown).session()
  return structure.answer({ ask: 'heat-from', node: path }, settings).paths.map((one) => ({ teardown, path: one }))
}

function positionsOf(part: PartAt) {
  const { structure, settings } = recordOf(part.teardown).session()
  const ends = piecesOf(part).flatMap(({ path }) => structure.answer({ ask: 'heat-ends', piece: path }, settings).paths)
  const passages = new Set<string>(structure.answer({ ask: 'passages' }, settings).paths)
  return unique(ends.filter((end) => passages.has(end)).map((path) => ({ teardown: part.teardown, path }))).map(
    (position) => ({ ...position, part: part.path }),
  )
}

function unique(items: readonly At[]): readonly At[] {
  return [...new Map(items.map((item) => [item.path, item])).values()]
}

Count.implement({
  description: 'How many pieces of a part.',
  fields: (t) => ({
    built: t.int({ description: 'As it was built.', resolve: (part) => piecesOf(part).length }),
    found: t.int({
      description: 'As it was found when opened.',
      resolve: ({ teardown, path }) => {
        const { structure, settings } = recordOf(teardown).session()
        return structure.answer({ ask: 'pieces', of: path }, { ...settings, counts: 'FOUND' }).paths.length
      },
    }),
  }),
})

Piece.implement({
  description: 'One physical piece of a part.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: globalId }),
    path: t.exposeString('path', { description: 'Canonical path with the piece named: `parts/module.v`.' }),
    state: t.field({
      type: PieceState,
      description: 'State in which it was found.',
      resolve: ({ teardown, path }) => recordOf(teardown).session().structure.stateOf(path),
    }),
  }),
})
