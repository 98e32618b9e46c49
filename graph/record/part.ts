import { z } from 'zod'
import type { PartClass, Structure } from './classes/class.ts'
import { STRUCTURES } from './classes/class.ts'
import { type EachOf, eachOf } from './each.ts'
import { isMapping } from './fault.ts'
import { box, place, quantity } from './field.ts'
import { identified } from './identified.ts'
import { allClassNames, partClassOf } from './part-class.ts'
import { countOf, type PartCount } from './part-count.ts'
import { COMMON_FIELDS, GROOVE_FIELDS, LOSS, MESH_FIELDS, PROPERTY_ALIASES, SECTION_FIELDS } from './part-fields.ts'
import {
  choice,
  evidenceShape,
  fact,
  factsOf,
  hints,
  id,
  kindOf,
  oneOrMore,
  section,
  sparse,
  type Told,
  text,
  told,
} from './piece.ts'
import { property } from './property.ts'
import type { Tree } from './record.ts'
import { idOfPoint } from './relation-id.ts'
import type { Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'
import { type Terminals, terminalsOf } from './terminal.ts'

export const PIECE_STATES = ['whole', 'cut', 'damaged', 'missing'] as const
const AXES = ['x', 'y', 'z'] as const
const SIDES = ['+x', '-x', '+y', '-y', '+z', '-z'] as const

const PLACE = place()
const SIZE = box()
const LENGTH = quantity('length')

/** Points of a bar on its way, by what was typed, in order. */
const via = z
  .array(fact(PLACE))
  .transform((points) => Object.fromEntries(points.map((point) => [pointId(point), point])))

function pointId(point: Stated): string {
  return idOfPoint(point.claims[0]?.text ?? '')
}

const run = section({
  from: fact(PLACE).optional(),
  via: via.optional(),
  to: fact(PLACE).optional(),
  along: text('Another bar whose run this one repeats.').optional(),
  ...factsOf(SECTION_FIELDS),
})

const plate = section({
  corner: fact(PLACE),
  size: fact(SIZE),
  holes: z
    .array(
      identified(
        section({ id: id.optional(), at: fact(PLACE), diameter: fact(LENGTH).optional(), size: fact(SIZE).optional() }),
        (hole) => pointId(hole.at),
      ),
    )
    .optional(),
})

const beside = section({
  part: text('The bar or plate it lies beside.'),
  side: choice(SIDES, 'On which side of it.'),
  gap: fact(quantity('length', 'Between the two wide faces, as measured.')),
})

const stackLayer = identified(
  section({
    id: id.optional(),
    copper: fact(quantity('length', 'Thickness of the copper.')).optional(),
    film: fact(quantity('length', 'Thickness of the film.')).optional(),
    permittivity: fact(quantity('one', 'Relative.')).optional(),
    net: text('Net of a plane.').optional(),
    mesh: section(factsOf(MESH_FIELDS)).optional(),
    material: text().optional(),
    ...evidenceShape,
  }),
  (layer) => (layer.copper ? 'copper' : 'film'),
)

const trace = identified(
  section({
    id: id.optional(),
    net: text(),
    layer: text('Layer of the stack it runs in.').optional(),
    reference: oneOrMore(text(), 'Planes it is referred to.').optional(),
    ...factsOf({
      width: quantity('length', 'Of the trace.'),
      length: quantity('length', 'Of the trace.'),
      thickness: quantity('length', 'Of its copper.'),
      spacing: quantity('length', 'To its partner in a pair.'),
      height: quantity('length', 'Above its reference.'),
    }),
    pair: text('The trace it is paired with.').optional(),
    ...evidenceShape,
  }),
  (one) => one.net,
)

const STRUCTURE_SHAPES = {
  metal: {
    flat: choice(AXES, 'Axis normal to the wide face.').optional(),
    run: run.optional(),
    plate: plate.optional(),
    beside: beside.optional(),
  },
  stack: { stack: z.array(stackLayer).optional(), traces: z.array(trace).optional() },
  round: { round: oneOrMore(text(), 'Conductors that pass through.').optional() },
  seals: {
    seals: section({
      passages: oneOrMore(text()),
      'leaks-towards': oneOrMore(text()).optional(),
      ...evidenceShape,
    }).optional(),
    groove: section(factsOf(GROOVE_FIELDS)).optional(),
  },
  joins: { joins: oneOrMore(text(), 'What it connects.').optional() },
} as const satisfies Record<Structure, z.ZodRawShape>

const ALL_STRUCTURES = Object.assign(
  {},
  ...STRUCTURES.map((one) => STRUCTURE_SHAPES[one]),
) as (typeof STRUCTURE_SHAPES)['metal'] &
  (typeof STRUCTURE_SHAPES)['stack'] &
  (typeof STRUCTURE_SHAPES)['round'] &
  (typeof STRUCTURE_SHAPES)['seals'] &
  (typeof STRUCTURE_SHAPES)['joins']

/** Keys that a structure brings with it. */
export function structureKeys(structure: Structure): readonly string[] {
  return Object.keys(STRUCTURE_SHAPES[structure])
}

/** What may stand on an entry and, for one piece, in its `each`. */
const pieceShape = {
  title: text('In words.').optional(),
  at: fact(PLACE).optional(),
  turn: fact(quantity('angle', 'Turned about z.')).optional(),
  net: text('The net whose metal it is.').optional(),
  state: told('whole, cut, damaged or missing.', PIECE_STATES).optional(),
  loss: property(LOSS).optional(),
  also: z.unknown().optional(),
  confidence: evidenceShape.confidence,
  'rests-on': evidenceShape['rests-on'],
  photo: evidenceShape.photo,
  visible: evidenceShape.visible,
  note: evidenceShape.note,
}

const entryShape = {
  id,
  class: text('Class from the table of part classes.'),
  type: text('Part type, shared across specimens.').optional(),
  basis: choice(['judged', 'assumed', 'published'], 'Basis of its values that say none.').optional(),
  vary: choice(['each', 'together'], 'Whether the deviation within tolerance is each piece’s own.').optional(),
  per: choice(['die', 'switch', 'piece'], 'What its values are for.').optional(),
  count: countOf.optional(),
}

const faceShape = {
  area: fact({ form: 'area', dimension: 'area', is: 'Of the face.' }).optional(),
  at: fact(PLACE).optional(),
  size: fact(SIZE).optional(),
  flatness: fact(LENGTH).optional(),
  roughness: fact(LENGTH).optional(),
  material: fact({ form: 'word', dimension: 'text' }).optional(),
  ...evidenceShape,
}

const face = section({ ...faceShape, each: eachOf(section(faceShape)).optional(), count: countOf.optional() })
const faces = z.record(z.string(), face)

const knownPart = section({
  ...entryShape,
  ...pieceShape,
  ...factsOf(COMMON_FIELDS),
  ...ALL_STRUCTURES,
  faces: faces.optional(),
})
type KnownPart = z.infer<typeof knownPart>

/** A part as typed. Values of its class are there too, and are read through the facts of the record. */
export interface Part extends Omit<KnownPart, 'also'> {
  readonly also?: Tree
  readonly terminals?: Terminals
  readonly each?: EachOf<PiecePart>
  readonly count?: PartCount
  readonly parts?: readonly Part[]
  readonly state?: Told
}

/** What one piece of a part has that its sisters have not. */
export type PiecePart = Partial<Omit<Part, 'id' | 'class' | 'count' | 'each' | 'parts'>>

const schemas = new Map<string, z.ZodType<Part, unknown>>()

/** The schema of one class, made when it is first met. */
export function schemaOf(partClass: PartClass): z.ZodType<Part, unknown> {
  const known = schemas.get(partClass.class)
  if (known) return known
  const properties: Record<string, z.ZodType> = {}
  for (const [name, field] of Object.entries({ ...COMMON_FIELDS, ...partClass.properties }))
    properties[name] = property(field).optional()
  const structures = Object.assign({}, ...partClass.structures.map((one) => STRUCTURE_SHAPES[one])) as z.ZodRawShape
  const one = {
    ...pieceShape,
    ...properties,
    ...structures,
    terminals: terminalsOf(partClass).optional(),
    faces: faces.optional(),
  }
  const entry = sparse(
    {
      ...one,
      ...entryShape,
      class: z.string(),
      each: eachOf(sparse(one, PROPERTY_ALIASES) as never).optional(),
      parts: z.lazy(() => z.array(part)).optional(),
    },
    PROPERTY_ALIASES,
  ) as unknown as z.ZodType<Part, unknown>
  schemas.set(partClass.class, entry)
  return entry
}

/** Parts already read: an edit leaves most of a tree as it was, and what is the same tree is the same part. */
const readParts = new WeakMap<object, Part>()

/** Any part: the class picks the schema, so that a message is about this class and no other. */
export const part: z.ZodType<Part, unknown> = z.unknown().transform((input, context): Part => {
  const known = typeof input === 'object' && input !== null ? readParts.get(input) : undefined
  if (known) return known
  const wrong = (what: string, mend: string, path: string[] = []): typeof z.NEVER => {
    context.issues.push({ code: 'custom', input, message: what, path, params: { mend } })
    return z.NEVER
  }
  if (!isMapping(input)) return wrong(`${kindOf(input)} where a part is expected`, 'write { id: …, class: … }')
  if (input.class === undefined)
    return wrong(
      'a part without a class',
      'add class: …; when no more is known, the name of a group such as board-part',
    )
  if (typeof input.class !== 'string')
    return wrong(`${kindOf(input.class)} where a class is expected`, 'write one class', ['class'])
  const partClass = partClassOf(input.class)
  if (!partClass) return wrong(`unknown class "${input.class}"`, didYouMean(input.class, allClassNames()), ['class'])
  const read = schemaOf(partClass).safeParse(input)
  if (!read.success) {
    for (const issue of read.error.issues) context.issues.push({ ...issue, input } as never)
    return z.NEVER
  }
  const made = { ...read.data, class: partClass.class }
  readParts.set(input, made)
  return made
})
hints.set(part, { hint: 'part' })
