import { commonModeCorner, coreImpedance, familyImpedance } from '../../../queries/physics/core-impedance.ts'
import {
  CORE_FAMILIES,
  type CoreFamily,
  complexPermeability,
  snoekLimit,
} from '../../../queries/physics/core-material.ts'
import {
  MU0,
  type RingInputs,
  ringDimensions,
  ringInductance,
  ringPermeability,
} from '../../../queries/physics/ring-core.ts'
import { gappedCore, ringFlux } from '../../../queries/physics/ring-flux.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { answersBy, known, need, read, readList, story } from './spelling.ts'

const PERMEABILITY = [
  'relative_permeability',
  'permeability',
  'mu_r',
  'initial_permeability',
  'mu_i',
  'initial_relative_permeability',
] as const

function answer(input: Case): Answers | undefined {
  if (read(input, 'gap', 'air_gap', 'gap_length', 'total_gap') !== undefined) return gapped(input)
  const ring = ringOf(input)
  if (ring) return ringAnswers(input, ring)
  const yCapacitors = readList(input, 'y_capacitances', 'capacitances') ?? yPair(input)
  if (yCapacitors) {
    const inductance = need(input, 'inductance', 'cm_inductance', 'common_mode_inductance', 'L')
    return answersBy(input, {
      'frequency|f|f_corner|corner_frequency|resonance': commonModeCorner({ inductance, capacitance: yCapacitors }),
    })
  }
  return material(input)
}

function yPair(input: Case): readonly number[] | undefined {
  const each = read(input, 'y_capacitance', 'y_capacitance_each', 'capacitance_each', 'capacitance')
  if (each === undefined) return undefined
  const count = read(input, 'y_capacitor_count', 'count', 'y_count') ?? 1
  return Array.from({ length: count }, () => each)
}

function ringOf(input: Case): RingInputs | undefined {
  const outer = read(input, 'outer_diameter', 'od', 'D_outer')
  const inner = read(input, 'inner_diameter', 'id', 'D_inner')
  if (outer === undefined || inner === undefined) return undefined
  const stackingFactor = read(input, 'stacking_factor', 'fill_factor')
  return {
    outerDiameter: outer,
    innerDiameter: inner,
    height: need(input, 'height', 'h'),
    ...known({ stackingFactor }),
  }
}

function ringAnswers(input: Case, ring: RingInputs): Answers | undefined {
  const { c1, c2, effectiveArea, effectiveLength, effectiveVolume } = ringDimensions(ring)
  const turns = read(input, 'turns', 'N') ?? 1
  const measured = read(input, 'measured_inductance', 'inductance', 'L')
  const permeability = read(input, ...PERMEABILITY) ?? permeabilityOf(input, ring, turns, measured)
  const inductance = permeability === undefined ? undefined : ringInductance({ ...ring, permeability, turns })
  return answersBy(input, {
    C1: c1,
    C2: c2,
    'l_e|effective_length': effectiveLength,
    'A_e|effective_area': effectiveArea,
    'V_e|effective_volume': effectiveVolume,
    'relative_permeability|mu_r|permeability|mu_i': permeability,
    'L|inductance|L_one_turn': inductance,
    'A_L|A_L_per_turn|inductance_factor': permeability && ringInductance({ ...ring, permeability }),
    'L_100_turns|A_L_per_100_turns|A_L_100': permeability && ringInductance({ ...ring, permeability, turns: 100 }),
    ...flux(input, ring, turns, permeability),
    ...impedances(input, ring, turns, permeability),
    ...corner(input, inductance),
  })
}

function permeabilityOf(
  input: Case,
  ring: RingInputs,
  turns: number,
  measured: number | undefined,
): number | undefined {
  if (measured === undefined) return undefined
  const fixtureInductance = read(input, 'fixture_inductance', 'lead_inductance', 'fixture')
  return ringPermeability({ ...ring, measuredInductance: measured, turns, ...known({ fixtureInductance }) })
}

function flux(input: Case, ring: RingInputs, turns: number, permeability: number | undefined) {
  const saturation = read(input, 'saturation_flux_density', 'B_sat', 'saturation')
  const current = read(input, 'current', 'I', 'cm_current')
  if (permeability === undefined || (saturation === undefined && current === undefined)) return {}
  const found = ringFlux({
    ...ring,
    turns,
    permeability,
    current: current ?? 0,
    saturationFluxDensity: saturation ?? 1,
  })
  const saturated = saturation === undefined ? undefined : found
  return {
    'B_mean|B|B_effective': found.meanFluxDensity,
    B_inner: found.innerFluxDensity,
    B_outer: found.outerFluxDensity,
    'I_sat_effective|I_sat|saturation_current': saturated?.saturationCurrent,
    'I_sat_inner_onset|I_sat_inner': saturated?.onsetCurrent,
    'I_sat_outer_full|I_sat_outer': saturated?.fullCurrent,
  }
}

function impedances(input: Case, ring: RingInputs, turns: number, permeability: number | undefined) {
  const frequency = read(input, 'frequency', 'f')
  if (frequency === undefined) return {}
  const real = read(input, 'mu_real', 'real_permeability', 'mu_prime')
  const imaginary = read(input, 'mu_imaginary', 'imaginary_permeability', 'mu_double_prime', 'mu_imag')
  const family = familyOf(input)
  const found =
    real === undefined && family && permeability !== undefined
      ? familyImpedance({ ...ring, turns, family, initialPermeability: permeability, frequency })
      : coreImpedance({
          ...ring,
          turns,
          frequency,
          realPermeability: real ?? permeability ?? 1,
          ...known({ imaginaryPermeability: imaginary }),
        })
  return {
    'Z|impedance|Z_abs': found.impedance,
    'R|resistance|R_s': found.resistance,
    'X|reactance|X_s': found.reactance,
    L_s: found.inductance,
  }
}

function corner(input: Case, inductance: number | undefined) {
  const capacitance = readList(input, 'y_capacitances') ?? yPair(input)
  if (!capacitance || inductance === undefined) return {}
  return { 'f_corner|corner_frequency|frequency|resonance': commonModeCorner({ inductance, capacitance }) }
}

const familyOf = (input: Case): CoreFamily | undefined =>
  CORE_FAMILIES.find((family) => story(input).replace(/[ _]/g, '-').includes(family))

function gapped(input: Case): Answers | undefined {
  const gap = need(input, 'gap', 'air_gap', 'total_gap', 'gap_length')
  const total = read(input, 'path_length_total', 'path_length', 'magnetic_path_length', 'l_e', 'mean_path_length')
  const pathLength = total ?? need(input, 'path_length_core', 'iron_path_length', 'core_path_length') + gap
  const permeability = need(input, ...PERMEABILITY)
  const area = need(input, 'area', 'section', 'A_e', 'cross_section')
  const current = read(input, 'current', 'I')
  const turns = read(input, 'turns', 'N') ?? 1
  const found = gappedCore({ area, pathLength, gap, permeability, turns, ...known({ current }) })
  const saturation = read(input, 'saturation_flux_density', 'B_sat')
  return answersBy(input, {
    'L|inductance': found.inductance,
    'B|flux_density|B_gap': found.fluxDensity,
    'mu_eff|effective_permeability': found.effectivePermeability,
    'sensitivity|B_per_current': found.sensitivity,
    'A_L|inductance_factor': found.inductance / turns ** 2,
    H_gap: found.fluxDensity / MU0,
    'I_sat|saturation_current': saturation === undefined ? undefined : saturation / found.sensitivity,
  })
}

function material(input: Case): Answers | undefined {
  const initialPermeability = need(input, ...PERMEABILITY)
  const saturationMagnetisation = read(
    input,
    'mu0_times_saturation_magnetisation',
    'mu0_Ms',
    'saturation_magnetisation',
    'saturation_flux_density',
    'saturation_polarisation',
  )
  const family = familyOf(input)
  const frequency = read(input, 'frequency', 'f')
  if (family && frequency !== undefined) {
    const found = complexPermeability({ family, initialPermeability, frequency, ...known({ saturationMagnetisation }) })
    return answersBy(input, {
      'mu_real|mu_prime': found.real,
      'mu_imaginary|mu_double_prime': found.imaginary,
      'mu_abs|magnitude': found.magnitude,
    })
  }
  if (saturationMagnetisation === undefined) return undefined
  const found = snoekLimit({ saturationMagnetisation, initialPermeability })
  return answersBy(input, {
    'product|snoek_product': found.product,
    'f_r|resonance|frequency|resonance_frequency': found.resonance,
  })
}

export const magneticCoreAdapter: Adapter = { topics: ['magnetic-core'], answer }
