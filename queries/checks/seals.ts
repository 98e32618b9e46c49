import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { hazardousNets } from '../figures/potential.ts'
import { figureById } from '../figures/registry.ts'
import { type Check, defineCheck, type Finding } from './check.ts'

const leaks = defineCheck({
  id: 'seal-above-live-parts',
  title: 'A coolant joint that could leak onto live parts',
  severity: 'warning',
  run(view) {
    const live = new Set(hazardousNets(view).flatMap((net) => view.find({ ask: 'on-net', net }).paths))
    return view.find({ ask: 'parts' }).paths.flatMap((seal): readonly Finding[] => {
      const wetted = view.find({ ask: 'leaks-towards', part: seal }).paths.filter((part) => isLive(view, part, live))
      if (wetted.length === 0) return []
      const passages = view.find({ ask: 'sealed-by', part: seal }).paths
      return [
        {
          path: seal,
          what: `seals ${passages.join(', ') || 'coolant'} and would leak towards ${wetted.join(', ')}, which carries hazardous voltage`,
          mend: 'say in a finding how a leak is led away or found in time; prove the circuit tight before anything is energised, by local codes and licensed practice',
        },
      ]
    })
  },
})

/** Whether a part, or anything inside it, has a terminal on a hazardous net. */
function isLive(view: View, part: Path, live: ReadonlySet<Path>): boolean {
  const pieces = [part, ...view.find({ ask: 'pieces', of: part }).paths]
  return pieces.some(
    (piece) =>
      live.has(piece) || view.find({ ask: 'inside', part: piece }).paths.some((held) => isLive(view, held, live)),
  )
}

/** Usual for a static face seal (common practice, as in ISO 3601-2, from memory) [%]. */
const USUAL = { O_RING_SQUEEZE: [15, 30], O_RING_FILL: [50, 85] } as const

const unusual = (metric: keyof typeof USUAL, id: string, title: string, mend: string): Check =>
  defineCheck({
    id,
    title,
    severity: 'question',
    run: (view, evaluator) =>
      view.find({ ask: 'parts', class: 'o-ring' }).paths.flatMap((path): readonly Finding[] => {
        const { value, low, high } = evaluator.evaluate(figureById(metric), path)
        const [least, most] = USUAL[metric]
        if (value === null || low === null || high === null || (high >= least && low <= most)) return []
        const what = `${value.toFixed(0)} % where ${least} to ${most} % is usual for a static face seal (common practice)`
        return [{ path, what, mend }]
      }),
  })

export const sealChecks = [
  leaks,
  unusual(
    'O_RING_SQUEEZE',
    'o-ring-squeeze',
    'O-ring squeezed more or less than usual',
    'measure cord and groove again: a set or swollen ring is not the one that was fitted',
  ),
  unusual(
    'O_RING_FILL',
    'o-ring-fill',
    'O-ring fills its groove more or less than usual',
    'measure the width of the groove again: swelling rubber needs room',
  ),
] as const
