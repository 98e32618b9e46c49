import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import type { MicrostripInputs } from '../physics/microstrip.ts'
import type { StriplineInputs } from '../physics/stripline.ts'
import { below } from './paths.ts'

/** Section of a trace with what is beside it, by its layer, its planes and the films between. */
export type TraceSection =
  | ({ readonly kind: 'microstrip'; readonly reference: Path } & MicrostripInputs)
  | ({ readonly kind: 'stripline' } & StriplineInputs)

export interface Mesh {
  readonly pitch: number
  readonly lineWidth: number
  readonly angle: number
}

/** The grid that a plane is etched as; undefined when nothing of the kind is on record. */
export function meshOf(view: View, layer: Path): Mesh | undefined {
  const pitch = view.may(below(layer, 'mesh/pitch'))
  const lineWidth = view.may(below(layer, 'mesh/line'))
  if (pitch === undefined && lineWidth === undefined) return undefined
  const both = view.need({ pitch: below(layer, 'mesh/pitch'), lineWidth: below(layer, 'mesh/line') })
  return { ...both, angle: view.may(below(layer, 'mesh/angle')) ?? 0 }
}

/** Films between two layers of a stack: their thickness, and the permittivity of all of them in series. */
function between(view: View, stack: readonly Path[], from: Path, to: Path) {
  const [first, last] = [stack.indexOf(from), stack.indexOf(to)].toSorted((a, b) => a - b) as [number, number]
  const layers = stack.slice(first + 1, last)
  const films = layers.filter((layer) => view.may(below(layer, 'copper')) === undefined)
  if (films.length < layers.length)
    view.fail(`copper lies between ${from} and ${to}: name the plane that is nearest as the reference`, 'refused', from)
  if (films.length === 0) view.fail(`no film lies between ${from} and ${to} in the stack`, 'refused', from)
  const data = view.each(films, (film) =>
    view.need({ thickness: below(film, 'film'), permittivity: below(film, 'permittivity') }),
  )
  const height = data.reduce((sum, { thickness }) => sum + thickness, 0)
  const permittivity = height / data.reduce((sum, one) => sum + one.thickness / one.permittivity, 0)
  if (films.length > 1) view.note(`${films.length} films between trace and plane, their permittivities in series`)
  return { height, permittivity }
}

/** Where a trace lies: between two planes it is a stripline, over one a microstrip. */
export const traceSection: Model<TraceSection> = {
  id: 'trace section',
  compute(view, trace) {
    const part = asPath(trace.split('/traces/')[0]!)
    const [stack, layer, references, { traceWidth }, thickness] = view.all(
      () => view.some({ ask: 'stack', part }).paths,
      () => view.some({ ask: 'trace-on', trace }).paths[0]!,
      () => view.some({ ask: 'trace-references', trace }).paths,
      () => view.need({ traceWidth: below(trace, 'width') }),
      () => copperOf(view, trace),
    )
    const missing = [layer, ...references].filter((one) => !stack.includes(one))
    if (missing.length > 0) view.fail(`${missing.join(', ')} is no layer of the stack of ${part}`, 'refused', trace)
    const at = stack.indexOf(layer)
    const sides = references.map((reference) => ({
      reference,
      above: stack.indexOf(reference) < at,
      ...between(view, stack, layer, reference),
    }))
    const over = sides.find(({ above }) => above)
    const under = sides.find(({ above }) => !above)
    if (over && under) return stripline(traceWidth, thickness, under, over)
    const { reference, above, height, permittivity } = (over ?? under)!
    const outside = above ? stack.slice(at + 1) : stack.slice(0, at)
    if (outside.length > 0) view.note('covered on its outer side: the impedance is some per cent lower than given')
    const stated = view.may(below(trace, 'height'))
    return {
      kind: 'microstrip',
      reference,
      traceWidth,
      heightAbovePlane: stated ?? height,
      permittivity,
      traceThickness: thickness,
    }
  },
}

type Side = { readonly height: number; readonly permittivity: number }

function stripline(traceWidth: number, traceThickness: number, under: Side, over: Side): TraceSection {
  const films = under.height + over.height
  return {
    kind: 'stripline',
    traceWidth,
    traceThickness,
    planeSpacing: films + traceThickness,
    heightAbovePlane: under.height,
    permittivity: films / (under.height / under.permittivity + over.height / over.permittivity),
  }
}

function copperOf(view: View, trace: Path): number {
  const layer = view.find({ ask: 'trace-on', trace }).paths[0]
  return view.first([
    { name: 'of the trace', read: () => view.need({ thickness: below(trace, 'thickness') }).thickness },
    ...(layer === undefined
      ? []
      : [{ name: 'of its layer', read: () => view.need({ copper: below(layer, 'copper') }).copper }]),
  ]).value
}
