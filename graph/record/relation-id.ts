import { lastSlugOf, pairSlug, placeSlug, slugOf } from './ids.ts'

/** Ids that are derived from content where none is given. Two equal ones are an error that asks for one. */
export const idOfHeat = (from: string, to: string): string => `${lastSlugOf(from)}~${lastSlugOf(to)}`
export const idOfPair = (between: readonly string[]): string => pairSlug(between[0] ?? '', between[1] ?? '')
export const idOfFace = slugOf
export const idOfPoint = placeSlug
export const idOfPhoto = (file: string): string => slugOf((file.split('/').at(-1) ?? file).replace(/\.[a-z0-9]+$/i, ''))
export const idOfList = (things: readonly string[]): string => things.map(slugOf).toSorted().join('~')
export const idOfMetric = (metric: string, subject: string): string =>
  subject === 'specimen' ? slugOf(metric) : `${slugOf(metric)}~${slugOf(subject.replace(/^[a-z-]+\//, ''))}`
export const idOfCensus = (of: string, across: readonly string[] = []): string =>
  [slugOf(of), ...across.map(slugOf).toSorted()].join('~')
export const idOfSpacing = (kind: string, between: readonly string[]): string => `${kind}~${idOfPair(between)}`
export const idOfStep = (provesDead: boolean, takes: readonly string[] = ['nothing']): string =>
  provesDead ? 'prove-dead' : `off-${takes.map(slugOf).join('-')}`
export const idOfLayer = (part: string | undefined, kind = 'layer'): string =>
  part === undefined ? slugOf(kind) : lastSlugOf(part)
