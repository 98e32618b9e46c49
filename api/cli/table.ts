import { strong } from './emphasis.ts'
import { plainLine } from './plain-text.ts'

/** One column: its head (with the unit of measure), and how its cells stand. */
export interface Column<Row> {
  readonly head: string
  readonly cell: (row: Row) => string
  /** `point` lines numbers up on the decimal point. */
  readonly align?: 'left' | 'right' | 'point'
  /** A column that gives way first when the terminal is narrow. */
  readonly wraps?: boolean
}

const GAP = 2
const NARROWEST_WRAP = 14

/** A table in plain lines that fits the terminal: head, then rows. */
export function table<Row>(columns: readonly Column<Row>[], rows: readonly Row[], width: number): string {
  const cells = columns.map((column) => {
    const texts = rows.map((row) => plainLine(column.cell(row)))
    return alignColumn(column, texts)
  })
  const widths = widthsWithin(columns, cells, width)
  const layout = { widths, rights: columns.map(({ align = 'left' }) => align !== 'left') }
  const head = columns.map(({ head }) => head)
  const body = rows.flatMap((_, at) =>
    linesOf(
      cells.map((column) => column[at]!),
      layout,
    ),
  )
  return [...linesOf(head, layout).map(strong), ...body].join('\n')
}

interface Layout {
  readonly widths: readonly number[]
  readonly rights: readonly boolean[]
}

/** One row: as many lines as its tallest cell has. */
function linesOf(cells: readonly string[], { widths, rights }: Layout): readonly string[] {
  const wrapped = cells.map((cell, at) => wrap(cell, widths[at]!))
  const height = Math.max(...wrapped.map((lines) => lines.length))
  return Array.from({ length: height }, (_, line) => {
    const parts = wrapped.map((lines, at) => {
      const text = lines[line] ?? ''
      return rights[at] ? text.padStart(widths[at]!) : text.padEnd(widths[at]!)
    })
    return parts.join(' '.repeat(GAP)).trimEnd()
  })
}

/** Pads numbers so that their points stand under each other. */
function alignColumn<Row>({ align }: Column<Row>, cells: readonly string[]): readonly string[] {
  if (align !== 'point') return cells
  const tails = cells.map((cell) => fraction(cell).length)
  const longest = Math.max(0, ...tails)
  return cells.map((cell, at) => (cell === '' ? cell : cell + ' '.repeat(longest - tails[at]!)))
}

/** From the decimal point of the first number on; a cell without one has none. */
function fraction(cell: string): string {
  const match = /^[^\d]*\d+/.exec(cell)
  return match ? cell.slice(match[0].length) : ''
}

/** Natural widths, and what is over taken from the columns that may wrap, the widest first. */
function widthsWithin<Row>(
  columns: readonly Column<Row>[],
  cells: readonly (readonly string[])[],
  width: number,
): number[] {
  const widths = columns.map(({ head }, at) => Math.max(head.length, ...cells[at]!.map((cell) => cell.length)))
  const total = (): number => widths.reduce((sum, one) => sum + one, 0) + GAP * (widths.length - 1)
  const wrapping = columns.flatMap(({ wraps }, at) => (wraps ? [at] : []))
  for (let over = total() - width; over > 0; over--) {
    const widest = wrapping.reduce((best, at) => (widths[at]! > widths[best]! ? at : best), wrapping[0] ?? 0)
    if (wrapping.length === 0 || widths[widest]! <= NARROWEST_WRAP) break
    widths[widest]! -= 1
  }
  return widths
}

/** Lines of at most `width` (1 and more) characters: parted at blanks, a longer word after its last slash, hyphen or point that fits. */
export function wrap(text: string, width: number): readonly string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ')) {
    let rest = word
    if (line !== '' && line.length + 1 + rest.length <= width) {
      line += ` ${rest}`
      continue
    }
    if (line !== '') lines.push(line)
    while (rest.length > Math.max(1, width)) {
      const cut = breakAt(rest, width)
      lines.push(rest.slice(0, cut))
      rest = rest.slice(cut)
    }
    line = rest
  }
  return [...lines, line]
}

function breakAt(word: string, most: number): number {
  const width = Math.max(1, most)
  const part = word.slice(0, width)
  const last = Math.max(part.lastIndexOf('/'), part.lastIndexOf('-'), part.lastIndexOf('.'))
  return last > 0 ? last + 1 : width
}
