import { asPath } from '../../graph/quantity/quantity.ts'
import { linkDivision } from '../figures/dc-link.ts'
import { SPECIMEN } from '../figures/figure.ts'
import { known } from '../figures/heat/reading.ts'
import { driverCount, switchCount } from '../traits/bridge.ts'
import { defineCheck, type Finding } from './check.ts'

const driverPerSwitch = defineCheck({
  id: 'driver-count',
  title: 'Gate drivers do not fit the switches',
  severity: 'question',
  run(view) {
    const switches = switchCount(view)
    const drivers = driverCount(view)
    if (switches === 0 || drivers === 0 || drivers === switches) return []
    return [
      {
        path: 'specimen',
        what: `${drivers} isolated gate drivers for ${switches} switches; as a rule there is one for each (common practice)`,
        mend: 'count the drivers on both sides of the board again, and look for devices with two channels',
      },
    ]
  },
})

const voltageOrder = defineCheck({
  id: 'voltage-order',
  title: 'DC voltages out of order',
  severity: 'error',
  run(view) {
    const [min, nominal, max] = ['min', 'nominal', 'max'].map((name) => view.may(asPath(`specimen/dc-voltage/${name}`)))
    const findings: Finding[] = []
    const wrong = (name: string, what: string): void => {
      findings.push({ path: `specimen/dc-voltage/${name}`, what, mend: 'read the label again: min ≤ nominal ≤ max' })
    }
    if (nominal !== undefined && max !== undefined && nominal > max)
      wrong('nominal', `nominal ${nominal} V is above the maximum ${max} V`)
    if (min !== undefined && nominal !== undefined && min > nominal)
      wrong('min', `minimum ${min} V is above the nominal ${nominal} V`)
    return findings
  },
})

const capacitorRating = defineCheck({
  id: 'capacitor-rating',
  title: 'Link capacitor rated below the link',
  severity: 'warning',
  run(view) {
    const max = view.may(asPath('specimen/dc-voltage/max'))
    const division = known(view, () => view.model(linkDivision, SPECIMEN.paths[0]!))
    if (max === undefined || !division) return []
    return [...division].flatMap(([piece, share]): readonly Finding[] => {
      const rated = view.may(asPath(`${piece}/rated-voltage`))
      const seen = share * max
      if (rated === undefined || rated >= seen) return []
      return [
        {
          path: `${piece}/rated-voltage`,
          what: `rated ${rated} V where it sees up to ${seen.toFixed(0)} V (link capacitors are rated above that: common practice)`,
          mend: 'read the marking again, or see whether two stand in series',
        },
      ]
    })
  },
})

const openTerminal = defineCheck({
  id: 'terminal-on-no-net',
  title: 'A terminal whose net was not traced',
  severity: 'question',
  run: (view) =>
    view.find({ ask: 'open-terminals' }).paths.map(
      (path): Finding => ({
        path,
        what: 'is on no net: nobody looked where it goes',
        mend: 'trace it with a continuity tester on the dead unit, or write not applicable where it goes nowhere',
      }),
    ),
})

export const netChecks = [driverPerSwitch, voltageOrder, capacitorRating, openTerminal] as const
