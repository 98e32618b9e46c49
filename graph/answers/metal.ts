import { partsById } from '../build/parts.ts'
import { startsOf } from '../build/resolve.ts'
import { fillStar } from '../build/star.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import type { Part } from '../record/part.ts'
import { answerOf, type Context } from './context.ts'
import { entryOf } from './parts.ts'

export function shapeOf(context: Context, part: Path): Found {
  const typed = typedPart(context, part)
  return answerOf(typed?.run ? [asPath('run')] : typed?.plate ? [asPath('plate')] : [], [], false)
}

/** `run/from`, the points on the way, `run/to`; of the bar that is repeated when the run is `along` another. */
export function runPoints(context: Context, part: Path): Found {
  const typed = typedPart(context, part)
  const along = typed?.run?.along
  if (along !== undefined) {
    const other = pathOfPart(context, along, part)
    return other === undefined ? answerOf([]) : runPoints(context, other)
  }
  if (!typed?.run) return answerOf([])
  const points = ['from', ...Object.keys(typed.run.via ?? {}).map((id) => `via/${id}`), 'to']
  return answerOf(points.map((point) => asPath(`${part}/run/${point}`)))
}

export function flatOf(context: Context, part: Path): Found {
  const typed = typedPart(context, part)
  const along = typed?.run?.along
  const flat =
    typed?.flat ??
    (along === undefined ? undefined : typedPart(context, pathOfPart(context, along, part) ?? part)?.flat)
  return answerOf(flat === undefined ? [] : [asPath(flat)], [], false)
}

/** The neighbour and the side, e.g. `parts/bar-plus` and `+z`. */
export function beside(context: Context, part: Path): Found {
  const stated = typedPart(context, part)?.beside
  const other = stated && pathOfPart(context, stated.part, part)
  return answerOf(stated && other ? [other, asPath(stated.side)] : [])
}

export function holesOf(context: Context, part: Path): Found {
  return answerOf(
    (typedPart(context, part)?.plate?.holes ?? []).map((hole) => asPath(`${part}/plate/holes/${hole.id}`)),
  )
}

/** Conductors that pass through a core or sensor, as parts. */
export function goesRound(context: Context, part: Path): Found {
  const named = typedPart(context, part)?.round ?? []
  return answerOf(
    named.flatMap((text) => piecesNamed(context, text, part)),
    [],
    false,
  )
}

/** Whether the values of an entry are for one die, for the switch that its dies make, or for one piece. */
export function valuesFor(context: Context, part: Path): Found {
  const per = typedPart(context, part)?.per
  return answerOf(per === undefined ? [] : [asPath(per)])
}

/** An entry as typed, with what one piece has of its own. */
function typedPart(context: Context, part: Path): Part | undefined {
  const entry = entryOf(context, part)
  const id = context.record.parts.entries.find((one) => one.path === entry)?.id
  const typed = id === undefined ? undefined : partsById(context.record).get(id)
  const own = typed?.each?.[/\.([^/.]+)$/.exec(part)?.[1] ?? '']
  return typed && own ? { ...typed, ...own } : typed
}

/** What one piece names; a star is its own name. */
function pathOfPart({ record }: Context, text: string, piece: Path): Path | undefined {
  const reference = record.parts.refer(fillStar(text, pickOf(piece)))
  return 'entry' in reference ? record.parts.pathOf(reference) : undefined
}

/** All pieces of it, where none is named. */
function piecesNamed({ record }: Context, text: string, piece: Path): readonly Path[] {
  const filled = fillStar(text, pickOf(piece))
  return 'entry' in record.parts.refer(filled) ? startsOf(record, filled).map((start) => start.piece.path) : []
}

/** Name of a piece, or of the nearest thing around it that comes in pieces. */
export function pickOf(piece: Path): string | undefined {
  return /^.*\.([^/.]+)(?:\/|$)/.exec(piece)?.[1]
}
