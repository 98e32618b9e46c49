import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { driverCount, switchCount } from '../traits/bridge.ts'
import { defineCheck, type Finding } from './check.ts'

/** Classes whose job is to keep the live side and the low-voltage side apart. */
const ISOLATING: readonly string[] = [
  'isolated-gate-driver',
  'isolated-amplifier',
  'gate-supply-transformer',
  'transformer',
  'current-sensor',
  'voltage-sensing-chain',
  'y-capacitor',
]

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

const bridging = defineCheck({
  id: 'bridging-part',
  title: 'A part that is not of an isolating class joins hazardous and low voltage',
  severity: 'warning',
  run(view) {
    const live = hazardousNets(view)
    const low = new Set(view.find({ ask: 'nets', potential: 'low-voltage' }).paths)
    const lowPieces = new Set([...low].flatMap((net) => view.find({ ask: 'on-net', net }).paths))
    const both = [...new Set(live.flatMap((net) => view.find({ ask: 'on-net', net }).paths))].filter((piece) =>
      lowPieces.has(piece),
    )
    const isolating = new Set(ISOLATING.flatMap((name) => piecesOf(view, name)))
    return both
      .filter((piece) => !isolating.has(piece))
      .map(
        (piece): Finding => ({
          path: piece,
          what: 'has terminals on a hazardous net and on a low-voltage net, and is not of an isolating class',
          mend: 'check its terminals, or give the class that says how it isolates',
        }),
      )
  },
})

/** Nets whose potential is hazardous, and those that ride on them. */
export function hazardousNets(view: View): readonly Path[] {
  return ['hv-positive', 'hv-negative', 'hv-middle', 'hv-switching'].flatMap(
    (potential) => view.find({ ask: 'nets', potential }).paths,
  )
}

function piecesOf(view: View, name: string): readonly Path[] {
  return view
    .find({ ask: 'parts', class: name })
    .paths.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths)
}

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
    const rails = view.find({ ask: 'rails' }).paths
    if (max === undefined || rails.length !== 2) return []
    const pieces = view.find({ ask: 'across', nets: [rails[0]!, rails[1]!], class: 'capacitor' }).paths
    return pieces.flatMap((piece): readonly Finding[] => {
      const rated = view.may(asPath(`${piece}/rated-voltage`))
      if (rated === undefined || rated >= max) return []
      return [
        {
          path: `${piece}/rated-voltage`,
          what: `rated ${rated} V across a link of up to ${max} V (link capacitors are rated above it: common practice)`,
          mend: 'read the marking again, or see whether two stand in series',
        },
      ]
    })
  },
})

export const netChecks = [driverPerSwitch, bridging, voltageOrder, capacitorRating] as const
