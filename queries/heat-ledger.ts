import { describeLack } from '../graph/lack.ts'
import type { Path } from '../graph/quantity/quantity.ts'
import type { View } from '../graph/view.ts'
import type { Session } from './evaluate/session.ts'
import { followed } from './figures/heat/followed.ts'
import { type HeatState, heatNetwork, raise } from './figures/heat/network.ts'
import { known } from './figures/heat/reading.ts'
import { heatTopology, type Island } from './figures/heat/topology.ts'
import { transfer } from './figures/heat/transfer.ts'

/** One source with the ends that its watts take, each by itself. */
export interface LedgerSource {
  readonly piece: Path
  /** At its temperature [W]. */
  readonly loss: number
  /**
   * [W] at each passage, air and frame, if all of these had one temperature; they sum to the loss. Empty where ways are
   * not known well enough to part it.
   */
  readonly to: readonly { readonly end: Path; readonly heat: number }[]
}

export interface LedgerEnd {
  /** A passage, `ambient/air` or `ambient/frame`. */
  readonly end: Path
  readonly heat: number
}

/** Where every watt of a record goes. */
export interface HeatLedger {
  readonly sources: readonly LedgerSource[]
  readonly ends: readonly LedgerEnd[]
  /** Sums over what is known [W]. */
  readonly given: number
  readonly taken: number
  /** (given − taken) over given: what the solve leaves over, of the order of 1e-15. */
  readonly unaccounted: number
  /** Sources whose heat or whose way is not known, with what the record lacks. */
  readonly open: readonly { readonly piece: Path; readonly lacks: string }[]
}

/** The ledger of all heat at the operating point of the session, island by island of the heat network. */
export function heatLedger(session: Session): HeatLedger {
  const { value } = session.viewer.record((view) => {
    const { islands, stranded } = heatTopology(view)
    const solved = islands.map((island) => ({ island, state: known(view, () => view.model(heatNetwork, island.id)) }))
    return { whole: solved.filter(({ island, state }) => state && complete(island, state)), solved, stranded }
  })
  const { whole, solved, stranded } = value!
  const sources = whole.flatMap(({ island, state }) => sourcesOf(session, island, state!))
  const ends = endsOf(whole.map(({ state }) => state!))
  const given = sources.reduce((sum, { loss }) => sum + loss, 0)
  const taken = ends.reduce((sum, { heat }) => sum + heat, 0)
  const left = solved.filter((one) => !whole.includes(one))
  return {
    sources,
    ends,
    given,
    taken,
    unaccounted: given === 0 ? 0 : (given - taken) / given,
    open: [
      ...left.flatMap(({ island, state }) => {
        const lacks = lacksOf(session, island, state)
        return island.entries.map(({ of }) => ({ piece: of, lacks }))
      }),
      ...stranded.map((piece) => ({ piece, lacks: 'no heat path leads from it to coolant, air or frame' })),
    ],
  }
}

/** Whether all heat of an island is known, whatever is known of its temperatures. */
function complete({ entries }: Island, { settled, losses }: HeatState): boolean {
  return settled.stranded.length === 0 && settled.heatGaps.size === 0 && entries.every(({ of }) => losses.has(of))
}

function sourcesOf(session: Session, { entries }: Island, state: HeatState): readonly LedgerSource[] {
  return entries.map(({ of, node }) => {
    const loss = state.losses.get(of)!
    const { value } = session.viewer.record(
      (view) => known(view, () => view.model(transfer, of).ends) ?? followed(view, state, node),
    )
    return { piece: of, loss, to: (value ?? []).map(({ end, share }) => ({ end, heat: share * loss })) }
  })
}

function endsOf(states: readonly HeatState[]): readonly LedgerEnd[] {
  const heat = new Map<string, number>()
  for (const { open, heats } of states) {
    const ways = [
      ...open.sinks.map(({ id, sink }) => ({ id, end: sink })),
      ...open.coolings.map(({ id, passage }) => ({ id, end: passage })),
    ]
    for (const { id, end } of ways) heat.set(end, (heat.get(end) ?? 0) + (heats.get(id) ?? 0))
  }
  return [...heat].map(([end, one]) => ({ end: end as Path, heat: one }))
}

function lacksOf(session: Session, island: Island, state: HeatState | undefined): string {
  const gaps = new Set([...(state?.settled.heatGaps.values() ?? [])].flatMap((one) => [...one]))
  const why = (view: View): unknown => (state ? raise(view, gaps) : view.model(heatNetwork, island.id))
  const { lack } = session.viewer.record(why)
  return lack ? describeLack(lack) : 'its heat has no way out'
}

/** Ends that take less of a source than this are told together. */
const TRIFLE = 0.005

/** The ledger as lines of text, watts to three digits. */
export function ledgerLines({ sources, ends, given, taken, unaccounted, open }: HeatLedger): readonly string[] {
  const watts = (value: number): string => `${Number(value.toPrecision(4))} W`
  return [
    ...sources.map(({ piece, loss, to }) => {
      const large = to.filter(({ heat }) => Math.abs(heat) > TRIFLE * Math.abs(loss))
      const rest = to.reduce((sum, { heat }) => sum + heat, 0) - large.reduce((sum, { heat }) => sum + heat, 0)
      const parts = large.map(({ end, heat }) => `${watts(heat)} to ${end}`)
      if (large.length < to.length) parts.push(`${watts(rest)} to ${to.length - large.length} more`)
      return `${piece} gives ${watts(loss)}: ${parts.join(', ') || 'its ways are not known well enough to say where to'}`
    }),
    ...ends.map(({ end, heat }) => `${end} takes ${watts(heat)}`),
    ...(ends.length > 1
      ? ['what the ends take is as they are; each source is parted as if they had one temperature']
      : []),
    `given ${watts(given)}, taken ${watts(taken)}, left over ${leftOver(unaccounted)}`,
    ...[...grouped(open)].map(([lacks, pieces]) => `not in it: ${pieces.join(', ')}; for want of: ${lacks}`),
  ]
}

/** Rounding of the solve is nothing; anything more is shown. */
function leftOver(share: number): string {
  return Math.abs(share) < 1e-9 ? 'nothing' : `${(100 * share).toPrecision(2)} % of it`
}

function grouped(open: HeatLedger['open']): ReadonlyMap<string, readonly Path[]> {
  const byLack = new Map<string, Path[]>()
  for (const { piece, lacks } of open) byLack.set(lacks, [...(byLack.get(lacks) ?? []), piece])
  return byLack
}
