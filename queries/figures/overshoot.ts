import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { linkVoltage, railsOf } from './dc-link.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { below } from './paths.ts'

const SOURCES = ['U = L di/dt', 'common practice'] as const

/** Pieces of a half bridge that turn off together, for each of its two sides. */
function sides(view: View, loop: Path): readonly (readonly Path[])[] {
  const pieces = view.some({ ask: 'loop-bridge', loop }).paths
  if (pieces.length === 1) return [pieces]
  const plus = view.some({ ask: 'loop-rails', loop }).paths[0]!
  const upper = pieces.filter((piece) => view.find({ ask: 'terminal-on', piece, net: plus }).paths.length > 0)
  return [upper, pieces.filter((piece) => !upper.includes(piece))]
}

/** Steepest fall of current at turn-off of a half bridge [A/s]: devices in parallel add up. */
const currentSlope: Model<number> = {
  id: 'current slope',
  compute(view, loop) {
    const slopes = view.each(sides(view, loop), (side) =>
      view
        .each(side, (piece) => view.need({ slope: below(piece, 'current-slope') }).slope)
        .reduce((sum, slope) => sum + slope, 0),
    )
    sayCurrent(view, loop)
    return Math.max(...slopes)
  },
}

/** At which current the slope was recorded, and whether the phase of this loop turns off more. */
function sayCurrent(view: View, loop: Path): void {
  const piece = view.find({ ask: 'loop-bridge', loop }).paths[0]!
  const recorded = view.may(below(piece, 'current-slope/at/current'))
  if (recorded === undefined) {
    view.note('the current at which the slope was recorded is not on record')
    return
  }
  view.note(`slope as recorded at ${peakOf(recorded)} A peak; a short circuit is steeper`)
  if (!view.find({ ask: 'bridge-loops' }).paths.includes(loop)) return
  const points = ['peak', 'continuous'].map((point) => view.may(asPath(`operating-points/${point}/phase-current`)) ?? 0)
  const [phase, beside] = [Math.max(...points), parallelPieces(view, loop)]
  if (phase > recorded * beside * ALIKE)
    view.note(
      `a lower bound: the phase turns off up to ${peakOf(phase / beside)} A peak a device, ripple left out, and turns it off more steeply`,
    )
}

/** Pieces that share the current of one side; two that are one each do not. */
const parallelPieces = (view: View, loop: Path): number => Math.min(...sides(view, loop).map((side) => side.length))
/** Currents that differ by no more are one: recorded to the nearest few per cent. */
const ALIKE = 1.03
/** Currents are kept as rms values of a sine. */
const peakOf = (rms: number): string => (rms * Math.SQRT2).toFixed(0)

/** Lowest blocking voltage among the pieces of a half bridge [V]. */
const blockingVoltage: Model<number> = {
  id: 'blocking voltage',
  compute(view, loop) {
    const pieces = view.some({ ask: 'loop-bridge', loop }).paths
    return Math.min(...view.each(pieces, (piece) => view.need({ voltage: below(piece, 'blocking-voltage') }).voltage))
  },
}

const overshoot = defineFigure({
  id: 'TURN_OFF_OVERSHOOT',
  title: 'Turn-off overshoot',
  definition:
    'Whole loop inductance, the half bridge’s own included, times the recorded slope of the current at turn-off: what adds to the link voltage over the switch. What a probe on the module terminals sees of it is said with the result.',
  unit: 'V',
  subject: 'loop',
  honours: [],
  uses: ['LOOP_INDUCTANCE'],
  caution: 'voltage',
  method: 'LOOP_INDUCTANCE × current slope',
  sources: SOURCES,
  subjects: (view) => view.find({ ask: 'loops' }),
  compute(view, loop) {
    const [inductance, slope] = view.all(
      () => view.figure('LOOP_INDUCTANCE', loop),
      () => view.model(currentSlope, loop),
    )
    const pieces = view.find({ ask: 'loop-bridge', loop }).paths
    const inside = pieces.length === 1 ? view.may(below(pieces[0]!, 'inductance')) : undefined
    if (inside !== undefined) view.note(`at the module terminals ${((inductance - inside) * slope).toFixed(0)} V of it`)
    return inductance * slope
  },
})

const margin = defineFigure({
  id: 'OVERSHOOT_MARGIN',
  title: 'Margin to the blocking voltage at turn-off',
  definition:
    'Blocking voltage of the half bridge less the link voltage of the setting and the turn-off overshoot. Below zero the switch is driven over its rating.',
  unit: 'V',
  subject: 'loop',
  honours: ['voltage'],
  uses: ['TURN_OFF_OVERSHOOT'],
  caution: 'voltage',
  method: 'blocking voltage − link voltage − TURN_OFF_OVERSHOOT',
  sources: SOURCES,
  subjects: (view) => view.find({ ask: 'loops' }),
  compute(view, loop) {
    const [blocking, link, over] = view.all(
      () => view.model(blockingVoltage, loop),
      () => loopVoltage(view, loop),
      () => view.figure('TURN_OFF_OVERSHOOT', loop),
    )
    return blocking - link - over
  },
})

/** The link voltage where the loop lies on the rails; other rails have none on record. */
function loopVoltage(view: View, loop: Path): number {
  const own = view.some({ ask: 'loop-rails', loop }).paths
  if (own.join() === railsOf(view).join()) return view.model(linkVoltage, SPECIMEN.paths[0]!)
  const stated = view.find({ ask: 'voltage-between', nets: [own[0]!, own[1]!] }).paths[0]
  return stated === undefined
    ? view.fail(`the voltage between ${own.join(' and ')} is not on record: state it under voltages`, 'refused', loop)
    : view.need({ voltage: asPath(`${stated}/working`) }).voltage
}

export const overshootFigures = [overshoot, margin] as const
