import { asPath } from '../../graph/quantity/quantity.ts'
import type { Model } from '../../graph/view.ts'
import { operating } from './paths.ts'

/** DC link voltage at the operating point: stated there, else the nominal one. */
export const operatingVoltage: Model<number> = {
  id: 'link voltage at the operating point',
  compute(view) {
    const { way, value } = view.first([
      { name: 'stated', read: () => view.need({ voltage: operating(view, 'dc-voltage') }).voltage },
      { name: 'nominal', read: () => view.need({ voltage: asPath('specimen/dc-voltage/nominal') }).voltage },
    ])
    if (way === 'nominal') view.note('at the nominal DC voltage: none is stated for the operating point')
    return value
  },
}
