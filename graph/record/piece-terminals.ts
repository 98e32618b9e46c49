import type { Part } from './part.ts'
import type { Piece } from './part-index.ts'
import type { Terminal } from './terminal.ts'

/** A terminal of one physical piece, its net named in full. */
export interface PieceTerminal extends Terminal {
  readonly name: string
}

/** Terminals of one piece: those of the entry, those of its own `each` before them, stars resolved. */
export function terminalsOfPiece(part: Part, piece: Piece): readonly PieceTerminal[] {
  const own = part.each?.[piece.picks.get(part.id) ?? '']?.terminals
  if (!part.terminals && !own) return []
  return Object.entries({ ...part.terminals, ...own }).map(([name, terminal]) => {
    if (terminal.net === undefined || !terminal.net.includes('*')) return { ...terminal, name }
    return { ...terminal, name, net: starred(terminal.net, piece) }
  })
}

/** The net whose metal a piece is, if any. */
export function metalNetOf(part: Part, piece: Piece): string | undefined {
  const net = part.each?.[piece.picks.get(part.id) ?? '']?.net ?? part.net
  return net === undefined ? undefined : starred(net, piece)
}

/** A star is the name of the piece, or of the innermost thing around it that comes in several pieces. */
export function starred(text: string, piece: Piece): string {
  return text.includes('*') ? text.replaceAll('*', starOf(piece) ?? '*') : text
}

function starOf({ entry, picks }: Piece): string | undefined {
  for (let here: Piece['entry'] | null = entry; here; here = here.parent) {
    const pick = picks.get(here.id)
    if (pick !== undefined) return pick
  }
  return undefined
}
