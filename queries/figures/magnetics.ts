import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Model, View } from '../../graph/view.ts'
import { commonModeCorner, commonModeCornerMethod } from '../physics/core-impedance.ts'
import {
  MU0,
  type RingInputs,
  ringInductance,
  ringInductanceMethod,
  ringPermeabilityMethod,
} from '../physics/ring-core.ts'
import { gappedCoreMethod, ringFlux, ringFluxMethod } from '../physics/ring-flux.ts'
import { apply } from './apply.ts'
import { possibleFamilies } from './core-family.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { below } from './paths.ts'

/** Cores through which both rails pass, and chokes of several windings. */
function commonModeParts(view: View): Found {
  const found = ['one-turn-core', 'common-mode-choke'].map((name) => view.find({ ask: 'parts', class: name }))
  return { ...found[0]!, paths: found.flatMap(({ paths }) => paths) }
}

/** The ring as a magnetic body: its own dimensions, else those over its case, which are larger. */
const ringOf: Model<RingInputs> = {
  id: 'ring',
  compute(view, core) {
    const { way, value } = view.first([
      { name: 'core proper', read: () => dimensions(view, below(core, 'magnetic')) },
      { name: 'over case', read: () => dimensions(view, below(core, 'over-case')) },
      { name: 'its own', read: () => dimensions(view, core) },
    ])
    if (way === 'over case')
      view.note('over the case or coating: the core proper is smaller, so inductance comes out high')
    return value
  },
}

function dimensions(view: View, at: Path): RingInputs {
  const ring = view.need({
    outerDiameter: below(at, 'outer-diameter'),
    innerDiameter: below(at, 'inner-diameter'),
    height: below(at, 'height'),
  })
  const stackingFactor = view.may(below(at, 'stacking-factor'))
  // No draw of a doubtful share makes more metal than there is room for.
  return stackingFactor === undefined ? ring : { ...ring, stackingFactor: Math.min(stackingFactor, 1) }
}

const turnsOf = (view: View, core: Path): number => view.may(below(core, 'turns')) ?? 1

/** Inductance of one core with its winding or bar: as recorded, by its factor, or from permeability and dimensions. */
const inductanceOf: Model<number> = {
  id: 'core inductance',
  compute(view, core) {
    const turns = turnsOf(view, core)
    const { way, value } = view.first([
      { name: 'recorded', read: () => view.need({ inductance: below(core, 'inductance') }).inductance },
      {
        name: 'by factor',
        read: () => view.need({ factor: below(core, 'inductance-factor') }).factor * turns ** 2,
      },
      {
        name: 'computed',
        read: () => {
          const [ring, { permeability }] = view.all(
            () => view.model(ringOf, core),
            () => view.need({ permeability: below(core, 'permeability') }),
          )
          return ringInductance({ ...ring, permeability, turns })
        },
      },
    ])
    if (way === 'recorded') noteFrequency(view, core)
    return value
  },
}

function noteFrequency(view: View, core: Path): void {
  const frequency = view.may(below(core, 'inductance/at/frequency'))
  view.note(
    frequency === undefined
      ? 'inductance as recorded, frequency not said'
      : `inductance as recorded at ${kilohertz(frequency)}; it falls with frequency`,
  )
}

const kilohertz = (frequency: number): string => `${Number((frequency / 1e3).toPrecision(3))} kHz`

/** Relative permeability: recorded, else from the recorded inductance. */
const permeabilityOf: Model<number> = {
  id: 'core permeability',
  compute: (view, core) =>
    view.first([
      { name: 'recorded', read: () => view.need({ permeability: below(core, 'permeability') }).permeability },
      {
        name: 'from inductance',
        read: () => {
          const [ring, measuredInductance] = view.all(
            () => view.model(ringOf, core),
            () => view.model(inductanceOf, core),
          )
          view.note('inductance of the measuring leads taken as none: one turn reads a little high')
          return apply(view, ringPermeabilityMethod, { ...ring, measuredInductance, turns: turnsOf(view, core) })
            .permeability
        },
      },
    ]).value,
}

const inductance = defineFigure({
  id: 'CM_INDUCTANCE',
  title: 'Common-mode inductance',
  definition:
    'Inductance of one core with the bar or winding through it: as recorded, else from permeability and effective dimensions of the core proper.',
  unit: 'µH',
  subject: 'component',
  honours: [],
  method: 'recorded, else µ₀ µ_r N² ÷ C₁',
  sources: ringInductanceMethod.sources,
  subjects: commonModeParts,
  compute: (view, core) => view.model(inductanceOf, core),
})

const permeability = defineFigure({
  id: 'CORE_PERMEABILITY',
  title: 'Relative permeability of a core',
  definition: 'As recorded, else from the recorded inductance and the effective dimensions of the core proper.',
  unit: '1',
  subject: 'component',
  honours: [],
  method: 'recorded, else L C₁ ÷ µ₀ N²',
  sources: ringPermeabilityMethod.sources,
  subjects: commonModeParts,
  compute(view, core) {
    const relative = view.model(permeabilityOf, core)
    const possible = possibleFamilies(view, core, relative)
    if (possible) view.note(`families that the facts leave possible: ${possible.join(', ') || 'none, check the facts'}`)
    return relative
  },
})

const saturation = defineFigure({
  id: 'CM_SATURATION_CURRENT',
  title: 'Common-mode saturation current',
  definition:
    'Net current through the hole (sum of both rails, peak) at which the effective path reaches the recorded saturation flux density, permeability taken as constant up to there. The inner rim saturates earlier, the outer later.',
  unit: 'A',
  subject: 'component',
  honours: [],
  caution: 'voltage',
  method: 'recorded, else B_s l_e ÷ µ₀ µ_r N',
  sources: ringFluxMethod.sources,
  subjects: commonModeParts,
  compute: (view, core) =>
    view.first([
      { name: 'recorded', read: () => view.need({ current: below(core, 'saturation-current') }).current },
      { name: 'computed', read: () => computedSaturation(view, core) },
    ]).value,
})

function computedSaturation(view: View, core: Path): number {
  const [ring, relative, { saturationFluxDensity }] = view.all(
    () => view.model(ringOf, core),
    () => view.model(permeabilityOf, core),
    () => view.need({ saturationFluxDensity: below(core, 'saturation-flux-density') }),
  )
  const flux = ringFlux({
    ...ring,
    permeability: relative,
    saturationFluxDensity,
    current: 0,
    turns: turnsOf(view, core),
  })
  const short = (current: number): string => `${Number(current.toPrecision(3))} A`
  view.note(`inner rim at ${short(flux.onsetCurrent)}, whole section at ${short(flux.fullCurrent)}`)
  return flux.saturationCurrent
}

const corner = defineFigure({
  id: 'CM_CORNER_FREQUENCY',
  title: 'Common-mode corner frequency',
  definition:
    'Frequency above which the core and the capacitance to the chassis divide common-mode voltage: 1/(2π√(L C)), L of all pieces of the core in series, C of all Y capacitors in parallel.',
  unit: 'Hz',
  subject: 'component',
  honours: ['counts'],
  uses: ['Y_CAPACITANCE'],
  method: commonModeCornerMethod.title,
  sources: commonModeCornerMethod.sources,
  subjects: commonModeParts,
  compute(view, core) {
    const [each, capacitance] = view.all(
      () => view.model(inductanceOf, core),
      () => view.figure('Y_CAPACITANCE', SPECIMEN.paths[0]!),
    )
    const pieces = view.find({ ask: 'pieces', of: core }).paths.length
    if (pieces > 1) view.note(`${pieces} cores in series`)
    const frequency = commonModeCorner({ inductance: each * pieces, capacitance: [capacitance] })
    const measuredAt = view.may(below(core, 'inductance/at/frequency'))
    if (measuredAt !== undefined && frequency > 2 * measuredAt)
      view.note(
        `the inductance holds at ${kilohertz(measuredAt)}; near ${kilohertz(frequency)} it is lower and the corner higher: measure it there`,
      )
    return frequency
  },
})

const sensorFlux = defineFigure({
  id: 'SENSOR_CORE_FLUX',
  title: 'Flux density of a sensor core at full scale',
  definition:
    'Flux density in core and gap of a current sensor when its conductor carries the largest current that the sensor follows (peak). Without length and permeability of the core, from the gap alone: the highest it can be.',
  unit: 'mT',
  subject: 'component',
  honours: [],
  method: gappedCoreMethod.title,
  sources: gappedCoreMethod.sources,
  subjects: (view) => view.find({ ask: 'parts', class: 'sensor-core' }),
  compute(view, core) {
    const [{ gap, area }, current] = view.all(
      () => view.need({ gap: below(core, 'gap'), area: below(core, 'section') }),
      () => fullScale(view),
    )
    const pathLength = view.may(below(core, 'effective-length'))
    const relative = view.may(below(core, 'permeability'))
    if (pathLength !== undefined && relative !== undefined)
      return apply(view, gappedCoreMethod, { area, gap, pathLength, permeability: relative, current }).fluxDensity
    view.note('from the gap alone: length and permeability of the core not on record, so the highest it can be')
    return (MU0 * current) / gap
  },
})

/** Largest current of the current sensors, as a peak; recorded currents are kept as rms. */
function fullScale(view: View): number {
  const sensors = view.some({ ask: 'parts', class: 'current-sensor' }).paths
  const ranges = view.each(sensors, (sensor) => view.need({ range: below(sensor, 'range') }).range)
  if (new Set(ranges).size > 1)
    view.fail('current sensors of several ranges: which of them the core belongs to is not on record')
  return Math.SQRT2 * ranges[0]!
}

export const magneticFigures = [inductance, permeability, saturation, corner, sensorFlux] as const
