import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { heatLedger } from '../../../queries/heat-ledger.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity, toSi } from './inputs.ts'
import { sessionOf } from './sheets.ts'

const HEAD = `lidoff: 1
id: case
title: Reference case
basis: published
specimen: { kind: traction-inverter }
`

/** A figure of a subject in SI: the factor is that of its printed unit. */
function figure(session: Session, metric: string, subject: string, factor: number): number {
  const { value, warnings } = session.evaluate(figureById(metric), asPath(subject))
  if (value === null) throw new Error(`${metric} of ${subject}: ${warnings.join('; ')}`)
  return value * factor
}

const PER_LITRE_MINUTE = 1 / 60_000

/** A network of passages with stated quadratic losses, typed as a sheet in its nested sequence form. */
const flowSheet: Adapter = {
  topics: ['flow-network'],
  answer(input) {
    const { sequence, coefficients } = input.inputs
    if (typeof sequence !== 'string' || !Array.isArray(coefficients)) return undefined
    if (input.inputs.exponent !== undefined && input.inputs.exponent !== 2) return undefined
    const session = sessionOf(sheetOfFlow(input, sequence, coefficients as readonly number[]))
    const answers: Record<string, number> = {
      pressureDropTotal: figure(session, 'PRESSURE_DROP', 'specimen', 1e3),
      pressureDrop: figure(session, 'PRESSURE_DROP', 'specimen', 1e3),
    }
    for (let n = 1; n <= coefficients.length; n++) {
      answers[`flow${n}`] = figure(session, 'PASSAGE_FLOW', `coolant/p${n}`, PER_LITRE_MINUTE)
      answers[`pressureDrop${n}`] = figure(session, 'PRESSURE_DROP', `coolant/p${n}`, 1e3)
    }
    return answers
  },
}

/** Δp = R Q², as measured at one flow. */
function sheetOfFlow(input: Case, sequence: string, coefficients: readonly number[]): string {
  const at = 1e-4
  const passages = coefficients.map(
    (factor, n) =>
      `    - { id: p${n + 1}, pipe: { diameter: not looked for }, pressure-drop: { value: ${factor * at ** 2} Pa, basis: measured, at: { flow: ${at} m³/s } } }`,
  )
  return `${HEAD}coolant:
  fluid: water
  flow: ${quantity(input, 'flow')} m³/s
  inlet: 20 °C
  passages:
${passages.join('\n')}
  sequence: [inlet, ${nested(sequence)}, outlet]
`
}

/** "a, then b in parallel with (c, then d)" as lists whose levels alternate: a, [b, [c, d]]. */
function nested(text: string): string {
  const tokens = text.match(/p\d+|\(|\)|in parallel with|then/g) ?? []
  let at = 0
  const atom = (): string => {
    const token = tokens[at++]!
    if (token !== '(') return token
    const inner = `[${series()}]`
    at++
    return inner
  }
  const parallel = (): string => {
    const branches = [atom()]
    for (; tokens[at] === 'in parallel with'; ) {
      at++
      branches.push(atom())
    }
    return branches.length === 1 ? branches[0]! : `[${branches.join(', ')}]`
  }
  const series = (): string => {
    const parts = [parallel()]
    for (; tokens[at] === 'then'; ) {
      at++
      parts.push(parallel())
    }
    return parts.join(', ')
  }
  return series()
}

/** A die between two boundaries of different temperature, typed as heat paths to the frame and to the air. */
const doubleSidedSheet: Adapter = {
  topics: ['thermal-network'],
  answer(input) {
    if (!Array.isArray(input.inputs.stackBottom) || !Array.isArray(input.inputs.stackTop)) return undefined
    const session = sessionOf(sheetOfStacks(input))
    const ledger = heatLedger(session)
    const heat = (end: string): number => ledger.ends.find((one) => one.end === end)!.heat
    const answers: Answers = {
      junction: figure(session, 'JUNCTION_TEMPERATURE', 'parts/die', 1) + 273.15,
      heatBottom: heat('ambient/frame'),
      heatTop: heat('ambient/air'),
      equivalentResistance: figure(session, 'THERMAL_RESISTANCE', 'parts/die', 1),
    }
    return answers
  },
}

function sheetOfStacks(input: Case): string {
  const boundary = (name: string): number => (maybeQuantity(input, name) ?? quantity(input, 'coolant')) - toSi(0, 'Cel')
  const layers = (name: string): string =>
    quantities({ ...input, inputs: { ...input.inputs, unit: input.inputs.resistanceUnit } }, name)
      .map((resistance, n) => `{ kind: layer, id: layer-${n + 1}, resistance: ${resistance} K/W }`)
      .join(', ')
  return `${HEAD}parts:
  - { id: die, class: power-die, kind: IGBT, size: 10 x 10 x 0.1 mm, loss: ${quantity(input, 'power', 'loss')} W }
heat:
  - { id: down, from: die, layers: [ ${layers('stackBottom')} ], to: frame }
  - { id: up, from: die, layers: [ ${layers('stackTop')} ], to: ambient }
ambient: { air: ${boundary('coolantTop')} °C, frame: ${boundary('coolantBottom')} °C }
`
}

export const thermalSheetAdapters: readonly Adapter[] = [flowSheet, doubleSidedSheet]
