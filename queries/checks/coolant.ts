import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { figureById } from '../figures/registry.ts'
import { boilingPoint } from '../physics/boiling.ts'
import { glycolFreezingPoint, glycolMassFraction } from '../physics/coolant-fluid-glycol.ts'
import { defineCheck, type Evaluator, type Finding } from './check.ts'

const unreached = defineCheck({
  id: 'passage-nothing-enters',
  title: 'A coolant passage that nothing enters',
  severity: 'warning',
  run: (view) =>
    view
      .find({ ask: 'passages' })
      .paths.filter((passage) => view.find({ ask: 'entered', passage }).paths.length === 0)
      .map(
        (passage): Finding => ({
          path: passage,
          what: 'stands in no sequence: no coolant is said to enter it',
          mend: 'put it into the sequence between inlet and outlet, or say in a finding that it is blind',
        }),
      ),
})

const idle = defineCheck({
  id: 'passage-without-heat',
  title: 'A coolant passage whose faces get no heat',
  severity: 'question',
  run: (view) =>
    view
      .find({ ask: 'passages' })
      .paths.filter((passage) => view.find({ ask: 'cooled-by', passage }).paths.length > 0) // a return pipe cools nothing
      .filter((passage) => view.find({ ask: 'heated-by', passage }).paths.length === 0)
      .map(
        (passage): Finding => ({
          path: passage,
          what: 'cools a face to which no part of the record sends its heat',
          mend: 'add the heat paths that end on its faces, or take the face out of cools:',
        }),
      ),
})

const noFlow = defineCheck({
  id: 'coolant-flow-of-zero',
  title: 'A coolant flow of zero',
  severity: 'error',
  run: (view) =>
    view
      .find({ ask: 'circuits' })
      .paths.map((circuit) => asPath(`${circuit}/flow`))
      .filter((path) => (view.may(path) ?? 1) <= 0)
      .map(
        (path): Finding => ({
          path,
          what: `is ${view.may(path)}: heat would have nowhere to go`,
          mend: 'state the flow of the operating point, or not looked for',
        }),
      ),
})

const outsideItsRange = defineCheck({
  id: 'coolant-outside-its-range',
  title: 'Coolant below its freezing point or above its boiling point',
  severity: 'warning',
  run: (view, evaluator) =>
    view.find({ ask: 'circuits' }).paths.flatMap((circuit) => {
      const range = liquidRange(view, circuit)
      return range ? beyond(range, temperaturesOf(view, evaluator, circuit)) : []
    }),
})

interface LiquidRange {
  readonly freezing: number
  /** Undefined where no pressure is recorded. */
  readonly boiling: number | undefined
}

/** Between which temperatures the coolant of a circuit is liquid; nothing for air, or a mixture of unknown share. */
function liquidRange(view: View, circuit: Path): LiquidRange | null {
  const fluid = view.mayWord(asPath(`${circuit}/fluid`))
  const share = fluid === 'water' ? 0 : glycolOf(view, circuit)
  if ((fluid !== 'water' && fluid !== 'ethylene-glycol-water') || share === undefined) return null
  const pressure = view.may(asPath(`${circuit}/pressure`))
  return {
    freezing: glycolFreezingPoint(share),
    boiling: pressure === undefined ? undefined : boilingPoint({ pressure, glycolMassFraction: share }),
  }
}

function glycolOf(view: View, circuit: Path): number | undefined {
  const mass = view.may(asPath(`${circuit}/glycol-by-mass`))
  const volume = view.may(asPath(`${circuit}/glycol-by-volume`))
  return mass ?? (volume === undefined ? undefined : glycolMassFraction({ glycolVolumeFraction: volume }))
}

/** Inlet as recorded, and what leaves the circuit and each of its passages where that can be computed [K]. */
function temperaturesOf(view: View, evaluator: Evaluator, circuit: Path): readonly (readonly [Path, number])[] {
  const inlet = asPath(`${circuit}/inlet`)
  const outlet = asPath(`${circuit}/outlet`)
  const recorded = [inlet, outlet].flatMap((path) => {
    const value = view.may(path)
    return value === undefined ? [] : [[path, value] as const]
  })
  const leaving = view.find({ ask: 'passages', circuit }).paths.flatMap((passage) => {
    const { value } = evaluator.evaluate(figureById('COOLANT_OUTLET'), passage)
    return value === null ? [] : [[passage, value + 273.15] as const]
  })
  return [...recorded, ...leaving]
}

function beyond(
  { freezing, boiling }: LiquidRange,
  temperatures: readonly (readonly [Path, number])[],
): readonly Finding[] {
  const celsius = (kelvin: number): string => `${(kelvin - 273.15).toFixed(0)} °C`
  return temperatures.flatMap(([path, temperature]): readonly Finding[] => {
    if (temperature < freezing)
      return [
        {
          path,
          what: `${celsius(temperature)} lies below the freezing point of the coolant, ${celsius(freezing)}`,
          mend: 'check the temperature, and the share of glycol (by mass or by volume)',
        },
      ]
    if (boiling === undefined || temperature < boiling) return []
    return [
      {
        path,
        what: `${celsius(temperature)} lies above the boiling point at the stated pressure, ${celsius(boiling)}`,
        mend: 'check the temperature, and that the pressure is absolute; hot coolant under pressure scalds: relieve it before opening',
      },
    ]
  })
}

export const coolantChecks = [unreached, idle, noFlow, outsideItsRange] as const
