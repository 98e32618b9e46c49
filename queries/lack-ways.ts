import { type Lack, leaves } from '../graph/lack.ts'

/** The fewest gaps that fill a lack when all of them are filled. */
export function fewest(lack: Lack): readonly Lack[] {
  if ('allOf' in lack) return distinct(lack.allOf.flatMap(fewest))
  if ('anyOf' in lack) return shortest(lack.anyOf.map(fewest))
  return [lack]
}

/** The fewest gaps that fill a lack, one of them chosen: what else is needed with it. Undefined when it is none of them. */
export function fewestWith(lack: Lack, chosen: (leaf: Lack) => boolean): readonly Lack[] | undefined {
  if ('anyOf' in lack) {
    const ways = lack.anyOf.flatMap((one) => [fewestWith(one, chosen) ?? []].filter(({ length }) => length > 0))
    return ways.length > 0 ? shortest(ways) : undefined
  }
  if ('allOf' in lack) {
    if (!leaves(lack).some(chosen)) return undefined
    return distinct(lack.allOf.flatMap((one) => fewestWith(one, chosen) ?? fewest(one)))
  }
  return chosen(lack) ? [lack] : undefined
}

const shortest = (ways: readonly (readonly Lack[])[]): readonly Lack[] =>
  ways.reduce((best, way) => (way.length < best.length ? way : best), ways[0] ?? [])

const distinct = (lacks: readonly Lack[]): readonly Lack[] => [
  ...new Map(lacks.map((one) => [JSON.stringify(one), one])).values(),
]
