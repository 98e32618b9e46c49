import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { plus, type Vector } from '../../physics/bar.ts'
import { place } from '../paths.ts'

/** A place at which current enters the metal of a net. Its point is read when it is needed, and only then. */
export interface Tap {
  readonly id: string
  readonly net: Path
  readonly point: () => Vector
  /** The metal it must be on, when a joint names it. */
  readonly part?: Path
}

/** Where a terminal of a piece is: the place of the piece, and the offset of the terminal where it is recorded. */
export function terminalTap(view: View, piece: Path, net: Path): Tap {
  const terminal = view.some({ ask: 'terminal-on', piece, net }).paths[0]!
  const point = (): Vector => {
    const { x, y, z } = view.need(place(asPath(`${piece}/at`)))
    const offset = offsetOf(view, asPath(`${terminal}/at`))
    if (!offset) view.note(`${terminal} has no place of its own: current is taken to enter at the place of the piece`)
    return plus([x, y, z], turned(offset ?? [0, 0, 0], view.may(asPath(`${piece}/turn`)) ?? 0))
  }
  return { id: terminal, net, point }
}

function offsetOf(view: View, path: Path): Vector | undefined {
  const { x, y, z } = place(path)
  const [a, b, c] = [view.may(x), view.may(y), view.may(z)]
  return a === undefined || b === undefined || c === undefined ? undefined : [a, b, c]
}

/** Turned about the z axis. */
function turned([x, y, z]: Vector, angle: number): Vector {
  if (angle === 0) return [x, y, z]
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return [c * x - s * y, s * x + c * y, z]
}

/** The two ends of a joint: one tap on each of its metals. */
export function jointTaps(view: View, joint: Path, net: Path): readonly Tap[] {
  const point = (): Vector => {
    const { x, y, z } = view.need(place(asPath(`${joint}/at`)))
    return [x, y, z]
  }
  return view.find({ ask: 'joined-by', joint }).paths.map((part) => ({ id: `${joint} ${part}`, net, point, part }))
}
