import type { Influence, Shape } from '../quantity/quantity.ts'
import type { Exponents } from '../quantity/unit.ts'
import type { Tree } from './record.ts'
import type { Sheet } from './sheet-schema.ts'
import type { Stated } from './stated.ts'

/** What an instrument adds to everything it measured. */
export interface InstrumentDoubt {
  readonly name: string
  /** Relative: shared by all it measured. */
  readonly scale?: Influence
  /** Absolute: shared, and only on values of the same dimension. */
  readonly offset?: { readonly influence: Influence; readonly exponents: Exponents }
  /** Smallest change that shows [SI]: each claim has its own rounding. */
  readonly resolution?: { readonly step: number; readonly exponents: Exponents }
}

type Instrument = NonNullable<Sheet['instruments']>[string]

const made = new WeakMap<object, ReadonlyMap<string, InstrumentDoubt>>()
const NONE: ReadonlyMap<string, InstrumentDoubt> = new Map()

/**
 * By id in the sheet. Across sheets an instrument is known by kind and serial.
 *
 * @param tree the section as typed: the same section gives the same map, so that what depends on it can be kept
 */
export function instrumentDoubts(
  instruments: Sheet['instruments'],
  tree: Tree | undefined,
): ReadonlyMap<string, InstrumentDoubt> {
  if (!instruments || typeof tree !== 'object') return NONE
  const known = made.get(tree)
  if (known) return known
  const doubts = new Map(Object.entries(instruments).map(([id, instrument]) => [id, doubtOf(id, instrument)]))
  made.set(tree, doubts)
  return doubts
}

function doubtOf(id: string, instrument: Instrument): InstrumentDoubt {
  const key = instrument.serial === undefined ? id : `${instrument.kind}/${instrument.serial}`
  const scope = instrument.serial === undefined ? 'record' : 'corpus'
  const name = instrument.serial === undefined ? id : `${instrument.kind} ${instrument.serial}`
  const influence = (what: 'scale' | 'offset', shape: Shape): Influence => ({
    id: `instrument:${key}/${what}`,
    scope,
    shape,
    about: `${what} of ${name}`,
  })
  const width = readingOf(instrument.uncertainty)
  const step = readingOf(instrument.resolution)
  return {
    name,
    ...(width?.own?.mode === 'scale' && { scale: influence('scale', width.own.shape) }),
    ...(width?.own?.mode === 'add' && {
      offset: { influence: influence('offset', width.own.shape), exponents: width.unit.exponents },
    }),
    ...(step && { resolution: { step: step.value, exponents: step.unit.exponents } }),
  }
}

function readingOf(stated: Stated | undefined) {
  const reading = stated?.claims[0]?.reading
  return reading?.form === 'scalar' ? reading : undefined
}
