import { stringify } from 'csv-stringify/sync'

export type Cell = string | number | null

/** What a spreadsheet takes for the beginning of a formula, after any apostrophes that stand there already. */
const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/

/** One line of CSV (RFC 4180). Text that a spreadsheet would run is neutralised; numbers are left alone. */
export function csvLine(cells: readonly Cell[]): string {
  return stringify([cells.map((cell) => (typeof cell === 'string' ? neutralised(cell) : cell))], {
    record_delimiter: 'windows',
    // A lone line feed is no end of a record here, and would be one to whoever reads the table.
    quoted_match: /[\r\n]/,
  })
}

/** A leading apostrophe makes it text. One more is put before those that were written, so that nothing is lost on the way back. */
export function neutralised(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text
}

/** What was written, from what a table holds. */
export function restored(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell
}
