import type { Part } from './part.ts'
import type { PartIndex } from './part-index.ts'
import { metalNetOf, terminalsOfPiece } from './piece-terminals.ts'
import type { Sheet } from './sheet-schema.ts'

type Net = NonNullable<Sheet['nets']>[string]

/** A net that is there, and the key of the sheet that declares it: its own, or one with a star. */
export interface NamedNet {
  readonly id: string
  readonly net: Net
  readonly key: string
}

/** All parts of a sheet by id, those inside others too. */
export function partsById(
  parts: readonly Part[] | undefined,
  into = new Map<string, Part>(),
): ReadonlyMap<string, Part> {
  for (const part of parts ?? []) {
    into.set(part.id, part)
    partsById(part.parts, into)
  }
  return into
}

/** The sheet with its nets as they are: `phase-*` becomes the nets of that form that something is on. */
export function withNets(sheet: Sheet, index: PartIndex): { sheet: Sheet; nets: readonly NamedNet[] } {
  const declared = Object.entries(sheet.nets ?? {})
  const forms = declared.filter(([key]) => key.includes('*')).map(([key, net]) => ({ key, net, form: formOf(key) }))
  const nets = new Map<string, NamedNet>()
  for (const [key, net] of declared) if (!key.includes('*')) nets.set(key, { id: key, net, key })
  const waiting = forms.length === 0 ? [] : [...usedNets(sheet, index)]
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (nets.has(id)) continue
    for (const { key, net, form } of forms) {
      const star = form.exec(id)?.[1]
      if (star === undefined) continue
      const made = { id, net: resolved(net, star), key }
      nets.set(id, made)
      waiting.push(...besides(made.net))
      break
    }
  }
  const named = [...nets.values()]
  if (sheet.nets === undefined) return { sheet, nets: named }
  return { sheet: { ...sheet, nets: Object.fromEntries(named.map(({ id, net }) => [id, net])) }, nets: named }
}

function besides(net: Net): readonly string[] {
  return [net['rides-on']?.is, net['tied-to']?.is].filter((one) => one !== undefined)
}

function formOf(key: string): RegExp {
  const escaped = key.split('*').map((part) => part.replaceAll(/[^a-z0-9-]/g, '\\$&'))
  return new RegExp(`^${escaped[0]}([a-z0-9]+(?:-[a-z0-9]+)*?)${escaped.slice(1).join('\\1')}$`)
}

/** The same star on both ends of a relation means the same piece. */
function resolved(net: Net, star: string): Net {
  const fill = (told: Net['rides-on']) => told && { ...told, is: told.is.replaceAll('*', star) }
  return {
    ...net,
    ...(net['rides-on'] && { 'rides-on': fill(net['rides-on']) }),
    ...(net['tied-to'] && { 'tied-to': fill(net['tied-to']) }),
  }
}

/** Every net that something in the sheet names. */
function usedNets(sheet: Sheet, index: PartIndex): ReadonlySet<string> {
  const used = new Set<string>()
  for (const part of partsById(sheet.parts).values()) addOfPart(used, part, index)
  for (const port of Object.values(sheet.specimen.ports ?? {})) for (const net of port.nets ?? []) used.add(net)
  for (const { between } of [...(sheet.spacings ?? []), ...(sheet.voltages ?? [])])
    for (const net of between) used.add(net)
  for (const { across } of sheet.census ?? []) for (const net of across ?? []) used.add(net)
  for (const step of sheet.steps ?? []) for (const net of step['proved-dead']?.across ?? []) used.add(net)
  for (const [key, net] of Object.entries(sheet.nets ?? {}))
    if (!key.includes('*')) for (const other of besides(net)) used.add(other)
  return used
}

function addOfPart(used: Set<string>, part: Part, index: PartIndex): void {
  for (const layer of part.stack ?? []) if (layer.net !== undefined) used.add(layer.net)
  for (const { net } of part.traces ?? []) used.add(net)
  for (const net of netsOfPart(part, index).keys()) used.add(net)
}

/** Nets that any piece of a part is on, as terminal or metal, each with one terminal on it ('' for metal). */
export function netsOfPart(part: Part, index: PartIndex): ReadonlyMap<string, string> {
  const nets = new Map<string, string>()
  let starred = false
  const add = (net: string | undefined, terminal: string): void => {
    if (net === undefined) return
    if (net.includes('*')) starred = true
    else nets.set(net, terminal)
  }
  for (const one of [part, ...Object.values(part.each ?? {})]) {
    add(one.net, '')
    for (const name in one.terminals) add(one.terminals[name]?.net, name)
  }
  const entry = index.byId.get(part.id)
  if (!starred || !entry) return nets
  for (const piece of index.piecesOf(entry)) {
    for (const { name, net } of terminalsOfPiece(part, piece)) if (net !== undefined) nets.set(net, name)
    const metal = metalNetOf(part, piece)
    if (metal !== undefined) nets.set(metal, '')
  }
  return nets
}
