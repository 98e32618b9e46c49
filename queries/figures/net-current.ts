import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { railsOf } from './dc-link.ts'
import { SPECIMEN } from './figure.ts'
import { operating } from './paths.ts'
import { ratedPower } from './power.ts'
import { operatingVoltage } from './voltage.ts'

const specimen = SPECIMEN.paths[0]!

/** Load current of a net at the operating point [A]: rms of a phase, direct current of a rail. */
export const netCurrent: Model<number> = {
  id: 'current of the net',
  compute(view, net) {
    const phases = view
      .find({ ask: 'bridge-loops' })
      .paths.flatMap((loop) => view.find({ ask: 'loop-output', loop }).paths)
    if (phases.includes(net)) {
      view.note(`rms current of the phase, at ${view.setting('power').toLowerCase()} power`)
      return view.need({ current: operating(view, 'phase-current') }).current
    }
    const port = view.find({ ask: 'ports-on', net }).paths[0]
    if (port !== undefined && !isRail(view, net)) return portCurrent(view, port)
    if (isRail(view, net)) return railCurrent(view)
    return view.fail(
      `the current of ${net} is not on record: it is neither a rail, nor a phase of the output bridge, nor a net of a port`,
      'refused',
      net,
    )
  },
}

function isRail(view: View, net: Path): boolean {
  return railsOf(view).includes(net)
}

function railCurrent(view: View): number {
  return view.first([
    { name: 'stated', read: () => view.need({ current: operating(view, 'dc-current') }).current },
    {
      name: 'power over voltage',
      read: () => {
        const [power, voltage] = view.all(
          () => view.model(ratedPower, specimen),
          () => view.model(operatingVoltage, specimen),
        )
        view.note(`direct current: ${view.setting('power').toLowerCase()} power over DC voltage, losses left out`)
        return power / voltage
      },
    },
  ]).value
}

function portCurrent(view: View, port: Path): number {
  view.note(`current of the port ${port}`)
  return view.first([
    { name: 'stated', read: () => view.need({ current: asPath(`${port}/current`) }).current },
    {
      name: 'power over voltage',
      read: () => {
        const { power, voltage } = view.need({ power: asPath(`${port}/power`), voltage: asPath(`${port}/voltage`) })
        return power / voltage
      },
    },
  ]).value
}
