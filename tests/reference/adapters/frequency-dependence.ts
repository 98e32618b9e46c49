import type { Arrangement } from '../../../queries/physics/bar-skin.ts'
import { barSkin, pairSkin } from '../../../queries/physics/bar-skin.ts'
import { barResistanceMethod, skinDepthMethod, widePlateSkin } from '../../../queries/physics/skin-effect.ts'
import { wireRatio, wireSkin } from '../../../queries/physics/wire-skin.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { siOf } from './inputs.ts'
import { answersBy, known, need, read, story } from './spelling.ts'

function frequencyDependence(input: Case): Answers | undefined {
  if (Object.keys(input.expected).some((key) => /^(skin_?depth|delta)/i.test(key))) return depth(input)
  if (read(input, 'resistivity_20C', 'resistivity') !== undefined) return resistance(input)
  return sweep(input, (frequency) => atFrequency(input, frequency))
}

function depth(input: Case): Answers | undefined {
  const given = {
    conductivity: conductivityOf(input),
    ...known({ relativePermeability: read(input, 'relative_permeability', 'mu_r') }),
  }
  const at = (frequency: number): number => skinDepthMethod.compute({ ...given, frequency }).skinDepth
  const frequency = read(input, 'frequency')
  if (frequency !== undefined) return answersBy(input, { 'skin_depth|delta': at(frequency) })
  return sweep(input, (each) => ({ 'skin_depth|delta': at(each) }))
}

function resistance(input: Case): Answers | undefined {
  const found = barResistanceMethod.compute({
    width: need(input, 'width', 'trace_width', 'bar_width'),
    thickness: need(input, 'thickness', 'trace_thickness', 'bar_thickness'),
    length: need(input, 'length'),
    resistivity: need(input, 'resistivity_20C', 'resistivity'),
    ...known({
      temperatureCoefficient: read(input, 'temperature_coefficient'),
      temperature: read(input, 'temperature'),
    }),
  })
  return answersBy(input, { 'R|R_dc|resistance': found.resistance })
}

function conductivityOf(input: Case): number {
  return read(input, 'conductivity') ?? 1 / need(input, 'resistivity')
}

/** Expected keys end in the frequency (`R_10kHz`) or the argument (`ratio_x3`): each is asked for by itself. */
function sweep(input: Case, answerAt: (frequency: number) => Readonly<Record<string, number>>): Answers | undefined {
  const answers: Record<string, number> = {}
  for (const key of Object.keys(input.expected)) {
    const [, name, argument] = /^(.+)_x([\d.]+)$/.exec(key) ?? []
    if (name !== undefined) answers[key] = wireRatio.compute({ wireArgument: Number(argument) }).resistanceRatio
    const [, quantity, number, unit] = /^(.+?)_([\d.]+) ?([GMk]?Hz)$/.exec(key) ?? []
    const frequency = unit === undefined ? read(input, 'frequency') : siOf(`${number} ${unit}`)
    if (frequency === undefined) continue
    const found = answersBy({ ...input, expected: { [quantity ?? key]: 0 } }, answerAt(frequency))
    const value = Object.values(found ?? {})[0]
    if (typeof value === 'number') answers[key] = value
  }
  return Object.keys(answers).length === 0 ? undefined : answers
}

function atFrequency(input: Case, frequency: number): Readonly<Record<string, number>> {
  const conductivity = conductivityOf(input)
  const radius = read(input, 'radius', 'wire_radius')
  if (radius !== undefined) {
    const found = wireSkin.compute({ radius, conductivity, frequency })
    return {
      'Rac_over_Rdc|ratio': found.resistanceRatio,
      'L_internal|L': found.internalInductancePerLength,
      'R|R_per_length': found.resistancePerLength,
    }
  }
  const bar = {
    width: need(input, 'plate_width', 'bar_width', 'width'),
    thickness: need(input, 'plate_thickness', 'bar_thickness', 'thickness'),
    conductivity,
    frequency,
  }
  const gap = read(input, 'gap_face_to_face', 'gap_edge_to_edge', 'gap')
  if (gap === undefined) {
    const found = barSkin.compute(bar)
    return {
      'Rac_over_Rdc|ratio': found.resistanceRatio,
      'L_drop_from_dc|L_drop': found.inductanceDropPerLength,
      'R|R_per_length': found.resistancePerLength,
    }
  }
  const wide = /1-d|infinitely wide/.test(story(input))
  const coplanar = read(input, 'gap_edge_to_edge') !== undefined || /side by side|coplanar/.test(story(input))
  const arrangement: Arrangement = coplanar ? 'coplanar' : 'laminated'
  const found = wide ? widePlateSkin.compute({ ...bar, gap }) : pairSkin.compute({ ...bar, gap, arrangement })
  return {
    'R|R_loop|R_per_length': found.resistancePerLength,
    'L|L_loop|L_per_length': found.inductancePerLength,
  }
}

export const frequencyDependenceAdapter: Adapter = { topics: ['frequency-dependence'], answer: frequencyDependence }
