import { lastName, listAt, type Mapping, mapping, nothingAt, PatchError } from './patch-tree.ts'
import { isList, isMapping } from './record/fault.ts'
import type { Tree } from './record/record.ts'

export function withoutPart(root: Mapping, path: string, segment: string): Tree {
  requireAlike(path, path.split('/').slice(0, -1))
  const [id = '', piece] = segment.split('.')
  const part = piece === undefined ? undefined : partOf(root, id)
  if (part && piece !== undefined && !isOnlyPiece(part, piece))
    return onPart(root, id, (whole) => withoutPiece(whole, piece, path))
  let found = false
  const prune = (parts: readonly Tree[]): readonly Tree[] =>
    parts.flatMap((part): readonly Tree[] => {
      if (!isMapping(part)) return [part]
      if (part.id === id) {
        found = true
        return []
      }
      return part.parts === undefined ? [part] : [{ ...part, parts: prune(listAt(part, 'parts')) }]
    })
  const parts = prune(listAt(root, 'parts'))
  if (!found) throw nothingAt(path)
  return { ...root, parts }
}

/** What is inside a part that repeats is alike in all its pieces: a sheet has no place for one of them alone. */
export function requireAlike(path: string, above: readonly string[]): void {
  const one = above.find((segment) => segment.includes('.'))
  if (one === undefined) return
  const whole = path.replaceAll(one, one.split('.')[0]!)
  throw new PatchError(`what is inside "${one}" is alike in all its pieces`, path, `name it in all of them: ${whole}`)
}

/** A part leaves with the only piece that it has. */
function isOnlyPiece({ each, count }: Mapping, piece: string): boolean {
  const names = isList(each) ? each.map((_, at) => String(at + 1)) : Object.keys(isMapping(each) ? each : {})
  return names.length === 1 && names[0] === piece && builtIn({ count: count ?? '1' }) === 1
}

/** A named piece leaves with its name; of pieces that are only counted, one fewer is left, and those after it move up. */
export function withoutPiece(part: Mapping, piece: string, path: string): Mapping {
  const { each } = part
  const built = builtIn(part)
  const left = recounted(part, -1)
  if (isList(each) && each[Number(piece) - 1] !== undefined)
    return { ...left, each: each.filter((_, at) => at !== Number(piece) - 1) }
  const own = isMapping(each) ? Object.entries(each) : []
  const counted = built > Math.max(1, own.length) && Number(piece) <= built
  if (!counted && !own.some(([name]) => name === piece)) throw nothingAt(path)
  const rest = own.filter(([name]) => name !== piece)
  const moved = (name: string): string => (counted && Number(name) > Number(piece) ? String(Number(name) - 1) : name)
  return each === undefined
    ? left
    : { ...left, each: Object.fromEntries(rest.map(([name, one]) => [moved(name), one])) }
}

/** One piece more: by its name where pieces have names, else by the count. */
export function withPiece(part: Mapping, segment: string, path: string, entry: Tree): Mapping {
  const piece = segment.slice(segment.indexOf('.') + 1)
  const { each } = part
  const own = isMapping(entry) ? entry : {}
  if (isMapping(each)) {
    if (Object.hasOwn(each, piece)) throw new PatchError(`"${path}" is there already`, path, 'give it another name')
    return { ...recounted(part, 1), each: { ...each, [piece]: own } }
  }
  if (isList(each)) return { ...recounted(part, 1), each: [...each, own] }
  const more = part.count === undefined ? { ...part, count: '2' } : recounted(part, 1)
  return Object.keys(own).length === 0 ? more : { ...more, each: { [String(builtIn(more))]: own } }
}

const COUNT = /\d+/

/** Pieces as the count says; 1 where nothing is said. */
function builtIn({ count }: Mapping): number {
  const text = isMapping(count) ? (count.built ?? count.found) : count
  return typeof text === 'string' ? Number(COUNT.exec(text)?.[0] ?? 1) : 1
}

function recounted(part: Mapping, by: 1 | -1): Mapping {
  const { count } = part
  const moved = (text: Tree): Tree =>
    typeof text === 'string' ? text.replace(COUNT, (digits) => String(Number(digits) + by)) : text
  if (count === undefined) return part
  if (!isMapping(count)) return { ...part, count: moved(count) }
  const key = count.built === undefined ? 'found' : 'built'
  const now = { ...count, [key]: moved(count[key] ?? '1') }
  // No more can be found than were built.
  const over = builtIn({ count: { built: now.found ?? '0' } }) > builtIn({ count: now })
  return { ...part, count: over && now.found !== undefined ? { ...now, found: moved(now.found) } : now }
}

/** A text property of a part, in the place of whatever stands there. */
export function withText(root: Mapping, rest: readonly string[], text: string): Tree {
  const ids = partIds(root)
  const holder = rest.findLastIndex((segment) => ids.has(segment.split('.')[0]!))
  const path = ['parts', ...rest].join('/')
  if (holder < 0 || holder === rest.length - 1) throw nothingAt(path)
  requireAlike(path, rest.slice(0, holder))
  const put = (tree: Mapping, keys: readonly string[]): Mapping => {
    const [key = '', ...below] = keys
    return { ...tree, [key]: below.length === 0 ? text : put(isMapping(tree[key]) ? tree[key] : {}, below) }
  }
  const [, piece] = rest[holder]!.split('.')
  const keys = rest.slice(holder + 1)
  return onPart(root, rest[holder]!, (part) => {
    if (piece === undefined) return put(part, keys)
    const { each = {} } = part
    if (isList(each) && each[Number(piece) - 1] !== undefined)
      return { ...part, each: each.map((one, at) => (at === Number(piece) - 1 ? put(mapping(one, path), keys) : one)) }
    if (!isMapping(each) || (!Object.hasOwn(each, piece) && !(Number(piece) <= builtIn(part)))) throw nothingAt(path)
    return { ...part, each: { ...each, [piece]: put(isMapping(each[piece]) ? each[piece] : {}, keys) } }
  })
}

function partIds(root: Mapping): ReadonlySet<string> {
  const ids = new Set<string>()
  const visit = (parts: readonly Tree[]): void => {
    for (const part of parts) {
      if (!isMapping(part)) continue
      if (typeof part.id === 'string') ids.add(part.id)
      visit(listAt(part, 'parts'))
    }
  }
  visit(listAt(root, 'parts'))
  return ids
}

/** `parts/link-cap.2/terminals/plus` on net `nets/dc-plus`. */
export function onTerminal(root: Mapping, from: string, to: string, on: boolean): Tree {
  const segments = from.split('/').filter((segment) => segment !== 'terminals')
  const terminal = segments.at(-1)!
  requireAlike(from, segments.slice(0, -2))
  const [id = '', piece] = segments.at(-2)!.split('.')
  const put = (holder: Mapping): Mapping => {
    const rest = Object.fromEntries(
      Object.entries(mapping(holder.terminals ?? {}, from)).filter(([name]) => name !== terminal),
    )
    return { ...holder, terminals: on ? { ...rest, [terminal]: lastName(to) } : rest }
  }
  return onPart(root, id, (part) => {
    if (piece === undefined) return put(part)
    const { each = {} } = part
    const own = (there: Tree | undefined): Mapping =>
      on ? put(isMapping(there) ? there : {}) : { ...(isMapping(there) ? there : {}), terminals: unplugged(there) }
    if (isList(each)) return { ...part, each: each.map((one, at) => (at === Number(piece) - 1 ? own(one) : one)) }
    if (!isMapping(each)) throw nothingAt(from)
    return { ...part, each: { ...each, [piece]: own(each[piece]) } }
  })

  /** What holds for all pieces is taken back for one by saying so. */
  function unplugged(there: Tree | undefined): Mapping {
    const terminals = isMapping(there) && isMapping(there.terminals) ? there.terminals : {}
    return { ...terminals, [terminal]: 'absent' }
  }
}

/** A part put inside another, or taken out of it to the top. */
export function onHolder(root: Mapping, holder: string, path: string, on: boolean): Tree {
  requireAlike(`${holder}/${path.split('/').at(-1)}`, [holder])
  const id = lastName(path)
  const part = partOf(root, path)
  const inside = (one: Mapping): boolean => listAt(one, 'parts').some((child) => isMapping(child) && child.id === id)
  const rest = withoutPart(root, path, id) as Mapping
  if (on) return onPart(rest, holder.split('/').at(-1)!, (one) => ({ ...one, parts: [...listAt(one, 'parts'), part] }))
  const before = partOf(root, holder)
  if (!inside(before))
    throw new PatchError(`"${id}" is not inside "${lastName(holder)}"`, path, 'name the part that it is inside of')
  return { ...rest, parts: [...listAt(rest, 'parts'), part] }
}

function partOf(root: Mapping, path: string): Mapping {
  const id = lastName(path)
  const find = (parts: readonly Tree[]): Mapping | undefined => {
    for (const part of parts) {
      if (!isMapping(part)) continue
      if (part.id === id) return part
      const inside = find(listAt(part, 'parts'))
      if (inside) return inside
    }
    return undefined
  }
  const found = find(listAt(root, 'parts'))
  if (!found) throw nothingAt(path)
  return found
}

export function onPart(root: Mapping, segment: string, change: (part: Mapping) => Mapping): Tree {
  const id = segment.split('.')[0]!
  let found = false
  const visit = (parts: readonly Tree[]): readonly Tree[] =>
    parts.map((part) => {
      if (!isMapping(part)) return part
      if (part.id === id) {
        found = true
        return change(part)
      }
      return part.parts === undefined ? part : { ...part, parts: visit(listAt(part, 'parts')) }
    })
  const parts = visit(listAt(root, 'parts'))
  if (!found) throw nothingAt(`parts/${segment}`)
  return { ...root, parts }
}
