import type { Basis } from '../quantity/basis.ts'
import type { Note, QuantityReading } from '../quantity/reading.ts'
import { CONDITIONS, conditionField } from './condition.ts'
import { type Fault, isList, isMapping, type TreePath } from './fault.ts'
import type { Field } from './field.ts'
import { NOTE_KEYS, noteOf } from './note.ts'
import type { Evidence, Tree } from './record.ts'
import { didYouMean } from './suggest.ts'
import { readText, type WordReading } from './text.ts'

/** One claim as read from the sheet, before it is known whose property it is. */
export interface StatedClaim {
  /** From the property down to the text. */
  readonly at: TreePath
  readonly text: string
  readonly reading: QuantityReading | WordReading
  /** Of the text and of the long form together. */
  readonly note: Note
  /** Evidence already made of a note that is all in the text. */
  readonly evidence?: Map<Basis, Evidence>
  readonly of?: string
  /** Several readings of the same thing; the text is then made of them. */
  readonly readings?: readonly QuantityReading[]
  /** Readings of one run were taken together, the first of each with the first of the others: they go up and down together. */
  readonly run?: string
  readonly conditions?: Readonly<Record<string, Stated>>
}

/** Everything stated about one property. What could not be read stands in `faults`, so that all of it is reported at once. */
export interface Stated {
  readonly stated: Field
  readonly claims: readonly StatedClaim[]
  readonly take?: number
  readonly because?: string
  readonly faults: readonly Fault[]
}

export function isStated(value: unknown): value is Stated {
  return typeof value === 'object' && value !== null && 'stated' in value
}

const LONG_KEYS = ['value', 'readings', 'run', 'at', 'of', 'because', 'note', ...NOTE_KEYS]

/** Reads whatever stands behind the key of a property: a text, the long form, several claims. */
export function readStated(tree: unknown, field: Field): Stated {
  const faults: Fault[] = []
  const claims: StatedClaim[] = []
  const add = (one: Tree, at: TreePath): void => {
    const claim = typeof one === 'string' ? short(one, at, field, faults) : long(one, at, field, faults)
    if (claim) claims.push(claim)
  }
  let several: Several = {}
  if (typeof tree === 'string') add(tree, [])
  else if (isList(tree)) for (const [n, one] of tree.entries()) add(one, [n])
  else if (isMapping(tree) && tree.claims !== undefined) several = readSeveral(tree, add, faults)
  else if (isMapping(tree)) add(tree, [])
  if (claims.length === 0 && faults.length === 0)
    faults.push({ at: [], what: 'no claim stands here', mend: 'write a value, or leave the key out' })
  return { stated: field, claims, ...several, faults }
}

interface Several {
  take?: number
  because?: string
}

function readSeveral(
  tree: { readonly [key: string]: Tree },
  add: (one: Tree, at: TreePath) => void,
  faults: Fault[],
): Several {
  const { claims, take, because } = tree
  refuseOthers(tree, ['claims', 'take', 'because'], [], faults)
  if (isList(claims)) for (const [n, one] of claims.entries()) add(one, ['claims', n])
  else faults.push({ at: ['claims'], what: '"claims" is not a list', mend: 'write claims: [ first, second ]' })
  const several: Several = {}
  if (typeof because === 'string' && because.trim() !== '') several.because = because
  if (take === undefined) return several
  const number = typeof take === 'string' && /^\d+$/.test(take) ? Number(take) : Number.NaN
  const most = isList(claims) ? claims.length : 0
  if (!(number >= 1 && number <= most)) {
    faults.push({
      at: ['take'],
      what: `"take" is the number of a claim, 1 to ${most}`,
      mend: 'count the claims from 1',
    })
    return several
  }
  if (several.because === undefined) {
    faults.push({
      at: ['take'],
      key: true,
      what: '"take" without "because"',
      mend: 'add because: why this claim is taken, not the best evidence',
    })
  }
  several.take = number
  return several
}

function short(text: string, at: TreePath, field: Field, faults: Fault[]): StatedClaim | undefined {
  const read = readText(text, field)
  for (const fault of read.faults) faults.push({ ...fault, at })
  return read.reading && { at, text, reading: read.reading, note: read.reading.note, evidence: read.evidence }
}

function long(tree: Tree, at: TreePath, field: Field, faults: Fault[]): StatedClaim | undefined {
  if (!isMapping(tree)) {
    faults.push({ at, what: 'a list where one claim is expected', mend: 'write one text, or { value: …, basis: … }' })
    return undefined
  }
  refuseOthers(tree, LONG_KEYS, at, faults)
  const { note, faults: wrong } = noteOf(tree)
  for (const { key, what, mend } of wrong) faults.push({ at: [...at, key], what, mend })
  const base = isList(tree.readings)
    ? repeated(tree.readings, at, field, faults)
    : single(tree.value, at, field, faults)
  if (!base) return undefined
  const conditions = conditionsOf(tree.at, at, faults)
  if (tree.of !== undefined && typeof tree.of !== 'string') {
    faults.push({ at: [...at, 'of'], what: '"of" does not name a piece', mend: 'write of: link-cap.3' })
  }
  const { evidence: _short, ...claim } = base
  return {
    ...claim,
    ...runOf(tree, at, faults),
    note: { ...base.note, ...note, restsOn: [...base.note.restsOn, ...note.restsOn] },
    ...(typeof tree.of === 'string' && { of: tree.of }),
    ...(conditions && { conditions }),
  }
}

function runOf(
  { run, readings }: { readonly [key: string]: Tree },
  at: TreePath,
  faults: Fault[],
): Pick<StatedClaim, 'run'> {
  if (run === undefined) return {}
  const here = [...at, 'run']
  if (typeof run !== 'string')
    faults.push({ at: here, what: '"run" is not a name', mend: 'write run: series-1, the same for all taken together' })
  else if (readings === undefined)
    faults.push({
      at: here,
      key: true,
      what: '"run" without "readings"',
      mend: 'a run is of several readings: write readings: [ …, … ]',
    })
  else return { run }
  return {}
}

function single(value: Tree | undefined, at: TreePath, field: Field, faults: Fault[]): StatedClaim | undefined {
  if (typeof value === 'string') return short(value, [...at, 'value'], field, faults)
  const mend = 'write { value: 12.4 mm, basis: measured }'
  if (value === undefined) faults.push({ at, what: 'a claim without a "value"', mend })
  else faults.push({ at: [...at, 'value'], what: '"value" is not one text', mend })
  return undefined
}

/** Readings of the same thing one after the other: their mean, and what their scatter says about it. */
function repeated(texts: readonly Tree[], at: TreePath, field: Field, faults: Fault[]): StatedClaim | undefined {
  const readings: QuantityReading[] = []
  for (const [n, text] of texts.entries()) {
    const here = [...at, 'readings', n]
    const claim = typeof text === 'string' ? short(text, here, field, faults) : undefined
    if (claim?.reading.form === 'scalar' && claim.reading.bound === undefined) readings.push(claim.reading)
    else if (claim || typeof text !== 'string')
      faults.push({ at: here, what: 'a reading is one value', mend: 'write readings: [12.41 mm, 12.38 mm]' })
  }
  const first = readings[0]
  if (!first || readings.length < texts.length) return undefined
  if (readings.length < 2) {
    faults.push({
      at: [...at, 'readings'],
      what: 'one reading says nothing about scatter',
      mend: 'write it as "value", or give two and more',
    })
    return undefined
  }
  return { at: [...at, 'readings'], text: texts.join('; '), reading: first, readings, note: first.note }
}

function conditionsOf(
  tree: Tree | undefined,
  at: TreePath,
  faults: Fault[],
): Readonly<Record<string, Stated>> | undefined {
  if (tree === undefined) return undefined
  if (!isMapping(tree)) {
    faults.push({ at: [...at, 'at'], what: '"at" names no condition', mend: 'write at: { junction: 125 °C }' })
    return undefined
  }
  const conditions: Record<string, Stated> = {}
  for (const name of Object.keys(tree)) {
    const here = [...at, 'at', name]
    const field = conditionField(name)
    const text = tree[name]
    if (!field)
      faults.push({
        at: here,
        key: true,
        what: `unknown condition "${name}"`,
        mend: didYouMean(name, Object.keys(CONDITIONS)),
      })
    else if (typeof text !== 'string')
      faults.push({ at: here, what: 'a condition is one quantity', mend: 'write at: { junction: 125 °C }' })
    else {
      const stated = readStated(text, field)
      faults.push(...stated.faults.map((fault) => ({ ...fault, at: here })))
      if (stated.claims.length > 0) conditions[name] = stated
    }
  }
  return conditions
}

function refuseOthers(
  tree: { readonly [key: string]: Tree },
  known: readonly string[],
  at: TreePath,
  faults: Fault[],
): void {
  for (const key of Object.keys(tree)) {
    if (!known.includes(key))
      faults.push({ at: [...at, key], key: true, what: `unknown key "${key}"`, mend: didYouMean(key, known) })
  }
}
