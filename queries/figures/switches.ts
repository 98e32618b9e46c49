import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { threePhase } from './bridge.ts'

/** One switch of a half bridge: dies in parallel, or discrete devices in parallel. */
export interface Switch {
  readonly loop: Path
  readonly side: 'high' | 'low'
  /** What is one switch on record: a switch position, or each of several devices. */
  readonly holders: readonly Path[]
  readonly transistors: readonly Path[]
  readonly diodes: readonly Path[]
}

/** Diodes and transistors are told apart by the recorded kind. */
export const isDiode = (kind: string): boolean => /diode/i.test(kind)

/** Dies inside of pieces, by what they are. */
export function diesOf(view: View, holders: readonly Path[]): Pick<Switch, 'transistors' | 'diodes'> {
  const dies = holders.flatMap((piece) => view.find({ ask: 'dies-within', piece }).paths)
  const kinds = view.each(dies, (die) => view.word(asPath(`${die}/kind`)))
  return {
    transistors: dies.filter((_, at) => !isDiode(kinds[at]!)),
    diodes: dies.filter((_, at) => isDiode(kinds[at]!)),
  }
}

/** The upper and the lower switch of a half bridge. */
export function switchesOf(view: View, loop: Path): readonly Switch[] {
  const pieces = view.some({ ask: 'loop-bridge', loop }).paths
  if (pieces.length > 1) return ofDevices(view, loop, pieces)
  const positions = view.find({ ask: 'inside', part: pieces[0]! }).paths.filter((piece) => isPosition(view, piece))
  if (positions.length === 0)
    return view.fail(`${pieces[0]} has no switch positions on record: add them, high and low, with their dies`)
  return view.each(positions, (position) => ({
    loop,
    side: sideOf(position),
    holders: [position],
    ...diesOf(view, [position]),
  }))
}

function isPosition(view: View, piece: Path): boolean {
  const entries: readonly Path[] = view.find({ ask: 'parts', class: 'switch-position' }).paths
  return entries.includes(asPath(piece.replace(/\.[^/]*/g, '')))
}

/** By the name of the piece: `switch.low`, `switch.u-low`; whatever is not low is high. */
const sideOf = (piece: Path): Switch['side'] => (/(^|[-.])(low|lower|bottom)$/.test(piece) ? 'low' : 'high')

function ofDevices(view: View, loop: Path, pieces: readonly Path[]): readonly Switch[] {
  const plus = view.some({ ask: 'loop-rails', loop }).paths[0]!
  const upper = pieces.filter((piece) => view.find({ ask: 'terminal-on', piece, net: plus }).paths.length > 0)
  const lower = pieces.filter((piece) => !upper.includes(piece))
  return (['high', 'low'] as const).map((side) => {
    const holders = side === 'high' ? upper : lower
    return { loop, side, holders, ...diesOf(view, holders) }
  })
}

/** Every switch of the three-phase bridge. */
export const bridgeSwitches: Model<readonly Switch[]> = {
  id: 'switches of the bridge',
  compute(view, specimen) {
    const { loops } = view.model(threePhase, specimen)
    return view.each(loops, (loop) => switchesOf(view, loop)).flat()
  },
}
