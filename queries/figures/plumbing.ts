import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import type { ThermalNetwork, ThermalPassage } from '../physics/network-types.ts'
import { solveNetwork } from '../physics/thermal-network.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { coolantAt, entriesWithin, hottest, stateOf, temperatureAt } from './heat/at.ts'
import { HEAT_POINT, stagePieces } from './thermal.ts'

interface Order {
  /** Passages of the power stage that no other of them comes before. */
  readonly first: readonly Path[]
  /** Those with the most of the others before them. */
  readonly last: readonly Path[]
  readonly all: readonly Path[]
}

/** Passages in which the heat of the power stage ends, in the order in which the coolant visits them. */
function stageOrder(view: View): Order {
  return view.choice('order of the power stage', () => {
    const passages = view.find({ ask: 'passages' }).paths
    const ends = new Set(stagePieces(view).flatMap((piece) => view.find({ ask: 'heat-ends', piece }).paths))
    const all = passages.filter((passage) => ends.has(passage))
    const before = (passage: Path): number =>
      view.find({ ask: 'upstream', passage }).paths.filter((one) => ends.has(one)).length
    const counts = all.map(before)
    const at = (count: number): readonly Path[] => all.filter((_, n) => counts[n] === count)
    return { all, first: at(0), last: at(Math.max(0, ...counts)) }
  })
}

function inSeries(view: View): Order {
  const order = stageOrder(view)
  if (order.all.length === 0) view.fail('no heat of a power stage ends in a coolant passage', 'not-applicable')
  if (order.last === order.first || order.last.every((one) => order.first.includes(one)))
    view.fail('the coolant visits the power stage side by side: none is last', 'not-applicable')
  return order
}

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one / values.length, 0)

const lastStagePenalty = defineFigure({
  id: 'LAST_STAGE_PENALTY',
  title: 'Penalty of being last along the coolant',
  definition:
    'Local coolant temperature of the passage of the power stage that the coolant visits last, less that of the one it visits first: what the last module pays for its place.',
  unit: 'K',
  subject: 'specimen',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method: 'heat network; mean of inlet and outlet of each passage',
  sources: ['energy balance'],
  subjects: () => SPECIMEN,
  compute(view) {
    const { first, last } = inSeries(view)
    const local = (passages: readonly Path[]): number => mean(view.each(passages, (one) => coolantAt(view, one).local))
    const [begin, end] = view.all(
      () => local(first),
      () => local(last),
    )
    return end - begin
  },
})

const parallelGain = defineFigure({
  id: 'PARALLEL_GAIN',
  title: 'Hottest junction, as plumbed less side by side',
  definition:
    'Highest junction of the power stage as plumbed, less the highest with the same passages side by side, each with its even share of the flow and the resistances held as they are. Real films are weaker at the lower flow, so the true gain is smaller.',
  unit: 'K',
  subject: 'specimen',
  honours: ['power'],
  operating: HEAT_POINT,
  kink: true,
  caution: 'heat',
  method: 'second solve of the heat network with the passages of the power stage fed side by side',
  sources: ['energy balance'],
  subjects: () => SPECIMEN,
  compute(view) {
    const { first, all } = inSeries(view)
    const pieces = stagePieces(view)
    const now = Math.max(...view.each(pieces, (piece) => hottest(view, piece)))
    const nodes = pieces.flatMap((piece) => entriesWithin(view, piece).map(({ node }) => node))
    for (const node of nodes) temperatureAt(view, node)
    const state = stateOf(view, all[0]!)
    const feeds = view.each(first, (passage) => coolantAt(view, passage))
    const rate = feeds.reduce((sum, one) => sum + one.heatCapacityRate, 0)
    const inlet = feeds.reduce((sum, one) => sum + one.inlet * (one.heatCapacityRate / rate), 0)
    const other = solveNetwork(
      besides(state.network, { all, rate: rate / all.length, inlet, at: (id) => coolantAt(view, id as Path) }),
    )
    if (!other.stable) return view.fail('side by side the network has no steady temperature')
    return now - Math.max(...nodes.map((node) => other.temperatures[node]!))
  },
})

interface Besides {
  readonly all: readonly Path[]
  readonly rate: number
  readonly inlet: number
  readonly at: (passage: string) => { readonly inlet: number; readonly heatCapacityRate: number }
}

/** Passages of the power stage fed from one place; the others keep the inlet that they have. */
function besides(network: ThermalNetwork, { all, rate, inlet, at }: Besides): ThermalNetwork {
  const fed = (passage: ThermalPassage): ThermalPassage => {
    if (all.includes(passage.id as Path)) return { ...passage, feeds: [{ temperature: inlet, heatCapacityRate: rate }] }
    const own = at(passage.id)
    return { ...passage, feeds: [{ temperature: own.inlet, heatCapacityRate: own.heatCapacityRate }] }
  }
  return { ...network, passages: (network.passages ?? []).map(fed) }
}

export const plumbingFigures = [lastStagePenalty, parallelGain] as const
