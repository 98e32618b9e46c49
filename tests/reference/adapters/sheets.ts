import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Settings } from '../../../graph/settings.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import type { Result } from '../../../queries/evaluate/result.ts'
import { openSession, type Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import type { Adapter, Answers, Case } from '../case.ts'

/** A case entered as a sheet: what a person would type, read by the reader, evaluated like any record. */
export function sessionOf(text: string): Session {
  const read = readSheet(text, 'case.yaml')
  if ('record' in read) return openSession(read.record)
  throw new Error(read.complaints.map(({ line, what, mend }) => `line ${line}: ${what}; ${mend}`).join('\n'))
}

export function figure(session: Session, metric: string, settings: Partial<Settings> = {}): Result {
  return session.over([], settings).evaluate(figureById(metric), asPath('specimen'))
}

const head = (rest: string) => `lidoff: 1
id: case
title: Reference case
specimen: { kind: traction-inverter${rest} }
`

/** Masses on one balance stand for any values that share a cause: sums, differences and ratios are the same arithmetic. */
const shared: Adapter = {
  topics: ['uncertainty/published', 'uncertainty/correlated'],
  answer({ inputs }) {
    if ('V' in inputs && 'I_mA' in inputs && 'phi_rad' in inputs) return impedance(inputs as never)
    if ('each' in inputs && 'n' in inputs) return sumOfEqual(inputs as never)
    if ('a' in inputs && 'b' in inputs && 'r' in inputs) return pair(inputs as never)
    return undefined
  },
}

interface Readings {
  readonly V: readonly number[]
  readonly I_mA: readonly number[]
  readonly phi_rad: readonly number[]
}

/** Voltage, current and phase read at the same moments: one run of readings each, and figures of the case's own. */
function impedance({ V, I_mA, phi_rad }: Readings): Answers {
  const run = (values: readonly number[], unit: string): string =>
    `{ readings: [${values.map((value) => `${value} ${unit}`).join(', ')}], run: together, basis: measured }`
  const text = `${head(`, dc-voltage: { nominal: ${run(V, 'V')} }`)}operating-points:
  peak: { phase-current: ${run(I_mA, 'mA')} }
parts:
  - { id: flex, class: flexible-circuit, stack: [ { id: l1, copper: 18 µm (judged), mesh: { line: 0.1 mm (judged), pitch: 1 mm (judged), angle: ${run(phi_rad, 'rad')} } } ] }
`
  const session = sessionOf(text)
  const paths = {
    V: asPath('specimen/dc-voltage/nominal'),
    I: asPath('operating-points/peak/phase-current'),
    phi: asPath('parts/flex/stack/l1/mesh/angle'),
  }
  const ask = (id: string, of: (x: { V: number; I: number; phi: number }) => number): Result =>
    session.evaluate(
      { ...figureById('LINK_ENERGY'), id, unit: 'Ω', honours: [], compute: (view) => of(view.need(paths)) },
      asPath('specimen'),
    )
  const R = ask('CASE_R', ({ V, I, phi }) => (V / I) * Math.cos(phi))
  const X = ask('CASE_X', ({ V, I, phi }) => (V / I) * Math.sin(phi))
  const Z = ask('CASE_Z', ({ V, I }) => V / I)
  return {
    R: valueAndU(R),
    X: valueAndU(X),
    Z: valueAndU(Z),
    r: { RX: correlation(R, X), RZ: correlation(R, Z), ZX: correlation(Z, X) },
  }
}

const valueAndU = ({ value, u }: Result) => ({ value: value!, u: u! })

/** Covariance of two figures is the dot product of their components (JCGM 100:2008 5.2.2). */
function correlation(a: Result, b: Result): number {
  const dot = Object.entries(a.components).reduce((sum, [cause, c]) => sum + c * (b.components[cause] ?? 0), 0)
  return dot / (a.u! * b.u!)
}

/** n equal values whose whole uncertainty is one shared cause. */
function sumOfEqual({
  n,
  each,
  correlation,
}: {
  n: number
  each: { value: number; u: number }
  correlation: number
}): Answers | undefined {
  if (correlation !== 1) return undefined
  const parts = Array.from(
    { length: n },
    (_, at) => `  - { id: part-${at}, class: bracket, mass: ${each.value} g (measured; with scale) }`,
  )
  const text = `${head('')}instruments:\n  scale: { kind: balance, serial: "1", uncertainty: "± ${each.u} g (k=1)" }\nparts:\n${parts.join('\n')}\n`
  const { value, u } = figure(sessionOf(text), 'PARTS_MASS')
  return { value: value! * 1000, u: u! * 1000 }
}

interface Normal {
  readonly value: number
  readonly u: number
}

/** Two values with a correlation: one shared cause of variance r·u·u on both, the rest of each its own. */
function pair({ a, b, r }: { a: Normal; b: Normal; r: number }): Answers {
  const common = Math.sqrt(r * a.u * b.u)
  const own = (one: Normal): number => Math.sqrt(one.u ** 2 - common ** 2)
  const mass = (one: Normal): string => `${one.value} ± ${own(one)} g (measured; k=1; with scale)`
  const instruments = `instruments:\n  scale: { kind: balance, serial: "1", uncertainty: "± ${common} g (k=1)" }\n`
  const both = `${head('')}${instruments}parts:\n  - { id: one, class: bracket, mass: ${mass(a)} }\n  - { id: other, class: bracket, mass: ${mass(b)} }\n`
  const rest = `${head(`, mass: ${mass(a)}`)}${instruments}parts:\n  - { id: other, class: bracket, mass: ${mass(b)} }\n`
  const sum = figure(sessionOf(both), 'PARTS_MASS')
  const difference = figure(sessionOf(rest), 'MASS_REMAINDER')
  const grams = ({ value, u }: Result) => ({ value: value! * 1000, u: u! * 1000 })
  return { sum: grams(sum), difference: grams(difference) }
}

/** A published unit: masses, volumes and powers of its boundaries, closure, link and dies. */
const benchmarkTable: Adapter = {
  topics: ['power density by boundary, capacitance per kW, link energy, die area per kW, closure'],
  answer(input) {
    const session = sessionOf(benchmarkSheet(input))
    const at = (metric: string, settings: Partial<Settings> = {}): number => figure(session, metric, settings).value!
    const hull = { volume: 'HULL' } as const
    const density = (boundary: string): number => at('POWER_DENSITY', { ...hull, boundary }) * 1e6
    const specific = (boundary: string): number => at('SPECIFIC_POWER', { boundary }) * 1e3
    return {
      inverter_kW_per_kg: specific('inverter'),
      inverter_kW_per_L: density('inverter'),
      with_boost_kW_per_kg: specific('with-boost'),
      with_boost_kW_per_L: density('with-boost'),
      whole_kW_per_kg: specific('whole'),
      whole_kW_per_L: density('whole'),
      link_uF_per_kW: at('CAPACITANCE_PER_KW') * 1e-9,
      link_energy_at_max: at('LINK_ENERGY'),
      transistor_mm2_per_kW: at('DIE_AREA_PER_KW') * 1e-9,
      unexplained_mass_share: at('MASS_CLOSURE') / 100,
      unexplained_volume_share: at('VOLUME_CLOSURE', hull) / 100,
    }
  },
}

function benchmarkSheet({ inputs }: Case): string {
  const n = inputs as Readonly<Record<string, number>>
  const side = (area: number): string => `${Math.sqrt(area)} x ${Math.sqrt(area)} x 0.2 mm`
  return `lidoff: 1
id: ${inputs.id}
title: Published unit
basis: published
specimen:
  kind: combined
  mass: ${n.whole_kg} kg
  hull-volume: ${n.whole_L} L
  dc-voltage: { nominal: ${n.battery_V} V, max: ${n.link_max_V} V }
operating-points:
  peak: { power: ${n.machine_power_kW} kW }
boundaries:
  - { id: inverter, without: [boost], mass: ${n.inverter_kg} kg, power: ${n.machine_power_kW} kW, volume: { hull: ${n.inverter_L} L } }
  - { id: with-boost, within: [inverter-stage, boost], mass: ${n.inverter_kg! + n.boost_kg!} kg, power: ${n.machine_power_kW} kW, volume: { hull: ${n.inverter_L! + n.boost_L!} L } }
parts:
  - id: inverter-stage
    class: assembly
    mass: ${n.inverter_kg} kg
    volume: ${n.inverter_L} L
    parts:
      - { id: link, class: dc-link-film-capacitor, capacitance: ${n.link_uF} µF, terminals: { plus: plus, minus: minus } }
      - { id: transistor, class: power-die, kind: IGBT, size: ${side(n.transistor_area_mm2!)} }
      - { id: diode, class: power-die, kind: silicon diode, size: ${side(n.diode_area_mm2!)} }
  - id: boost
    class: assembly
    mass: ${n.boost_kg} kg
    volume: ${n.boost_L} L
    parts:
      - { id: filter, class: filter-film-capacitor, capacitance: ${n.filter_uF} µF, terminals: { plus: battery-plus, minus: minus } }
nets:
  plus: { potential: hv-positive }
  battery-plus: { potential: hv-positive }
  minus: { potential: hv-negative }
`
}

export const sheetAdapters: readonly Adapter[] = [shared, benchmarkTable]
