import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineCheck, type Finding } from './check.ts'

const dieOnSubstrate = defineCheck({
  id: 'die-larger-than-substrate',
  title: 'A die larger than what carries it',
  severity: 'error',
  run(view) {
    const dies = view.find({ ask: 'parts', class: 'power-die' }).paths
    return dies.flatMap((die): readonly Finding[] => {
      const carriers = above(view, die).flatMap((holder) => [
        holder,
        ...view.find({ ask: 'entries-inside', part: holder }).paths.filter((path) => path !== die),
      ])
      const own = areaOf(view, die)
      if (own === undefined) return []
      const small = carriers.filter(
        (carrier) => (areaOf(view, carrier) ?? Number.POSITIVE_INFINITY) < own && isCarrier(view, carrier),
      )
      return small.map((carrier) => ({
        path: asPath(`${die}/size`),
        what: `its area is larger than that of ${carrier}`,
        mend: 'measure both again: is one of them in another unit of measure?',
      }))
    })
  },
})

/** What holds a part, and what holds that. */
function above(view: View, part: Path): readonly Path[] {
  const parent = view.find({ ask: 'parent', part }).paths[0]
  return parent === undefined ? [] : [parent, ...above(view, parent)]
}

function isCarrier(view: View, path: Path): boolean {
  return ['ceramic-substrate', 'half-bridge-module', 'discrete-power-device'].some((name) =>
    view.find({ ask: 'parts', class: name }).paths.includes(path),
  )
}

function areaOf(view: View, part: Path): number | undefined {
  const length = view.may(asPath(`${part}/size/length`))
  const width = view.may(asPath(`${part}/size/width`))
  return length === undefined || width === undefined ? undefined : length * width
}

/** Creepage runs along a surface between the same two conductors, so it is never shorter than the straight line in air. */
const creepageBelowClearance = defineCheck({
  id: 'creepage-below-clearance',
  title: 'Creepage shorter than clearance',
  severity: 'error',
  run(view) {
    const creepages = view.find({ ask: 'spacings', kind: 'creepage' }).paths
    return creepages.flatMap((creepage): readonly Finding[] => {
      const pair = view.find({ ask: 'spacing-between', spacing: creepage }).paths.join()
      const own = view.may(asPath(`${creepage}/distance`))
      const clearances = view
        .find({ ask: 'spacings', kind: 'clearance' })
        .paths.filter((other) => view.find({ ask: 'spacing-between', spacing: other }).paths.join() === pair)
      const longer = clearances.filter(
        (other) => (view.may(asPath(`${other}/distance`)) ?? 0) > (own ?? Number.POSITIVE_INFINITY),
      )
      return longer.map((other) => ({
        path: asPath(`${creepage}/distance`),
        what: `is shorter than the clearance ${other} between the same conductors, which cannot be (IEC 60664-1)`,
        mend: 'measure both again: a slot lengthens creepage, never shortens it',
      }))
    })
  },
})

export const plausibilityChecks = [dieOnSubstrate, creepageBelowClearance] as const
