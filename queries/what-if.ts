import type { Edit } from '../graph/edit.ts'
import { idOf, lastName, listAt, type Mapping } from '../graph/patch-tree.ts'
import { asPath, type Path } from '../graph/quantity/quantity.ts'
import { isMapping } from '../graph/record/fault.ts'
import type { PartReference } from '../graph/record/part-index.ts'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import { closest } from '../graph/record/suggest.ts'
import { canonical, QuantityInputError, whatIfValue } from './quantity-input.ts'
import { relationChange } from './what-if-relation.ts'

/** Words that stand in the place of a value in a change. */
export const CHANGE_WORDS = {
  removed: 'a part, a piece, a layer, a heat path, a joint or any other entry is taken out',
  doubled: 'a layer comes twice in a row; a part comes twice as often, and where it is a layer twice in a row',
  'one more': 'a part comes once more',
  'one fewer': 'a part comes once less',
  refuted: 'a finding is taken as refuted: what rests on it falls',
  held: 'a finding is taken as held',
} as const

/**
 * Reads `parts/link-cap/capacitance=130 µF`, `film-upper=removed`, `heat/choke-deck/pad=doubled`,
 * `parts/bleeder/terminals/1=dc-plus`, `findings/even-split=refuted`.
 * @throws QuantityInputError when it names nothing, or does not fit what it names
 */
export function changesFrom(record: TeardownRecord, text: string): readonly Edit[] {
  const equals = text.indexOf('=')
  if (equals < 1)
    throw new QuantityInputError(`"${text}" is no what-if`, 'write path=quantity, e.g. specimen/mass=11 kg')
  return changes(record, text.slice(0, equals).trim(), text.slice(equals + 1).trim())
}

/** The edits that one change of a record stands for. @throws QuantityInputError */
export function changes(record: TeardownRecord, typed: string, value: string): readonly Edit[] {
  if (typed.startsWith('findings/')) return [...withStatus(record, typed.slice('findings/'.length), value)]
  const relation = relationChange(record, typed, value)
  if (relation) return relation
  switch (value) {
    case 'removed':
      return [{ drop: asPath(pathOf(record, typed)) }]
    case 'doubled':
      return doubled(record, typed)
    case 'one more':
      return onPieces(record, typed, (entry) => [oneMore(entry, 1)])
    case 'one fewer':
      return onPieces(record, typed, (entry) => [{ drop: lastPiece(entry) }])
  }
  const terminal = terminalAt(record, typed)
  if (terminal) return [onNet(record, terminal, value)]
  return [valueOrWord(record, typed, value)]
}

/** Whether a change puts a number without any width in the place of a value. */
export function isTakenAsExact(edits: readonly Edit[]): boolean {
  return edits.some(
    (edit) => 'set' in edit && typeof edit.to !== 'string' && !edit.to.bound && edit.to.terms.length === 0,
  )
}

/** A finding with another status. */
function withStatus(record: TeardownRecord, id: string, status: string): readonly Edit[] {
  const findings = record.sheet.findings ?? []
  const at = findings.findIndex((one) => one.id === id)
  const entry = treeAt(record.tree, 'findings', at)
  if (at < 0 || entry === undefined) {
    const ids = findings.flatMap((one) => one.id ?? [])
    const near = closest(id, ids)
    throw new QuantityInputError(
      `there is no finding "${id}"`,
      near ? `did you mean findings/${near}?` : `findings: ${ids.join(', ') || 'none'}`,
    )
  }
  if (status !== 'refuted' && status !== 'held' && status !== 'open')
    throw new QuantityInputError(`a finding is not "${status}"`, 'one of: refuted, held, open')
  return [
    { drop: asPath(`findings/${id}`) },
    { add: asPath('findings'), entry: { ...(entry as { readonly [key: string]: Tree }), id, status } },
  ]
}

function treeAt(tree: Tree, section: string, at: number): Tree | undefined {
  if (typeof tree === 'string' || !(section in tree)) return undefined
  const list = (tree as { readonly [key: string]: Tree })[section]
  return Array.isArray(list) ? (list as readonly Tree[])[at] : undefined
}

/** Canonical path of what was typed: the section may be left out where it is a part. */
function pathOf(record: TeardownRecord, typed: string): string {
  const part = partAt(record, typed)
  return part ? record.parts.pathOf(part) : typed
}

function partAt(record: TeardownRecord, typed: string): PartReference | undefined {
  const reference = record.parts.refer(typed)
  return 'entry' in reference && reference.rest.length === 0 && !reference.face ? reference : undefined
}

function doubled(record: TeardownRecord, typed: string): readonly Edit[] {
  const [section, heat, layer] = typed.split('/')
  if (section === 'heat' && heat !== undefined && layer !== undefined) {
    const found = layersOf(record).find((one) => one.heat === heat && one.id === layer)
    if (!found) throw nothingAt(`heat/${heat}/${layer}`)
    return [again(found)]
  }
  return onPieces(record, typed, (part) => {
    const { id, pieces } = part.entry
    if (part.picks.has(id)) return [oneMore(part, 1)]
    const more = Array.from({ length: Math.max(1, pieces.length) }, (_, n) => oneMore(part, n + 1))
    return [...more, ...layersOf(record).flatMap((one) => (isMadeOf(one.entry, id) ? [again(one)] : []))]
  })
}

interface Layer {
  readonly heat: string
  readonly id: string
  readonly entry: Mapping
}

function layersOf({ tree }: TeardownRecord): readonly Layer[] {
  const paths = isMapping(tree) ? listAt(tree, 'heat') : []
  return paths.flatMap((path) => {
    const heat = idOf(path)
    if (heat === undefined || !isMapping(path)) return []
    return listAt(path, 'layers').flatMap((entry) => {
      const id = idOf(entry)
      return id !== undefined && isMapping(entry) ? [{ heat, id, entry }] : []
    })
  })
}

const isMadeOf = ({ part }: Mapping, id: string): boolean => typeof part === 'string' && lastName(part) === id

/** The same layer once more, on top of itself. */
const again = ({ heat, id, entry }: Layer): Edit => ({
  add: asPath(`heat/${heat}/${id}`),
  entry: { ...entry, id: `${id}-2` },
})

function onPieces(
  record: TeardownRecord,
  typed: string,
  edits: (part: PartReference) => readonly Edit[],
): readonly Edit[] {
  const part = partAt(record, typed)
  if (!part) throw nothingAt(typed)
  return edits(part)
}

/** A piece more of a part: numbered on, or named after one of those there. */
function oneMore({ entry }: PartReference, n: number): Edit {
  const { pieces } = entry
  const numbered = pieces.every((name) => /^\d+$/.test(name))
  const name = numbered ? String(Math.max(1, pieces.length) + n) : `${pieces[n - 1]}-2`
  return { add: asPath(`${entry.path}.${name}`), entry: '' }
}

function lastPiece({ entry }: PartReference): Path {
  const last = entry.pieces.at(-1)
  return last === undefined ? entry.path : asPath(`${entry.path}.${last}`)
}

function terminalAt(record: TeardownRecord, typed: string): string | undefined {
  const at = typed.lastIndexOf('/terminals/')
  if (at < 0) return undefined
  const part = partAt(record, typed.slice(0, at))
  return part ? `${record.parts.pathOf(part)}${typed.slice(at)}` : undefined
}

function onNet(record: TeardownRecord, terminal: string, value: string): Edit {
  const net = value.replace(/^nets\//, '')
  if (net === 'absent') return { relate: 'terminal', from: asPath(terminal), to: asPath('nets'), on: false }
  const nets = Object.keys(record.sheet.nets ?? {})
  if (!nets.includes(net))
    throw new QuantityInputError(`there is no net "${net}"`, closest(net, nets) ?? `nets: ${nets.join(', ')}`)
  return { relate: 'terminal', from: asPath(terminal), to: asPath(`nets/${net}`), on: true }
}

/** A value that is recorded keeps the structure; a word, or a property of a part that nothing is written of, changes the sheet. */
function valueOrWord(record: TeardownRecord, typed: string, value: string): Edit {
  const path = canonical(record, typed)
  const fact = record.facts.get(path)
  if (path.startsWith('parts/') && (fact?.dimension === 'text' || isUnwritten(record, typed, path)))
    return { add: path, entry: value }
  return whatIfValue(record, typed, value)
}

function isUnwritten(record: TeardownRecord, typed: string, path: Path): boolean {
  const reference = record.parts.refer(typed)
  if (!('entry' in reference) || reference.rest.length === 0 || reference.face) return false
  return ![...record.facts.keys()].some((one) => one === path || one.startsWith(`${path}/`)) && !path.includes('.')
}

function nothingAt(typed: string): QuantityInputError {
  return new QuantityInputError(`there is nothing at "${typed}"`, 'lidoff show ID lists the paths of a record')
}
