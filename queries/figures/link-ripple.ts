import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { LINEAR_LIMIT, linkRipple } from '../physics/dc-link.ts'
import { linkRippleVoltage, MODULATIONS, type Modulation, modulationLimit } from '../physics/link-modulation.ts'
import { over, type Phasor, size, times } from '../physics/phasor.ts'
import { solveRails } from '../physics/rail-network.ts'
import { apply } from './apply.ts'
import { BRIDGE_CONDITIONS, bridgePoint, threePhase } from './bridge.ts'
import { linkBank, railsOf } from './dc-link.ts'
import { type Bounds, defineFigure, SPECIMEN } from './figure.ts'
import { operating } from './paths.ts'

/** Half bridges on the same rails that are not of the output bridge: their ripple is not in the closed form. */
function noteOthers(view: View, loops: readonly Path[]): void {
  const rails = view.find({ ask: 'loop-rails', loop: loops[0]! }).paths.join()
  const others = view
    .find({ ask: 'loops' })
    .paths.filter((loop) => !loops.includes(loop) && view.find({ ask: 'loop-rails', loop }).paths.join() === rails)
  if (others.length > 0) view.note(`ripple of ${others.join(', ')} on the same rails is not in it`)
}

const rippleCurrent = defineFigure({
  id: 'LINK_RIPPLE_CURRENT',
  title: 'DC-link ripple current',
  definition:
    'RMS current of all link capacitors together at the operating point, from phase current, modulation index and power factor; the share that the battery cable carries and the ripple of the phase current left out.',
  unit: 'A',
  subject: 'specimen',
  honours: ['power'],
  operating: BRIDGE_CONDITIONS,
  caution: 'energy',
  method: linkRipple.title,
  sources: linkRipple.sources,
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [{ loops }, point] = view.all(
      () => view.model(threePhase, specimen),
      () => view.model(bridgePoint, specimen),
    )
    noteOthers(view, loops)
    return apply(view, linkRipple, { ...point }).rippleCurrent
  },
})

const isModulation = (word: string): word is Modulation => (MODULATIONS as readonly string[]).includes(word)

const rippleVoltage = defineFigure({
  id: 'LINK_RIPPLE_VOLTAGE',
  title: 'DC-link ripple voltage',
  definition:
    'Largest peak-to-peak ripple of the link voltage from switching at the operating point, ideal capacitors. It depends on the zero sequence of the modulation: where none is on record, bounds over all of them.',
  unit: 'V',
  subject: 'specimen',
  honours: ['power', 'counts'],
  operating: [...BRIDGE_CONDITIONS, 'switchingFrequency'],
  uses: ['LINK_CAPACITANCE'],
  costly: true,
  caution: 'energy',
  method: 'charge balance of the switching states within one carrier period',
  sources: ['charge balance of a piecewise-constant current (textbook)'],
  subjects: () => SPECIMEN,
  compute(view, specimen): number | Bounds {
    const [{ loops }, point, capacitance, { switchingFrequency }] = view.all(
      () => view.model(threePhase, specimen),
      () => view.model(bridgePoint, specimen),
      () => view.figure('LINK_CAPACITANCE', specimen),
      () => view.need({ switchingFrequency: operating(view, 'switching-frequency') }),
    )
    noteOthers(view, loops)
    const word = view.mayWord(operating(view, 'modulation'))
    const limit = word !== undefined && isModulation(word) ? modulationLimit(word) : LINEAR_LIMIT
    if (point.modulationIndex > limit)
      view.beyond(
        `modulation index ${point.modulationIndex} lies above ${limit.toFixed(4)}, where the linear range ends`,
      )
    const modulationIndex = Math.min(point.modulationIndex, limit)
    const by = (modulation: Modulation): number =>
      linkRippleVoltage({ ...point, modulationIndex, modulation, capacitance, switchingFrequency })
    if (word !== undefined && isModulation(word)) return by(word)
    view.note(
      'zero sequence of the modulation not on record: low by space-vector, high by discontinuous modulation; record modulation: at the operating point',
    )
    return { low: by('space-vector'), high: by('discontinuous') }
  },
})

/** RMS current of each link capacitor over that of all of them together, by piece. */
const capacitorShares: Model<ReadonlyMap<Path, number>> = {
  id: 'link capacitor shares',
  compute(view, specimen) {
    const [bank, [plus, minus], { switchingFrequency }] = view.all(
      () => view.model(linkBank, specimen),
      () => railsOf(view),
      () => view.need({ switchingFrequency: operating(view, 'switching-frequency') }),
    )
    const bare: Path[] = []
    const omega = 2 * Math.PI * 2 * switchingFrequency
    const branches = bank.map(({ piece, from, to, capacitance }) => {
      const resistance = view.may(asPath(`${piece}/resistance`))
      const inductance = view.may(asPath(`${piece}/inductance`))
      if (resistance === undefined || inductance === undefined) bare.push(piece)
      const impedance: Phasor = [resistance ?? 0, omega * (inductance ?? 0) - 1 / (omega * capacitance)]
      return { from, to, admittance: over([1, 0], impedance) }
    })
    if (bare.length > 0)
      view.note(`series resistance or inductance not on record, taken as none: ${[...new Set(bare)].join(', ')}`)
    const { admittance, branchVoltages } = solveRails(branches, plus, minus)
    return new Map(
      bank.map(({ piece }, at) => [
        piece,
        size(times(branches[at]!.admittance, branchVoltages[at]!)) / size(admittance),
      ]),
    )
  },
}

const capacitorRipple = defineFigure({
  id: 'CAPACITOR_RIPPLE_CURRENT',
  title: 'Ripple current of one link capacitor',
  definition:
    'Its share of the DC-link ripple current, by its impedance at twice the switching frequency, where most of that current lies; impedance of the bars between the cans left out.',
  unit: 'A',
  subject: 'component',
  honours: ['power', 'counts'],
  operating: [...BRIDGE_CONDITIONS, 'switchingFrequency'],
  uses: ['LINK_RIPPLE_CURRENT'],
  caution: 'energy',
  method: 'LINK_RIPPLE_CURRENT × share of current in the network of link capacitors',
  sources: [
    'parallel and series impedances (Kirchhoff’s laws for phasors)',
    'twice the switching frequency: common practice',
  ],
  subjects: (view) => view.find({ ask: 'link-capacitors' }),
  compute(view, piece) {
    view.setting('counts')
    const specimen = SPECIMEN.paths[0]!
    const [current, shares] = view.all(
      () => view.figure('LINK_RIPPLE_CURRENT', specimen),
      () => view.model(capacitorShares, specimen),
    )
    const share = shares.get(piece) ?? 0
    if (share === 0) view.fail(`${piece} stands on no path from rail to rail`, 'not-applicable', piece)
    const rated = view.may(asPath(`${piece}/ripple-current`))
    if (rated !== undefined) view.note(`its rating is ${Number(rated.toPrecision(3))} A rms`)
    return current * share
  },
})

export const linkRippleFigures = [rippleCurrent, rippleVoltage, capacitorRipple] as const
