/** One thing wrong in a sheet, and what mends it. A reading collects them all; nothing is stored if there is one. */
export interface Complaint {
  readonly file: string
  /** 1-based, as editors count. */
  readonly line: number
  readonly column: number
  readonly path: string
  readonly what: string
  readonly mend: string
}

/** Longest piece of a source line that is shown, and longest message. */
const LINE = 120
const MESSAGE = 400

/**
 * A complaint for a person, with the line it is about:
 *
 *     ferry-7-drive.yaml:4:5  parts/link-cap: unknown key "capacitence"
 *             capacitence: 130 µF ± 10 %, marked
 *             ^ did you mean "capacitance"? …
 *
 * @param text the sheet as typed; without it the line is left out
 */
export function printComplaint(complaint: Complaint, text?: string): string {
  const { file, line, column, path, what, mend } = complaint
  const place = `${plain(file)}:${line}:${column}`
  const head = `${place}  ${path === '' ? '' : `${plain(path)}: `}${plain(what)}`
  const source = text === undefined ? undefined : lineOf(text, line)
  if (source === undefined || source.trim() === '') return `${head}\n        ${plain(mend)}`
  const { shown, caret } = window(source, column)
  return `${head}\n        ${plain(shown)}\n        ${' '.repeat(caret)}^ ${plain(mend)}`
}

function lineOf(text: string, line: number): string | undefined {
  let from = 0
  for (let n = 1; n < line; n++) {
    const end = text.indexOf('\n', from)
    if (end < 0) return undefined
    from = end + 1
  }
  const end = text.indexOf('\n', from)
  return text.slice(from, Math.min(end < 0 ? text.length : end, from + 100_000))
}

/** The part of a line round a column, without its indentation. */
function window(line: string, column: number): { shown: string; caret: number } {
  const indent = line.length - line.trimStart().length
  const at = Math.max(0, column - 1)
  if (line.length - indent <= LINE) return { shown: line.slice(Math.min(indent, at)), caret: at - Math.min(indent, at) }
  const from = Math.max(Math.min(indent, at), at - LINE / 2)
  const start = from > indent ? '…' : ''
  return { shown: `${start}${line.slice(from, from + LINE)}…`, caret: at - from + start.length }
}

/** Control and direction characters as visible marks: a sheet never moves the cursor of whoever reads about it. */
export function plain(text: string, most = MESSAGE): string {
  const cut = text.length > most ? `${text.slice(0, most)}…` : text
  return cut.replaceAll(/[\p{Cc}\u200b-\u200f\u2028\u2029\u202a-\u202e\u2060-\u2069\ufeff]/gu, '\ufffd')
}
