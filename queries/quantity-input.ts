import type { Edit } from '../graph/edit.ts'
import type { Dimension } from '../graph/quantity/dimension.ts'
import { parseQuantity } from '../graph/quantity/parse.ts'
import { asPath, type Influence, type Path } from '../graph/quantity/quantity.ts'
import type { QuantityReading } from '../graph/quantity/reading.ts'
import type { TeardownRecord } from '../graph/record/record.ts'
import { generalisations } from '../graph/values.ts'

/** A quantity given on the command line or in a query that cannot be read, with what mends it. */
export class QuantityInputError extends Error {
  readonly mend: string

  constructor(what: string, mend: string) {
    super(what)
    this.name = 'QuantityInputError'
    this.mend = mend
  }
}

/**
 * The edit that puts a typed quantity in the place of a recorded value. It is exact unless the text states a width.
 * @throws QuantityInputError when the text is no quantity of this dimension
 */
export function quantityFor(
  path: Path,
  text: string,
  dimension: Dimension,
  claim: string,
  scope: Influence['scope'] = 'claim',
): Edit {
  const reading = readTyped(text, dimension, path)
  if (reading.form === 'nothing') return { set: path, to: reading.nothing }
  if (reading.form !== 'scalar' && reading.form !== 'area' && reading.form !== 'volume') {
    throw new QuantityInputError(`${path}: "${text}" is no single value`, 'give one value with its unit')
  }
  const own = reading.form === 'scalar' ? reading.own : undefined
  const id = scope === 'corpus' ? claim : `${claim}: ${path}`
  return {
    set: path,
    to: {
      value: reading.value,
      terms: own ? [{ influence: id, mode: own.mode, weight: 1 }] : [],
      basis: reading.note.basis ?? 'assumed',
      claim,
      text,
      defaulted: false,
      restsOn: [],
      ...(reading.form === 'scalar' && reading.bound && { bound: reading.bound }),
    },
    ...(own && { influences: [{ id, scope, shape: own.shape, about: claim }] }),
  }
}

function readTyped(text: string, dimension: Dimension, path: Path): QuantityReading {
  const reading = parseQuantity(text, { dimension })
  if (reading.ok) return reading
  const first = reading.complaints[0]!
  throw new QuantityInputError(`${path}: "${text}": ${first.what}`, first.mend)
}

/** Reads `parts/link-cap/capacitance=130 µF`: a what-if on a recorded value. @throws QuantityInputError */
export function whatIf(record: TeardownRecord, text: string): Edit {
  const equals = text.indexOf('=')
  if (equals < 1)
    throw new QuantityInputError(`"${text}" is no what-if`, 'write path=quantity, e.g. specimen/mass=11 kg')
  return whatIfValue(record, text.slice(0, equals).trim(), text.slice(equals + 1).trim())
}

/** @throws QuantityInputError when nothing is recorded at the path, or the quantity is of another dimension */
export function whatIfValue(record: TeardownRecord, typed: string, value: string): Edit {
  const dimension = dimensionAt(record, typed)
  if (dimension === 'text')
    throw new QuantityInputError(`"${typed}" is a word, not a quantity`, 'name a measured value')
  return quantityFor(canonical(record, typed), value, dimension as Dimension, 'what-if')
}

/** Dimension of a recorded value. @throws QuantityInputError when nothing is recorded at the path */
export function dimensionAt(record: TeardownRecord, typed: string): string {
  const fact = generalisations(canonical(record, typed))
    .map((one) => record.facts.get(one))
    .find((one) => one !== undefined)
  if (fact) return fact.dimension
  throw new QuantityInputError(`nothing is recorded at "${typed}"`, nearest(record, typed))
}

/** Canonical path of what a person typed: the section may be left out where it is a part. */
export function canonical(record: TeardownRecord, typed: string): Path {
  if (record.facts.has(asPath(typed))) return asPath(typed)
  const reference = record.parts.refer(typed)
  if ('what' in reference) return asPath(typed)
  const base = record.parts.pathOf(reference)
  return asPath([base, ...reference.rest].join('/'))
}

function nearest(record: TeardownRecord, typed: string): string {
  const last = typed.split('/').at(-1) ?? typed
  const same = [...record.facts.keys()].filter((path) => path.endsWith(`/${last}`)).slice(0, 5)
  return same.length > 0 ? `did you mean ${same.join(', ')}?` : 'lidoff show ID lists the paths of a record'
}
