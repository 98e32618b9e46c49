import { asPath } from '../../graph/quantity/quantity.ts'
import { hazardousNets } from '../figures/potential.ts'
import { defineCheck, type Finding } from './check.ts'

const sourceWithoutPath = defineCheck({
  id: 'source-without-path',
  title: 'A heat source with no way to coolant or ambient',
  severity: 'warning',
  run: (view) =>
    view
      .find({ ask: 'heat-sources' })
      .paths.filter((piece) => view.find({ ask: 'heat-ends', piece }).paths.length === 0)
      .map(
        (piece): Finding => ({
          path: piece,
          what: 'has a loss on record and no heat path that ends in a passage, ambient or the frame',
          mend: 'follow the layers below it and add a path under heat, or write where its heat goes as ambient',
        }),
      ),
})

/** A path from a part on a live net to the frame or to coolant needs a barrier in it. */
const liveWithoutBarrier = defineCheck({
  id: 'live-path-without-barrier',
  title: 'A heat path from a live net to the frame without an insulating layer',
  severity: 'warning',
  run(view) {
    const live = new Set(hazardousNets(view).flatMap((net) => view.find({ ask: 'on-net', net }).paths))
    return view.find({ ask: 'heat-paths' }).paths.flatMap((path): readonly Finding[] => {
      const start = view.find({ ask: 'piece-of', node: view.find({ ask: 'heat-start', path }).paths[0]! }).paths[0]
      if (start === undefined || !live.has(start)) return []
      const insulated = view.find({ ask: 'barrier-on', path }).paths.length > 0
      const grounded = view.find({ ask: 'ends-grounded', path }).paths.length > 0
      if (insulated || !grounded) return []
      return [
        {
          path: asPath(path),
          what: 'leads from a part on a hazardous net to the frame or a cooler, and no layer of it is marked as insulating',
          mend: 'find the barrier (sheet, ceramic, film) and write insulating: yes on its layer; isolation is a matter for a qualified person',
        },
      ]
    })
  },
})

export const heatChecks = [sourceWithoutPath, liveWithoutBarrier] as const
