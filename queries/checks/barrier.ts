import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { hazardousNets, lowNets } from '../figures/potential.ts'
import { vertexCut } from '../physics/vertex-cut.ts'
import { defineCheck, type Finding } from './check.ts'

/** Classes that keep the live side and the low-voltage side apart inside of themselves. */
const ISOLATING: readonly string[] = [
  'isolated-gate-driver',
  'isolated-amplifier',
  'gate-supply-transformer',
  'transformer',
  'current-sensor',
  'voltage-sensing-chain',
  'y-capacitor',
  'contactor',
  'power-connector',
  'interlock-switch',
]

/** Of those, the ones that a stated isolation voltage belongs to. */
const RATED: readonly string[] = [
  'isolated-gate-driver',
  'isolated-amplifier',
  'gate-supply-transformer',
  'transformer',
]

const [LIVE, LOW] = ['live', 'low'] as const

/**
 * Pieces and the nets that join them, brought down to pieces: two are neighbours when they share a net that is neither
 * hazardous nor low-voltage, and those on such a net are neighbours of its whole side.
 */
function neighbours(view: View, pieces: ReadonlySet<Path>): readonly (readonly [string, string])[] {
  const live = new Set(hazardousNets(view))
  const low = new Set(lowNets(view))
  return view.find({ ask: 'nets' }).paths.flatMap((net): readonly (readonly [string, string])[] => {
    const on = view.find({ ask: 'on-net', net }).paths.filter((piece) => pieces.has(piece))
    if (live.has(net)) return on.map((piece) => [LIVE, piece])
    if (low.has(net)) return on.map((piece) => [piece, LOW])
    if (net === asPath('nets/chassis')) return []
    return on.flatMap((a, at) => on.slice(at + 1).map((b) => [a, b] as const))
  })
}

function piecesOf(view: View, classes: readonly string[]): readonly Path[] {
  return classes.flatMap((name) =>
    view.find({ ask: 'parts', class: name }).paths.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths),
  )
}

const bridging = defineCheck({
  id: 'bridging-part',
  title: 'A part that is not of an isolating class joins hazardous and low voltage',
  severity: 'warning',
  run(view) {
    const isolating = new Set(piecesOf(view, ISOLATING))
    const all = view.find({ ask: 'nets' }).paths.flatMap((net) => view.find({ ask: 'on-net', net }).paths)
    const edges = neighbours(view, new Set(all.filter((piece) => !isolating.has(piece))))
    if (!edges.some(([a]) => a === LIVE) || !edges.some(([, b]) => b === LOW)) return []
    const cut = vertexCut({ edges, from: [LIVE], to: [LOW] }) ?? []
    return cut.map(
      (piece): Finding => ({
        path: piece,
        what: 'lies on a way from a hazardous net to a low-voltage net on which no part is of an isolating class (smallest cut)',
        mend: 'check its terminals, or give the class that says how it isolates; isolation is for a qualified person to judge',
      }),
    )
  },
})

const unrated = defineCheck({
  id: 'barrier-without-rating',
  title: 'A part across the isolation barrier without an isolation voltage on record',
  severity: 'question',
  run(view) {
    const live = new Set(hazardousNets(view))
    const low = new Set(lowNets(view))
    const across = piecesOf(view, RATED).filter((piece) => {
      const nets = view.find({ ask: 'terminals', piece }).paths
      return nets.some((net) => live.has(net)) && nets.some((net) => low.has(net))
    })
    const entries = new Set(
      across
        .filter((piece) => view.may(asPath(`${piece}/isolation`)) === undefined)
        .map((piece) => piece.replace(/\.[^/]*/g, '')),
    )
    return [...entries].map((entry) => ({
      path: `${entry}/isolation`,
      what: 'bridges hazardous and low voltage, and no isolation voltage is on record for it',
      mend: 'look its marking up in its maker’s literature, or write not looked for',
    }))
  },
})

export const barrierChecks = [bridging, unrated] as const
