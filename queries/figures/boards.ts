import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { coupledMicrostripMethod } from '../physics/coupled-traces.ts'
import { type MicrostripInputs, microstrip, microstripMethod, microstripQuick } from '../physics/microstrip.ts'
import { meshedPlane, meshedPlaneMethod } from '../physics/open-reference.ts'
import { striplineMethod } from '../physics/stripline.ts'
import { apply } from './apply.ts'
import { type Bounds, defineFigure } from './figure.ts'
import { below } from './paths.ts'
import { type Mesh, meshOf, type TraceSection, traceSection } from './trace-section.ts'

/** Inputs as they were at the values written: the field is solved there, and scaled under every draw. */
const anchored = <T>(view: View, what: string, trace: Path, inputs: T): T =>
  view.choice(`${what} of ${trace}`, () => inputs)

/**
 * Impedance over a solid plane: the field solution at the values written, moved with every doubt as the closed form
 * moves. Solved anew for every draw it would take minutes.
 */
function overSolid(view: View, trace: Path, inputs: MicrostripInputs): number {
  const anchor = anchored(view, 'microstrip', trace, inputs)
  const factor = view.choice(
    `field ${JSON.stringify(anchor)}`,
    () => microstrip(anchor).impedance / microstripQuick(anchor).impedance,
  )
  const aspect = inputs.traceWidth / inputs.heightAbovePlane
  const [low, high] = microstripMethod.valid!.aspect!
  if (aspect < low || aspect > high)
    view.beyond(`trace width over height ${aspect.toPrecision(3)} lies outside ${low} … ${high}`)
  return microstripQuick(inputs).impedance * factor
}

/** Step of the finite difference by which the upper bound follows pitch and line of the mesh. */
const STEP = 0.05

/** Bounds over a mesh; the upper one follows pitch and line width by its own slopes at the values written. */
function overMesh(view: View, trace: Path, inputs: MicrostripInputs, mesh: Mesh): Bounds {
  const low = overSolid(view, trace, inputs)
  const anchor = anchored(view, 'mesh', trace, { ...inputs, ...mesh })
  const open = view.choice(`mesh ${JSON.stringify(anchor)}`, () => {
    const at = (changed: Partial<Mesh>): number => {
      const { high, low: solid } = meshedPlane({ ...anchor, ...changed })
      return high / solid
    }
    const ratio = at({})
    const slope = (name: 'pitch' | 'lineWidth', step: number): number =>
      Math.log(at({ [name]: anchor[name] * (1 + step) }) / ratio) / Math.log(1 + step)
    return { ratio, pitch: slope('pitch', STEP), lineWidth: slope('lineWidth', -STEP) }
  })
  const moved = (name: 'pitch' | 'lineWidth'): number => (mesh[name] / anchor[name]) ** open[name]
  return { low, high: Math.max(low, low * open.ratio * moved('pitch') * moved('lineWidth')) }
}

function impedanceOf(view: View, trace: Path, section: TraceSection): number | Bounds {
  if (section.kind === 'stripline') {
    const { kind: _, ...inputs } = section
    return apply(view, striplineMethod, inputs).impedance
  }
  const { kind: _, reference, ...inputs } = section
  const mesh = meshOf(view, reference)
  if (mesh === undefined) return overSolid(view, trace, inputs)
  view.note(
    'over a mesh only bounds can be given: below the solid plane, above lines along the trace only with the trace over the middle of an opening',
  )
  return overMesh(view, trace, inputs, mesh)
}

const traceImpedance = defineFigure({
  id: 'TRACE_IMPEDANCE',
  title: 'Impedance of a trace',
  definition:
    'Characteristic impedance of a trace against its reference planes, quasi-static, no solder mask: a value over solid planes, two bounds over a meshed one.',
  unit: 'Ω',
  subject: 'trace',
  honours: [],
  costly: true,
  method: `${microstripMethod.title}; ${meshedPlaneMethod.title}; ${striplineMethod.title}`,
  sources: [...new Set([...microstripMethod.sources, ...meshedPlaneMethod.sources, ...striplineMethod.sources])],
  subjects: (view) => view.find({ ask: 'traces' }),
  compute: (view, trace) => impedanceOf(view, trace, view.model(traceSection, trace)),
})

const solidImpedance = defineFigure({
  id: 'TRACE_IMPEDANCE_SOLID',
  title: 'Impedance of a trace if its plane were solid',
  definition: 'What the impedance of a trace over a meshed plane would be over a solid one: what the mesh buys.',
  unit: 'Ω',
  subject: 'trace',
  honours: [],
  method: microstripMethod.title,
  sources: microstripMethod.sources,
  subjects(view) {
    const found = view.find({ ask: 'traces' })
    const meshed = (trace: Path): boolean =>
      view.find({ ask: 'trace-references', trace }).paths.some((layer) => meshOf(view, layer) !== undefined)
    return { ...found, paths: found.paths.filter(meshed) }
  },
  compute(view, trace) {
    const section = view.model(traceSection, trace)
    if (section.kind === 'stripline') return apply(view, striplineMethod, { ...section }).impedance
    const { kind: _, reference: __, ...inputs } = section
    return overSolid(view, trace, inputs)
  },
})

const pairImpedance = defineFigure({
  id: 'PAIR_IMPEDANCE',
  title: 'Differential impedance of a pair of traces',
  definition: 'Twice the odd-mode impedance of two equal traces side by side over a solid plane.',
  unit: 'Ω',
  subject: 'trace',
  honours: [],
  costly: true,
  method: coupledMicrostripMethod.title,
  sources: coupledMicrostripMethod.sources,
  subjects(view) {
    const found = view.find({ ask: 'traces' })
    return { ...found, paths: found.paths.filter((trace) => view.find({ ask: 'trace-pair', trace }).paths.length > 0) }
  },
  compute(view, trace) {
    const [section, { traceGap }] = view.all(
      () => view.model(traceSection, trace),
      () => view.need({ traceGap: below(trace, 'spacing') }),
    )
    if (section.kind === 'stripline') return view.fail('pairs between two planes: use the calculator coupled-stripline')
    if (meshOf(view, section.reference) !== undefined)
      return view.fail('no sound method for a pair over a meshed plane')
    const { kind: _, reference: __, ...inputs } = section
    return apply(view, coupledMicrostripMethod, { ...inputs, traceGap }).differential
  },
})

export const boardFigures = [traceImpedance, solidImpedance, pairImpedance] as const
