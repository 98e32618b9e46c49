import { barConduction, resistivityOf } from '../../../queries/physics/conductor.ts'
import { coplanar } from '../../../queries/physics/coplanar.ts'
import { type CoupledLines, coupledMicrostrip, coupledStripline } from '../../../queries/physics/coupled-traces.ts'
import { type MicrostripInputs, microstrip } from '../../../queries/physics/microstrip.ts'
import { meshedPlane, slottedPlane } from '../../../queries/physics/open-reference.ts'
import type { Line } from '../../../queries/physics/strip-field.ts'
import { stripline } from '../../../queries/physics/stripline.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { siOf } from './inputs.ts'
import { answersBy, known, need, read, story } from './spelling.ts'

const WIDTH = ['trace_width', 'width', 'w', 'strip_width', 'conductor_width'] as const
const HEIGHT = [
  'height_above_plane',
  'height',
  'h',
  'dielectric_height',
  'dielectric_thickness',
  'substrate_height',
  'board_thickness',
] as const
const THICKNESS = ['trace_thickness', 'thickness', 't', 'copper_thickness'] as const
const PERMITTIVITY = ['relative_permittivity', 'permittivity', 'eps_r', 'er', 'dielectric_constant'] as const
const SPACING = ['plane_spacing', 'plane_separation', 'b', 'ground_plane_spacing'] as const

function answer(input: Case): Answers | undefined {
  const length = read(input, 'length', 'trace_length')
  if (length !== undefined && read(input, ...PERMITTIVITY) === undefined) return conduction(input, length)
  if (Array.isArray(input.inputs.slot_widths)) return slots(input)
  const pitch = read(input, 'pitch', 'mesh_pitch', 'grid_pitch')
  if (pitch !== undefined) return mesh(input, pitch)
  if (/coplanar/.test(story(input))) return coplanarLine(input)
  const traceGap = read(input, 'trace_gap', 'gap', 'spacing', 's', 'trace_spacing')
  if (traceGap !== undefined) return pair(input, traceGap)
  const slot = read(input, 'slot_width')
  if (slot !== undefined) return answersBy(input, lineAnswers(slottedPlane({ ...single(input), slotWidth: slot })))
  return answersBy(
    input,
    lineAnswers(read(input, ...SPACING) === undefined ? microstrip(single(input)) : between(input)),
  )
}

const single = (input: Case): MicrostripInputs => ({
  traceWidth: need(input, ...WIDTH),
  heightAbovePlane: need(input, ...HEIGHT),
  permittivity: need(input, ...PERMITTIVITY),
  traceThickness: read(input, ...THICKNESS) ?? 0,
})

const between = (input: Case): Line =>
  stripline({
    traceWidth: need(input, ...WIDTH),
    planeSpacing: need(input, ...SPACING),
    permittivity: need(input, ...PERMITTIVITY),
    traceThickness: read(input, ...THICKNESS) ?? 0,
    ...known({ heightAbovePlane: read(input, ...HEIGHT) }),
  })

const lineAnswers = (line: Line) => ({
  'Z0|Z|impedance|characteristic_impedance': line.impedance,
  'eps_eff|effective_permittivity': line.effectivePermittivity,
  'L_per_length|inductance_per_length|L': line.inductancePerLength,
  'C_per_length|capacitance_per_length|C': line.capacitancePerLength,
  'delay|delay_per_length|propagation_delay': line.delay,
  'velocity|phase_velocity': 1 / line.delay,
})

function pair(input: Case, traceGap: number): Answers | undefined {
  const planeSpacing = read(input, ...SPACING)
  const traceWidth = need(input, ...WIDTH)
  const shared = {
    traceWidth,
    traceGap,
    permittivity: need(input, ...PERMITTIVITY),
    traceThickness: read(input, ...THICKNESS) ?? 0,
  }
  const found: CoupledLines =
    planeSpacing === undefined
      ? coupledMicrostrip({ ...shared, heightAbovePlane: need(input, ...HEIGHT) })
      : coupledStripline({ ...shared, planeSpacing, ...known({ heightAbovePlane: read(input, ...HEIGHT) }) })
  return answersBy(input, {
    'Z_odd|Zodd|Z0_odd': found.odd,
    'Z_even|Zeven|Z0_even': found.even,
    'Z_diff|Z_differential|differential_impedance': found.differential,
    'Z_common|Z_cm|common_mode_impedance': found.common,
    'coupling|coupling_coefficient|k': found.coupling,
    eps_eff_odd: found.oddPermittivity,
    eps_eff_even: found.evenPermittivity,
  })
}

function coplanarLine(input: Case): Answers | undefined {
  const slotWidth = need(input, 'slot_width', 'gap', 'coplanar_gap', 'ground_gap', 'trace_gap', 's')
  const backed =
    /backed|grounded|with (a )?(ground )?plane/.test(story(input)) && !/without/.test(story(input)) ? 'yes' : 'no'
  return answersBy(input, lineAnswers(coplanar({ ...single(input), slotWidth, backed })))
}

/** Each slot width of the list, answered under keys that end in its number. */
function slots(input: Case): Answers | undefined {
  const found = (input.inputs.slot_widths as readonly string[]).map((width) => {
    const number = /[\d.]+/.exec(String(width))?.[0] ?? ''
    return { number, line: slottedPlane({ ...single(input), slotWidth: siOf(width) }) }
  })
  const values = found.flatMap(({ number, line }) =>
    Object.entries(lineAnswers(line)).flatMap(([names, value]) =>
      names.split('|').map((name) => [`${name.replace('_per_length', '')}_slot_${number}`, value] as const),
    ),
  )
  return answersBy(input, Object.fromEntries(values))
}

function mesh(input: Case, pitch: number): Answers | undefined {
  const angle = read(input, 'angle', 'mesh_angle')
  const lineWidth = need(input, 'line_width', 'mesh_line_width', 'mesh_line')
  const found = meshedPlane({ ...single(input), pitch, lineWidth, ...known({ angle }) })
  return answersBy(input, {
    'low|Z_low|Z_min|lower_bound|Z0_lower': found.low,
    'high|Z_high|Z_max|upper_bound|Z0_upper': found.high,
    'solid|Z_solid|Z0_solid': found.solid,
    'copper_share|copper_fraction': found.copperShare,
  })
}

function conduction(input: Case, length: number): Answers | undefined {
  const temperature = read(input, 'temperature') ?? 293.15
  const found = barConduction({
    length,
    width: need(input, ...WIDTH),
    thickness: need(input, ...THICKNESS),
    current: read(input, 'current', 'I') ?? 0,
    resistivity: read(input, 'resistivity', 'rho') ?? resistivityOf({ material: 'copper', temperature }),
  })
  return answersBy(input, {
    'R|resistance|R_dc': found.resistance,
    'J|current_density': found.currentDensity,
    'P|loss|power': found.loss,
    'V|voltage_drop': found.voltageDrop,
  })
}

export const pcbTraceAdapter: Adapter = { topics: ['pcb-trace'], answer }
