import { asPath } from '../../graph/quantity/quantity.ts'
import { SAFETY_LIMITS } from '../physics/safety-limits.ts'
import { type Check, defineCheck, type Finding } from './check.ts'
import { valuesOf } from './values.ts'

const digits = (value: number): string => String(Number(value.toPrecision(3)))

const overshoot = defineCheck({
  id: 'overshoot-over-rating',
  title: 'A switch driven over its blocking voltage at turn-off',
  severity: 'warning',
  run: (view, evaluator) =>
    valuesOf(view, evaluator, 'OVERSHOOT_MARGIN')
      .filter(({ low }) => low < 0)
      .map(
        ({ path, value, low }): Finding => ({
          path,
          what:
            value < 0
              ? `link voltage and overshoot exceed the blocking voltage by ${digits(-value)} V`
              : `the margin to the blocking voltage is ${digits(value)} V, but within its doubt down to ${digits(low)} V`,
          mend: 'see what LOOP_INDUCTANCE and the current slope rest on; a slope measured in the unit settles it',
        }),
      ),
})

interface Rating {
  readonly id: string
  readonly title: string
  readonly metric: string
  /** Property with the rating, and SI → unit of the figure. */
  readonly property: string
  readonly scale: number
  readonly unit: string
  readonly mend: string
}

/** A figure of a part that is above the rating on record. */
const overRating = ({ id, title, metric, property, scale, unit, mend }: Rating): Check =>
  defineCheck({
    id,
    title,
    severity: 'warning',
    run: (view, evaluator) =>
      valuesOf(view, evaluator, metric).flatMap(({ path, value }): readonly Finding[] => {
        const rated = view.may(asPath(`${path}/${property}`))
        if (rated === undefined || value <= rated * scale) return []
        return [{ path, what: `${digits(value)} ${unit} where it is rated ${digits(rated * scale)} ${unit}`, mend }]
      }),
  })

const ripple = overRating({
  id: 'ripple-over-rating',
  title: 'A link capacitor that carries more ripple than its rating',
  metric: 'CAPACITOR_RIPPLE_CURRENT',
  property: 'ripple-current',
  scale: 1,
  unit: 'A rms',
  mend: 'read the rating again with its temperature, or the operating point: a peak of seconds may exceed what holds for hours',
})

const resistor = overRating({
  id: 'resistor-over-rating',
  title: 'A discharge resistor loaded above its rating',
  metric: 'DISCHARGE_RESISTOR_LOAD',
  property: 'power',
  scale: 1,
  unit: 'W',
  mend: 'read resistance and rating again; a switched resistor is rated for pulses',
})

const sensor = overRating({
  id: 'sensor-core-saturates',
  title: 'A sensor core that saturates before full scale',
  metric: 'SENSOR_CORE_FLUX',
  property: 'saturation-flux-density',
  scale: 1e3,
  unit: 'mT',
  mend: 'measure the gap again, or see which range the sensor has',
})

const touchEnergy = defineCheck({
  id: 'touch-energy',
  title: 'More energy in the capacitance to the chassis than the touch limit',
  severity: 'warning',
  run: (view, evaluator) =>
    valuesOf(view, evaluator, 'Y_ENERGY')
      .filter(({ value }) => value > SAFETY_LIMITS.lowEnergy.value)
      .map(
        ({ path, value }): Finding => ({
          path,
          what: `${digits(value)} J in the capacitors to the chassis, above ${SAFETY_LIMITS.lowEnergy.value} J (${SAFETY_LIMITS.lowEnergy.source})`,
          mend: 'read capacitance and voltage again; local codes and a licensed person decide what follows',
        }),
      ),
})

export const stressChecks = [overshoot, ripple, resistor, sensor, touchEnergy] as const
