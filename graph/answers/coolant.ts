import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { splitPiece } from '../record/part-index.ts'
import { PASSAGE_FORM_NAMES } from '../record/passage.ts'
import type { Evidence } from '../record/record.ts'
import { answerOf, type Context, edges, nodeOf } from './context.ts'

export function circuits({ graph }: Context): Found {
  return answerOf(
    graph
      .filterNodes((_, node) => node.kind === 'port' && node.end === 'inlet')
      .flatMap((path) => {
        const node = nodeOf(graph, path, 'port')
        return node ? [node.circuit] : []
      }),
  )
}

export function circuitOf({ graph }: Context, passage: Path): Found {
  const node = nodeOf(graph, passage, 'passage')
  return answerOf(node ? [node.circuit] : [])
}

export function coolingOf({ graph }: Context, passage: Path, face: Path): Found {
  const wires = edges(graph, passage, 'cools', 'out').filter(({ to }) => to === face)
  return answerOf(
    wires.flatMap(({ attributes }) => (attributes.kind === 'cools' ? [attributes.entry] : [])),
    wires.flatMap(({ attributes }) => ('evidence' in attributes ? [attributes.evidence] : [])),
  )
}

export function formOf(context: Context, passage: Path): Found {
  const typed = typedPassage(context, passage)
  const form = PASSAGE_FORM_NAMES.find((name) => typed?.own?.[name] ?? typed?.whole[name])
  return answerOf(form === undefined ? [] : [asPath(form)], [], form !== undefined)
}

/** Those of a piece of a passage stand instead of those of the whole. */
export function minorLosses(context: Context, passage: Path): Found {
  const typed = typedPassage(context, passage)
  const losses = typed?.own?.['minor-losses'] ?? typed?.whole['minor-losses'] ?? []
  return answerOf(
    losses.map(({ id }) => asPath(`${passage}/minor-losses/${id}`)),
    [],
    false,
  )
}

function typedPassage({ record }: Context, path: Path) {
  const { name, piece } = splitPiece(path.slice('coolant/'.length))
  const whole = (record.sheet.coolant ?? []).flatMap((one) => one.passages ?? []).find(({ id }) => id === name)
  return whole && { whole, own: piece === undefined ? undefined : whole.each?.[piece] }
}

export function passages({ graph }: Context, circuit?: Path): Found {
  return answerOf(
    graph
      .filterNodes((_, node) => node.kind === 'passage' && (circuit === undefined || node.circuit === circuit))
      .map(asPath),
  )
}

/** Every passage that the coolant may have visited before it comes to this one. */
export function upstream({ graph }: Context, passage: Path): Found {
  const seen = new Set<Path>()
  const evidence: Evidence[] = []
  const queue = [passage]
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    for (const { from, attributes } of edges(graph, node, 'flows', 'in')) {
      if ('evidence' in attributes) evidence.push(attributes.evidence)
      if (seen.has(from)) continue
      seen.add(from)
      queue.push(from)
    }
  }
  return answerOf(
    [...seen].filter((path) => path !== passage && nodeOf(graph, path, 'passage')),
    evidence,
  )
}

export function flowsTo({ graph }: Context, node: Path): Found {
  const wires = edges(graph, node, 'flows', 'out')
  return answerOf(
    wires.map(({ to }) => to),
    wires.flatMap(({ attributes }) => ('evidence' in attributes ? [attributes.evidence] : [])),
  )
}

/** Position along the coolant, 0 for what the inlet feeds; null for a passage that nothing enters. */
export function stageOf(context: Context, passage: Path): number | null {
  const { graph } = context
  const memo = new Map<string, number | null>()
  const depth = (node: string): number | null => {
    if (nodeOf(graph, node, 'port')?.end === 'inlet') return -1
    const known = memo.get(node)
    if (known !== undefined) return known
    memo.set(node, null)
    const before = edges(graph, node, 'flows', 'in')
      .map(({ from }) => depth(from))
      .filter((one) => one !== null)
    const stage = before.length > 0 ? Math.max(...before) + 1 : null
    memo.set(node, stage)
    return stage
  }
  return depth(passage)
}
