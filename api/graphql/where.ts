import type { ComponentWhere, PropertyRange, TeardownOrder, TeardownWhere } from '../../graph/store/question.ts'
import { Fault } from '../errors.ts'
import { siOf } from '../quantity-text.ts'
import { builder } from './builder.ts'
import { BasisEnum, Direction, FigureStatus, MetricId, PieceState, Potential, TeardownOrderBy } from './words.ts'

const PropertyRangeArg = builder.inputType('PropertyRange', {
  description: 'A numeric property within bounds, ends included; without bounds: it is known.',
  fields: (t) => ({
    name: t.string({ required: true, description: 'Path below the part: `capacitance`, `lower/area`.' }),
    min: t.string({ description: 'At least: a quantity, "100 µF".' }),
    max: t.string({ description: 'At most: a quantity.' }),
  }),
})

interface ComponentWhereShape {
  class?: string[] | null | undefined
  marking?: string | null | undefined
  partType?: string | null | undefined
  material?: string | null | undefined
  net?: string | null | undefined
  potential?: (typeof Potential.$inferType)[] | null | undefined
  state?: (typeof PieceState.$inferType)[] | null | undefined
  heatEndsIn?: string | null | undefined
  sharesPassageWith?: ComponentWhereShape | null | undefined
  upstreamOf?: ComponentWhereShape | null | undefined
  property?: (typeof PropertyRangeArg.$inferInput)[] | null | undefined
  basis?: (typeof BasisEnum.$inferType)[] | null | undefined
  text?: string | null | undefined
}

export const ComponentWhereArg = builder.inputRef<ComponentWhereShape>('ComponentWhere').implement({
  description: 'Which parts. All that is given must hold; in a list, any of it.',
  fields: (t) => ({
    class: t.stringList({ description: 'Part classes or groups of classes, as in sheets.' }),
    marking: t.string({ description: 'Found anywhere in the marking, whatever the case, blanks and punctuation.' }),
    partType: t.string({ description: 'Part type shared across specimens.' }),
    material: t.string({ description: 'Material.' }),
    net: t.string({ description: 'Id of a net that a terminal of it is on.' }),
    potential: t.field({ type: [Potential], description: 'Potential of such a net.' }),
    state: t.field({ type: [PieceState], description: 'State of one of its pieces.' }),
    heatEndsIn: t.string({
      description: 'Passage, `ambient` or `frame` in which its heat finally ends; the piece may be left out.',
    }),
    sharesPassageWith: t.field({
      type: ComponentWhereArg,
      description: 'Its heat ends in a passage in which the heat of such another part ends too.',
    }),
    upstreamOf: t.field({
      type: ComponentWhereArg,
      description: 'Its heat ends in a passage before that of such another part.',
    }),
    property: t.field({ type: [PropertyRangeArg], description: 'Numeric properties, all of which must hold.' }),
    basis: t.field({ type: [BasisEnum], description: 'Something of it is known on one of these bases.' }),
    text: t.string({ description: 'Words that all occur, each possibly as the beginning of a longer one.' }),
  }),
})

/** The store's question, from the API's. */
export function componentWhere(where: ComponentWhereShape | null | undefined): ComponentWhere {
  const { sharesPassageWith, upstreamOf, property, ...plain } = where ?? {}
  return {
    ...given(plain),
    ...(sharesPassageWith && { sharesPassageWith: componentWhere(sharesPassageWith) }),
    ...(upstreamOf && { upstreamOf: componentWhere(upstreamOf) }),
    ...(property && { property: property.map(rangeOf) }),
  } as ComponentWhere
}

function rangeOf({ name, min, max }: typeof PropertyRangeArg.$inferInput): PropertyRange {
  return { name, ...(min && { min: siOf(min) }), ...(max && { max: siOf(max) }) }
}

const TraitIsArg = builder.inputType('TraitIs', {
  description: 'A trait, and the word it takes; any when none is given.',
  fields: (t) => ({
    id: t.string({ required: true, description: 'Id of the trait.' }),
    value: t.string({ description: 'The word.' }),
  }),
})

const FigureIsArg = builder.inputType('FigureIs', {
  description: 'A stored figure of any subject, within bounds.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, required: true, description: 'Which figure.' }),
    subject: t.string({ description: 'Of this subject only.' }),
    status: t.field({ type: [FigureStatus], description: 'With one of these statuses; OK when left out.' }),
    min: t.float({ description: 'At least, in the unit of the figure.' }),
    max: t.float({ description: 'At most, in the unit of the figure.' }),
  }),
})

export const TeardownWhereArg = builder.inputType('TeardownWhere', {
  description: 'Which teardowns. All that is given must hold; in a list, any of it.',
  fields: (t) => ({
    id: t.idList({ description: 'Ids.' }),
    kind: t.stringList({ description: 'Kinds of converter, as in sheets.' }),
    maker: t.stringList({ description: 'Makers.' }),
    text: t.string({ description: 'Words that all occur in title, markings or findings.' }),
    class: t.stringList({ description: 'It has a part of one of these classes or groups.' }),
    component: t.field({ type: ComponentWhereArg, description: 'It has such a part.' }),
    trait: t.field({ type: [TraitIsArg], description: 'Traits, all of which must hold.' }),
    figure: t.field({ type: [FigureIsArg], description: 'Figures, all of which must hold.' }),
    instrument: t.string({ description: 'It names this instrument.' }),
  }),
})

export type TeardownWhereInput = typeof TeardownWhereArg.$inferInput

export function teardownWhere(where: TeardownWhereInput | null | undefined): TeardownWhere {
  const { component, trait, figure, ...plain } = where ?? {}
  return {
    ...given(plain),
    ...(component && { component: componentWhere(component) }),
    ...(trait && { trait: trait.map(given) }),
    ...(figure && { figure: figure.map(given) }),
  } as TeardownWhere
}

export const TeardownOrderArg = builder.inputType('TeardownOrder', {
  description: 'Order of teardowns.',
  fields: (t) => ({
    by: t.field({ type: TeardownOrderBy, required: true, description: 'By what.' }),
    direction: t.field({ type: Direction, description: 'ASC when left out.' }),
    metric: t.field({ type: MetricId, description: 'Which figure, for FIGURE.' }),
    subject: t.string({ description: 'Of which subject, for FIGURE; the largest or least of all when left out.' }),
  }),
})

export function teardownOrder(order: typeof TeardownOrderArg.$inferInput | null | undefined): TeardownOrder {
  if (!order) return { by: 'id' }
  const descending = order.direction === 'DESC'
  if (order.by !== 'figure') return { by: order.by, descending }
  if (!order.metric)
    throw new Fault('USAGE', 'ordering by FIGURE needs a metric', 'orderBy: {by: FIGURE, metric: POWER_DENSITY}')
  return { by: 'figure', metric: order.metric, descending, ...(order.subject && { subject: order.subject }) }
}

/** What was given: GraphQL says null for "nothing", the store leaves it out. */
function given<T extends object>(input: T): Partial<T> {
  return Object.fromEntries(
    Object.entries(input).filter(([, value]) => value !== null && value !== undefined),
  ) as Partial<T>
}
