import {
  developingTube,
  dittusBoelterNusselt,
  PLATES_NUSSELT,
  rectangularNusselt,
  TUBE_NUSSELT,
  turbulentFilm,
} from '../../../queries/physics/convection.ts'
import { finField, pinFinEfficiency } from '../../../queries/physics/fins.ts'
import { PIN_ARRANGEMENTS } from '../../../queries/physics/pin-drop.ts'
import { pinBank } from '../../../queries/physics/pin-fins.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantity } from './inputs.ts'

type Answer = Record<string, number>

function convection(input: Case): Answer | undefined {
  if (input.inputs.aspectRatios !== undefined) {
    const answer: Answer = {}
    for (const key of Object.keys(input.expected)) {
      const [, kind, aspect] = /^nu(H1|T)_(.+)$/.exec(key) ?? []
      if (kind)
        answer[key] = rectangularNusselt({
          aspect: Number(aspect),
          wall: kind === 'T' ? 'uniform-temperature' : 'uniform-flux',
        })
    }
    return answer
  }
  if (input.inputs.shapes !== undefined) {
    return {
      circularT: TUBE_NUSSELT['uniform-temperature'],
      circularH: TUBE_NUSSELT['uniform-flux'],
      platesT: PLATES_NUSSELT['uniform-temperature'],
      platesH: PLATES_NUSSELT['uniform-flux'],
    }
  }
  const flow = numbersOfFlow(input)
  if (maybeQuantity(input, 'length') !== undefined) {
    const found = developingTube({
      ...flow,
      diameter: quantity(input, 'diameter', 'hydraulicDiameter'),
      length: quantity(input, 'length'),
    })
    return {
      ...flow,
      xStar: found.xStar,
      nusseltMeanExact: found.exact,
      nusseltHausen: found.hausen,
      nusseltSiederTate: found.siederTate,
    }
  }
  const thermalConductivity = maybeQuantity(input, 'conductivity') ?? 1
  const hydraulicDiameter = maybeQuantity(input, 'hydraulicDiameter') ?? maybeQuantity(input, 'diameter') ?? 1
  const found = turbulentFilm({ ...flow, thermalConductivity, hydraulicDiameter })
  return {
    ...flow,
    frictionFactor: found.frictionFactor,
    nusseltGnielinski: found.nusselt,
    coefficientGnielinski: found.filmCoefficient,
    nusseltDittusBoelter: dittusBoelterNusselt(flow),
  }
}

/** Reynolds and Prandtl number as stated, or from velocity and properties (definitions). */
function numbersOfFlow(input: Case): { reynolds: number; prandtl: number } {
  const reynolds =
    maybeQuantity(input, 'reynolds') ??
    (quantity(input, 'density') * quantity(input, 'velocity') * quantity(input, 'diameter', 'hydraulicDiameter')) /
      quantity(input, 'viscosity')
  const prandtl =
    maybeQuantity(input, 'prandtl') ??
    (quantity(input, 'specificHeat') * quantity(input, 'viscosity')) / quantity(input, 'conductivity')
  return { reynolds, prandtl }
}

function fins(input: Case): Answer | undefined {
  if (maybeQuantity(input, 'diameter') !== undefined) {
    return pinFinEfficiency({
      diameter: quantity(input, 'diameter'),
      length: quantity(input, 'length', 'height'),
      thermalConductivity: quantity(input, 'conductivity', 'finConductivity'),
      filmCoefficient: quantity(input, 'coefficient'),
    })
  }
  const found = finField({
    gapCount: quantity(input, 'channels', 'gaps'),
    gap: quantity(input, 'channelWidth', 'gap'),
    thickness: quantity(input, 'finThickness'),
    height: quantity(input, 'finHeight', 'channelHeight'),
    length: quantity(input, 'length'),
    thermalConductivity: quantity(input, 'finConductivity', 'conductivity'),
    filmCoefficient: quantity(input, 'coefficient'),
  })
  return { ...found, mH: found.finParameter, resistance: found.thermalResistance }
}

function pinFins(input: Case): Answer {
  const said = `${input.inputs.arrangement}`
  const arrangement = PIN_ARRANGEMENTS.find((one) => one.replace('-', '') === said.replace('-', ''))
  if (!arrangement) throw new Error(`case ${input.id}: arrangement "${said}"`)
  const [constant, exponent, row] = ['constantC', 'exponentM', 'rowCorrection'].map((name) =>
    maybeQuantity(input, name),
  )
  const found = pinBank({
    arrangement,
    diameter: quantity(input, 'pinDiameter', 'diameter'),
    transversePitch: quantity(input, 'transversePitch'),
    longitudinalPitch: quantity(input, 'longitudinalPitch'),
    rows: quantity(input, 'rows'),
    pinsPerRow: quantity(input, 'pinsPerRow'),
    height: quantity(input, 'pinHeight', 'height'),
    flow: quantity(input, 'flow'),
    density: quantity(input, 'density'),
    viscosity: quantity(input, 'viscosity'),
    specificHeat: quantity(input, 'specificHeat'),
    thermalConductivity: quantity(input, 'conductivity'),
    pinConductivity: quantity(input, 'pinConductivity'),
    ...(constant === undefined || exponent === undefined
      ? {}
      : { nusseltConstant: constant, nusseltExponent: exponent }),
    ...(row === undefined ? {} : { rowCorrection: row }),
  })
  return { ...found, coefficient: found.filmCoefficient, resistance: found.thermalResistance }
}

export const convectionAdapter: Adapter = {
  topics: ['convection', 'fin-efficiency', 'pin-fin'],
  answer: (input) =>
    input.topic === 'convection' ? convection(input) : input.topic === 'pin-fin' ? pinFins(input) : fins(input),
}
