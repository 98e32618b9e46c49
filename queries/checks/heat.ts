import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { hazardousNets } from '../figures/potential.ts'
import { defineCheck, type Finding } from './check.ts'

const sourceWithoutPath = defineCheck({
  id: 'source-without-path',
  title: 'A heat source with no way to coolant or ambient',
  severity: 'warning',
  run: (view) =>
    view
      .find({ ask: 'heat-sources' })
      .paths.filter((piece) => givesHeat(view, piece) && view.find({ ask: 'heat-ends', piece }).paths.length === 0)
      .map(
        (piece): Finding => ({
          path: piece,
          what: 'has a loss on record and no heat path that ends in a passage, ambient or the frame',
          mend: 'follow the layers below it and add a path under heat, or write where its heat goes as ambient',
        }),
      ),
})

/** A loss with a number or to be computed; where nobody looked for it, nothing is to be led away yet. */
function givesHeat(view: View, piece: Path): boolean {
  const paths = ['loss', 'loss/peak', 'loss/continuous'].map((name) => asPath(`${piece}/${name}`))
  return paths.some((path) => view.may(path) !== undefined || view.mayWord(path) === 'computed')
}

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

/** Sizes that heat crosses, and what stands in for them: none of them can be zero. */
const CROSSED = ['thickness', 'conductivity', 'area', 'resistance'] as const

const zeroSize = defineCheck({
  id: 'heat-path-of-zero',
  title: 'A layer or face of zero area, conductivity or resistance',
  severity: 'error',
  run(view) {
    const layers = view
      .find({ ask: 'heat-paths' })
      .paths.flatMap((path) => [path, ...view.find({ ask: 'heat-layers', path }).paths])
    const parts = layers.flatMap((layer) => view.find({ ask: 'layer-part', layer }).paths)
    const faces = view
      .find({ ask: 'parts' })
      .paths.flatMap((entry) =>
        view.find({ ask: 'pieces', of: entry }).paths.flatMap((part) => view.find({ ask: 'faces', part }).paths),
      )
    const paths = [...new Set([...layers, ...parts, ...faces])].flatMap((place) =>
      CROSSED.map((name) => asPath(`${place}/${name}`)),
    )
    return paths
      .filter((path) => (view.may(path) ?? 1) <= 0)
      .map(
        (path): Finding => ({
          path,
          what: `is ${view.may(path)}: no heat path has that`,
          mend: 'measure it again, or write not looked for when nobody did',
        }),
      )
  },
})

const strayHeat = defineCheck({
  id: 'loss-that-grows-without-reference',
  title: 'A loss that grows with temperature, from no temperature on',
  severity: 'warning',
  run: (view) =>
    view
      .find({ ask: 'heat-sources' })
      .paths.filter((piece) => view.may(asPath(`${piece}/loss-coefficient`)) !== undefined)
      .filter((piece) => !REFERENCES.some((name) => view.may(asPath(`${piece}/${name}`)) !== undefined))
      .map(
        (piece): Finding => ({
          path: piece,
          what: 'its loss grows with temperature, but not from a stated one on',
          mend: 'write the loss as { value: …, at: { junction: … } }',
        }),
      ),
})

const REFERENCES = ['loss', 'loss/peak', 'loss/continuous'].flatMap((loss) => [
  `${loss}/at/junction`,
  `${loss}/at/temperature`,
])

export const heatChecks = [sourceWithoutPath, liveWithoutBarrier, zeroSize, strayHeat] as const
