import { partsById } from '../build/parts.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import type { Part } from '../record/part.ts'
import { answerOf, type Context } from './context.ts'
import { entryOf } from './parts.ts'

/** Layers of a board or flexible circuit, from one face to the other: films and copper. */
export function stackOf(context: Context, part: Path): Found {
  const layers = typedPart(context, part)?.stack ?? []
  return answerOf(
    layers.map(({ id }) => asPath(`${part}/stack/${id}`)),
    [],
    layers.length > 0,
  )
}

/** Net of a copper layer that is a plane. */
export function copperNet(context: Context, layer: Path): Found {
  const [part, id] = layer.split('/stack/')
  const net = typedPart(context, asPath(part!))?.stack?.find((one) => one.id === id)?.net
  return answerOf(net === undefined ? [] : [asPath(`nets/${net}`)])
}

export function tracesOf(context: Context, part: Path): Found {
  const traces = typedPart(context, part)?.traces ?? []
  return answerOf(traces.map(({ id }) => asPath(`${part}/traces/${id}`)))
}

/** Layer that a trace runs in, planes it is referred to, or the trace it is paired with. */
export function traceOn(context: Context, trace: Path, ask: 'trace-on' | 'trace-references' | 'trace-pair'): Found {
  const found = traceAt(context, trace)
  if (!found) return answerOf([], [], false)
  const { one, part } = found
  if (ask === 'trace-pair') return answerOf(one.pair === undefined ? [] : [asPath(`${part}/traces/${one.pair}`)])
  const ids = ask === 'trace-on' ? [one.layer].flatMap((id) => id ?? []) : (one.reference ?? [])
  return answerOf(
    ids.map((id) => asPath(`${part}/stack/${id}`)),
    [],
    ids.length > 0,
  )
}

export function netOfTrace(context: Context, trace: Path): Found {
  const net = traceAt(context, trace)?.one.net
  return answerOf(net === undefined ? [] : [asPath(`nets/${net}`)])
}

function traceAt(context: Context, trace: Path) {
  const [part, id] = trace.split('/traces/')
  const one = typedPart(context, asPath(part!))?.traces?.find((other) => other.id === id)
  return one && { one, part }
}

function typedPart(context: Context, part: Path): Part | undefined {
  const entry = entryOf(context, part)
  const id = context.record.parts.entries.find((one) => one.path === entry)?.id
  return id === undefined ? undefined : partsById(context.record).get(id)
}
