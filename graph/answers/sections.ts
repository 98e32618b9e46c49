import type { NodeKind } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { thingPath } from '../record/thing-path.ts'
import { answerOf, type Context } from './context.ts'

export function kindPaths({ graph }: Context, kind: NodeKind): Found {
  return answerOf(graph.filterNodes((_, node) => node.kind === kind).map(asPath))
}

export function spacings({ record }: Context, kind?: string): Found {
  const all = record.sheet.spacings ?? []
  return answerOf(
    all.filter((one) => kind === undefined || one.kind === kind).map((one) => asPath(`spacings/${one.id}`)),
    [],
    false,
  )
}

/** The two nets of a distance, in one order whichever was typed first. */
export function spacingBetween({ record }: Context, spacing: Path): Found {
  const one = record.sheet.spacings?.find(({ id }) => `spacings/${id}` === spacing)
  return answerOf([...(one?.between ?? [])].sort().map((net) => asPath(`nets/${net}`)))
}

/** Kind of insulation a distance is for, as one word, or the part that it lies on; none when it is not said. */
export function spacingWord({ record }: Context, spacing: Path, ask: 'insulation-of' | 'lies-on'): Found {
  const one = record.sheet.spacings?.find(({ id }) => `spacings/${id}` === spacing)
  if (ask === 'insulation-of') return answerOf(one?.insulation === undefined ? [] : [asPath(one.insulation)])
  const reference = one?.on === undefined ? undefined : record.parts.refer(one.on)
  return answerOf(reference && 'entry' in reference ? [record.parts.pathOf(reference)] : [])
}

export function observations({ record }: Context): Found {
  return answerOf((record.sheet.observed ?? []).map(({ id }) => asPath(`observed/${id}`)))
}

/** Id of the figure that was observed, or the canonical path of what it is about. */
export function aboutObserved({ record }: Context, observed: Path, ask: 'observed-metric' | 'observed-subject'): Found {
  const one = record.sheet.observed?.find(({ id }) => `observed/${id}` === observed)
  if (!one) return answerOf([])
  if (ask === 'observed-metric') return answerOf([asPath(one.metric)])
  const reference = record.parts.refer(one.subject)
  return answerOf(['entry' in reference ? record.parts.pathOf(reference) : thingPath(record, one.subject)])
}

/** Paths of the entries of a section that figures choose from. */
export function section({ record }: Context, name: string): Found {
  const { sheet } = record
  if (name === 'boundaries') return answerOf((sheet.boundaries ?? []).map(({ id }) => asPath(`boundaries/${id}`)))
  if (name === 'rated-ports') {
    const rated = Object.entries(sheet.specimen.ports ?? {}).filter(([, port]) => port.rated === true)
    return answerOf(
      rated.map(([id]) => asPath(`specimen/ports/${id}`)),
      [],
      false,
    )
  }
  return answerOf([], [], false)
}
