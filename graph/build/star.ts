import type { Piece } from '../record/part-index.ts'

/** Name that a star stands for on a piece: its own, else that of the nearest ancestor that comes in several. */
export function starOf({ entry, picks }: Piece): string | undefined {
  for (let up: Piece['entry'] | null = entry; up; up = up.parent) {
    const name = picks.get(up.id)
    if (name !== undefined) return name
  }
  return undefined
}

/** `phase-*` on piece v is `phase-v`. A star that nothing stands for is left as typed. */
export function fillStar(text: string, name: string | undefined): string {
  return name === undefined ? text : text.replaceAll('*', name)
}

/** What the star stands for when a text fits a pattern with one star; undefined when it does not fit. */
export function matchStar(pattern: string, text: string): string | undefined {
  const star = pattern.indexOf('*')
  if (star < 0) return undefined
  const head = pattern.slice(0, star)
  const tail = pattern.slice(star + 1)
  const fits = text.length > head.length + tail.length && text.startsWith(head) && text.endsWith(tail)
  return fits ? text.slice(head.length, text.length - tail.length) : undefined
}
