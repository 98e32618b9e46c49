import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
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
    if (min !== undefined && nominal === undefined && max !== undefined && min > max)
      wrong('min', `minimum ${min} V is above the maximum ${max} V`)
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

const TWO_ENDED = ['capacitor', 'bleed-resistor', 'resistor'] as const

const bothEnds = defineCheck({
  id: 'both-ends-on-one-net',
  title: 'A part with both ends on one net',
  severity: 'error',
  run: (view) =>
    piecesOf(view, TWO_ENDED).flatMap((piece): readonly Finding[] => {
      const ends = ['plus', 'minus', '1', '2'].flatMap(
        (terminal) => view.find({ ask: 'net-of', piece, terminal }).paths,
      )
      if (ends.length !== 2 || ends[0] !== ends[1]) return []
      return [
        {
          path: piece,
          what: `has both terminals on ${ends[0]}: it would be shorted`,
          mend: 'trace its terminals again',
        },
      ]
    }),
})

const LINK_CLASSES = ['dc-link-film-capacitor'] as const

const offTheLink = defineCheck({
  id: 'link-capacitor-off-the-rails',
  title: 'A link capacitor that stands on no way from rail to rail',
  severity: 'question',
  run(view) {
    const rails = view.find({ ask: 'rails' }).paths
    if (rails.length !== 2) return []
    const between = view.find({ ask: 'capacitors-between', nets: [rails[0]!, rails[1]!] }).paths
    return piecesOf(view, LINK_CLASSES)
      .filter((piece) => !between.includes(piece) && !onAnotherLink(view, piece))
      .map(
        (piece): Finding => ({
          path: piece,
          what: `is of a link class, but leads from ${view.find({ ask: 'terminals', piece }).paths.join(' to ')}, not from rail to rail: no figure of the link counts it`,
          mend: 'trace its terminals again, or give it the class of what it is (filter-film-capacitor)',
        }),
      )
  },
})

/** Between two other nets of high voltage: of a battery port, say; or not traced to two nets, which is asked elsewhere. */
function onAnotherLink(view: View, piece: Path): boolean {
  const ends = view.find({ ask: 'terminals', piece }).paths
  const live = ends.filter((net) => view.find({ ask: 'potential', net }).paths.some((one) => one.startsWith('hv-')))
  return ends.length !== 2 || live.length === 2
}

function piecesOf(view: View, classes: readonly string[]): readonly Path[] {
  const entries = classes.flatMap((name) => view.find({ ask: 'parts', class: name }).paths)
  return [...new Set(entries.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths))]
}

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

export const netChecks = [driverPerSwitch, voltageOrder, capacitorRating, bothEnds, offTheLink, openTerminal] as const
