import { edges } from '../answers/context.ts'
import type { TeardownGraph } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { TeardownRecord } from '../record/record.ts'
import { eachPiece } from './nets.ts'
import { startsOf } from './resolve.ts'

/** One commutation loop per half bridge: of a module, or of two discrete switches that share a switching net. */
export function addLoops(graph: TeardownGraph, record: TeardownRecord): void {
  for (const bridge of [...moduleBridges(graph, record), ...discreteBridges(graph, record)]) {
    const leftOut = exceptionsOf(record, bridge.id)
    graph.addNode(asPath(`loops/${bridge.id}`), { kind: 'loop', bridge: bridge.pieces, rails: bridge.rails, leftOut })
  }
}

interface Bridge {
  readonly id: string
  readonly pieces: readonly Path[]
  readonly rails: readonly [Path, Path]
}

function moduleBridges(graph: TeardownGraph, record: TeardownRecord): readonly Bridge[] {
  return eachPiece(record).flatMap(({ piece }): readonly Bridge[] => {
    if (piece.entry.class !== 'half-bridge-module') return []
    const plus = terminal(graph, piece.path, 'dc-plus')
    const minus = terminal(graph, piece.path, 'dc-minus')
    return plus && minus ? [{ id: piece.path.slice('parts/'.length), pieces: [piece.path], rails: [plus, minus] }] : []
  })
}

const HIGH = ['drain', 'collector']
const LOW = ['source', 'emitter']
const SWITCHES = ['discrete-power-device', 'switch-position']

/** Two switches in series across two nets: the middle net is the source of the upper and the drain of the lower. */
function discreteBridges(graph: TeardownGraph, record: TeardownRecord): readonly Bridge[] {
  const switches = eachPiece(record)
    .filter(({ piece }) => SWITCHES.includes(piece.entry.class))
    .map(({ piece }) => ({
      path: piece.path,
      high: anyOf(graph, piece.path, HIGH),
      low: anyOf(graph, piece.path, LOW),
    }))
  const middles = new Map<Path, { upper: Path[]; lower: Path[]; plus?: Path; minus?: Path }>()
  for (const one of switches) {
    if (one.low) {
      const middle = middles.get(one.low) ?? { upper: [], lower: [] }
      middles.set(one.low, { ...middle, upper: [...middle.upper, one.path], ...(one.high && { plus: one.high }) })
    }
    if (one.high) {
      const middle = middles.get(one.high) ?? { upper: [], lower: [] }
      middles.set(one.high, { ...middle, lower: [...middle.lower, one.path], ...(one.low && { minus: one.low }) })
    }
  }
  return [...middles].flatMap(([net, { upper, lower, plus, minus }]): readonly Bridge[] =>
    plus && minus && plus !== minus && upper.length > 0 && lower.length > 0
      ? [{ id: net.slice('nets/'.length), pieces: [...upper, ...lower], rails: [plus, minus] }]
      : [],
  )
}

function anyOf(graph: TeardownGraph, piece: Path, names: readonly string[]): Path | undefined {
  for (const name of names) {
    const net = terminal(graph, piece, name)
    if (net) return net
  }
  return undefined
}

function terminal(graph: TeardownGraph, piece: Path, name: string): Path | undefined {
  return edges(graph, piece, 'terminal', 'out').find(
    ({ attributes }) => attributes.kind === 'terminal' && attributes.name === name,
  )?.to
}

/** What the sheet leaves out of a loop: every piece of what it names. */
function exceptionsOf(record: TeardownRecord, loop: string): readonly Path[] {
  const entry = Object.entries(record.sheet.loops ?? {}).find(([id]) => sameLoop(record, id, loop))?.[1]
  return (entry?.['leave-out'] ?? []).flatMap((part) => startsOf(record, part).map(({ piece }) => piece.path))
}

/** A loop is named by its half bridge, ancestors typed or not, or by its switching net. */
function sameLoop(record: TeardownRecord, id: string, loop: string): boolean {
  if (id === loop) return true
  const reference = record.parts.refer(id)
  return 'entry' in reference && record.parts.pathOf(reference) === `parts/${loop}`
}
