import { partsById } from '../build/parts.ts'
import { lastOf } from '../build/resolve.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { answerOf, type Context } from './context.ts'
import { pickOf } from './metal.ts'
import { entryOf } from './parts.ts'

/** Passages that a seal closes; one that comes several times stands for all of its pieces. */
export function sealedBy(context: Context, part: Path): Found {
  const named = sealsOf(context, part)?.passages ?? []
  const nodes = context.graph.filterNodes((_, node) => node.kind === 'passage').map(asPath)
  const found = named.flatMap((text) => {
    const { name, piece: typed } = lastOf(text)
    const piece = typed === '*' ? pickOf(part) : typed
    const path = `coolant/${name}${piece === undefined ? '' : `.${piece}`}`
    return nodes.filter((node) => node === path || node.startsWith(`${path}.`))
  })
  return answerOf(found)
}

export function leaksTowards(context: Context, part: Path): Found {
  const { parts } = context.record
  const found = (sealsOf(context, part)?.['leaks-towards'] ?? []).flatMap((text) => {
    const reference = parts.refer(text)
    return 'entry' in reference ? [parts.pathOf(reference)] : []
  })
  return answerOf(found)
}

function sealsOf(context: Context, part: Path) {
  const entry = entryOf(context, part)
  const id = context.record.parts.entries.find((one) => one.path === entry)?.id
  return id === undefined ? undefined : partsById(context.record).get(id)?.seals
}
