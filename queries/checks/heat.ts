import { describeLack } from '../../graph/lack.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { RUNAWAY } from '../figures/heat/network.ts'
import { hazardousNets } from '../figures/potential.ts'
import { figureById } from '../figures/registry.ts'
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

/** Sizes of what coolant flows through and wets. */
const WETTED = ['wetted-area', 'film-coefficient'] as const
const FLOWN = [
  'width',
  'height',
  'length',
  'diameter',
  'channels',
  'pipes',
  'gaps',
  'gap',
  'rows',
  'pins',
  'jets',
] as const

function wettedSizes(view: View): readonly Path[] {
  return view.find({ ask: 'passages' }).paths.flatMap((passage) => {
    const form = view.find({ ask: 'form-of', passage }).paths[0]
    const coolings = view
      .find({ ask: 'cooled-by', passage })
      .paths.flatMap((face) => view.find({ ask: 'cooling-of', passage, face }).paths)
    return [
      ...coolings.flatMap((cooling) => WETTED.map((name) => asPath(`${cooling}/${name}`))),
      ...(form === undefined ? [] : FLOWN.map((name) => asPath(`${passage}/${form}/${name}`))),
    ]
  })
}

const zeroSize = defineCheck({
  id: 'heat-path-of-zero',
  title: 'A layer, face or passage of zero area, size, conductivity or resistance',
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
    return [...paths, ...wettedSizes(view)]
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

const runaway = defineCheck({
  id: 'thermal-runaway',
  title: 'Losses that grow faster with temperature than their heat can leave',
  severity: 'error',
  run: (view, evaluator) =>
    view
      .find({ ask: 'heat-sources' })
      .paths.filter((piece) => view.may(asPath(`${piece}/loss-coefficient`)) !== undefined)
      .flatMap((piece): readonly Finding[] => {
        const { missing } = evaluator.evaluate(figureById('JUNCTION_TEMPERATURE'), piece)
        const said = missing.map(describeLack).find((text) => text.includes(RUNAWAY))
        if (said === undefined) return []
        return [
          {
            path: piece,
            what: said,
            mend: 'check the loss coefficient and the resistances below the part; if they are right, it cannot run so: never try it on the bench unguarded',
          },
        ]
      }),
})

export const heatChecks = [sourceWithoutPath, liveWithoutBarrier, zeroSize, strayHeat, runaway] as const
