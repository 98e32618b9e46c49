import { boardSpacing } from '../../../queries/physics/board-spacing.ts'
import {
  altitudeFactor,
  type MaterialGroup,
  materialGroupOf,
  ratedImpulse,
  requiredClearance,
  requiredCreepage,
} from '../../../queries/physics/insulation.ts'
import { BOARD_COLUMNS } from '../../../queries/physics/insulation-tables.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { answersBy, known, read, story, text } from './spelling.ts'

/** Material group III of the tables is IIIa and IIIb; plain III is taken as IIIa, which has no further limits. */
const groupOf = (name: string): MaterialGroup => {
  const found = /i{1,3}[ab]?/i.exec(name)?.[0].toLowerCase() ?? ''
  return found === 'i' ? 'I' : found === 'ii' ? 'II' : found === 'iiib' ? 'IIIb' : 'IIIa'
}

const degreeOf = (name: string): number => Number(/\d/.exec(name)?.[0] ?? 2)

function degree(input: Case): number {
  return read(input, 'pollution_degree', 'PD') ?? degreeOf(text(input, 'pollution_degree', 'PD'))
}

function group(input: Case): MaterialGroup {
  const index = read(input, 'cti', 'comparative_tracking_index')
  return index === undefined ? groupOf(text(input, 'material_group', 'group')) : materialGroupOf(index)
}

const insulationOf = (input: Case) =>
  /reinforced|double/.test(`${text(input, 'insulation')} ${story(input)}`) ? 'reinforced' : 'basic'

const overvoltage = (input: Case): number | undefined => {
  const name = text(input, 'overvoltage_category')
  const roman = /\b(iv|i{1,3})\b/.exec(name)?.[1]
  return roman ? ['i', 'ii', 'iii', 'iv'].indexOf(roman) + 1 : read(input, 'overvoltage_category')
}

function answer(input: Case): Answers | undefined {
  return keyed(input) ?? single(input)
}

/** Tables, answered by what their keys say: V250_PD2_III, kV0.8_PD3, k_3000, B1_internal. */
function keyed(input: Case): Answers | undefined {
  const insulation = insulationOf(input)
  const voltage = read(input, 'voltage', 'peak_voltage', 'dc_voltage')
  const found = Object.keys(input.expected).flatMap((key): readonly (readonly [string, number])[] => {
    const creepage = /^V(\d+(?:\.\d+)?)_PD(\d)(?:_(I{1,3}[ab]?))?$/i.exec(key)
    if (creepage) {
      const inputs = { voltage: Number(creepage[1]), pollutionDegree: Number(creepage[2]), insulation } as const
      return [[key, requiredCreepage({ ...inputs, materialGroup: groupOf(creepage[3] ?? 'III') })]]
    }
    const clearance = /^kV(\d+(?:\.\d+)?)_PD(\d)/i.exec(key)
    if (clearance) {
      const inputs = {
        impulseVoltage: 1000 * Number(clearance[1]),
        pollutionDegree: Number(clearance[2]),
        insulation,
      } as const
      return [[key, requiredClearance({ ...inputs, ...known({ altitude: read(input, 'altitude') }) })]]
    }
    const altitude = /^k_(\d+)/.exec(key)
    if (altitude) return [[key, altitudeFactor(Number(altitude[1]))]]
    const column = BOARD_COLUMNS.find((name) => key.toUpperCase().startsWith(name))
    return column && voltage !== undefined ? [[key, boardSpacing({ voltage, column })]] : []
  })
  return found.length === 0 ? undefined : Object.fromEntries(found)
}

function single(input: Case): Answers | undefined {
  const insulation = insulationOf(input)
  const altitude = read(input, 'altitude')
  const voltage = read(input, 'rms_voltage', 'working_voltage', 'voltage')
  const category = overvoltage(input)
  const mains = read(input, 'line_to_neutral_voltage', 'line_to_neutral', 'nominal_voltage', 'mains_voltage', 'voltage')
  const rated =
    category !== undefined && mains !== undefined
      ? ratedImpulse({ voltage: mains, overvoltageCategory: category })
      : undefined
  const impulseVoltage = read(input, 'impulse_voltage', 'rated_impulse_voltage', 'impulse_withstand_voltage') ?? rated
  const printed = /printed wiring/.test(story(input)) && !/not printed/.test(story(input)) ? 'yes' : 'no'
  const wanted = Object.keys(input.expected).join(' ').toLowerCase()
  const column = BOARD_COLUMNS.find((name) => text(input, 'column').toUpperCase() === name)
  return answersBy(input, {
    'creepage|creepage_distance':
      voltage === undefined || !wanted.includes('creepage')
        ? undefined
        : requiredCreepage({
            voltage,
            pollutionDegree: degree(input),
            materialGroup: group(input),
            insulation,
            printedWiring: printed,
          }),
    'clearance|clearance_distance':
      impulseVoltage === undefined || !wanted.includes('clearance')
        ? undefined
        : requiredClearance({
            impulseVoltage,
            pollutionDegree: degree(input),
            insulation,
            field: /(^|[^n])homogeneous/.test(story(input).replace(/inhomogeneous/g, ''))
              ? 'homogeneous'
              : 'inhomogeneous',
            ...known({ altitude }),
          }),
    'impulse_voltage|rated_impulse_voltage': rated,
    'factor|altitude_factor|k': altitude === undefined ? undefined : altitudeFactor(altitude),
    'spacing|board_spacing': column && voltage !== undefined ? boardSpacing({ voltage, column }) : undefined,
  })
}

export const insulationAdapter: Adapter = { topics: ['insulation-distances'], answer }
