import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { gateDriveMethod } from '../physics/gate-drive.ts'
import { apply } from './apply.ts'
import { defineFigure } from './figure.ts'
import { below, operating } from './paths.ts'
import { diesOf } from './switches.ts'

/** Charge of one gate over one swing of its voltage. */
interface Gate {
  readonly charge: number
  readonly swing: number
}

/** Gates on the net that a driver drives: of a module by the name of its terminal, or of discrete devices. */
function gatesOf(view: View, driver: Path): readonly Gate[] {
  const nets = ['out', 'out-off'].flatMap((terminal) => view.find({ ask: 'net-of', piece: driver, terminal }).paths)
  if (nets.length === 0)
    return view.fail(`trace the output of ${driver}: the gate net it drives is not on record`, 'refused', driver)
  const gates = [...new Set(nets)].flatMap((net) => gatesOn(view, net))
  if (gates.length === 0)
    view.fail(
      `no gate is on record on ${nets.join(', ')}: trace the net from ${driver} to the switch`,
      'refused',
      driver,
    )
  return view.each(gates, (read) => read()).flat()
}

function gatesOn(view: View, net: Path): readonly (() => readonly Gate[])[] {
  return view.find({ ask: 'on-net', net }).paths.flatMap((piece) =>
    view.find({ ask: 'terminal-on', piece, net }).paths.flatMap((terminal) => {
      const name = terminal.slice(terminal.lastIndexOf('/') + 1)
      if (name === 'gate') return [() => gatesAt(view, piece)]
      const side = /^gate-(high|low)$/.exec(name)?.[1]
      return side === undefined ? [] : [() => gatesAt(view, positionOf(view, piece, side))]
    }),
  )
}

/** The switch position inside a module on one side. */
function positionOf(view: View, module: Path, side: string): Path {
  const inside = view.find({ ask: 'inside', part: module }).paths
  return inside.find((piece) => piece.endsWith(`.${side}`) || piece.endsWith(`-${side}`)) ?? module
}

/** The charge stated for a device or switch as a whole, else that of each of its transistor dies. */
function gatesAt(view: View, piece: Path): readonly Gate[] {
  return view.first([
    { name: 'of the whole', read: () => [gateAt(view, piece)] },
    {
      name: 'of its dies',
      read: () => {
        const { transistors } = diesOf(view, [piece])
        if (transistors.length === 0) view.need({ charge: below(piece, 'gate-charge') })
        const whole = view.find({ ask: 'values-for', part: transistors[0]! }).paths[0] === 'switch'
        return view.each(whole ? transistors.slice(0, 1) : transistors, (die) => gateAt(view, die))
      },
    },
  ]).value
}

function gateAt(view: View, piece: Path): Gate {
  return view.need({ charge: below(piece, 'gate-charge'), swing: asPath(`${piece}/gate-charge/at/swing`) })
}

const gateDrivePower = defineFigure({
  id: 'GATE_DRIVE_POWER',
  title: 'Gate-drive power of one driver',
  definition:
    'Gate charge of all dies on the net that the driver drives, times the swing for which that charge is stated, times the switching frequency; quiescent power of the driver left out.',
  unit: 'W',
  subject: 'component',
  honours: ['power'],
  operating: ['switchingFrequency'],
  caution: 'voltage',
  method: 'Σ Q ΔU f over the gates on its output net',
  sources: gateDriveMethod.sources,
  subjects(view) {
    const found = view.find({ ask: 'parts', class: 'isolated-gate-driver' })
    return { ...found, paths: found.paths.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths) }
  },
  compute(view, driver) {
    const [gates, { switchingFrequency }] = view.all(
      () => gatesOf(view, driver),
      () => view.need({ switchingFrequency: operating(view, 'switching-frequency') }),
    )
    return gates.reduce(
      (sum, { charge, swing }) =>
        sum +
        apply(view, gateDriveMethod, { gateCharge: charge, voltageHigh: swing, voltageLow: 0, switchingFrequency })
          .power,
      0,
    )
  },
})

export const gateDriveFigures = [gateDrivePower] as const
