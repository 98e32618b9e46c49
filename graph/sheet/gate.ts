import { Buffer } from 'node:buffer'

/** Something wrong with the text itself, before any of it is understood. */
export interface TextTrouble {
  readonly line: number
  readonly column: number
  readonly what: string
  readonly mend: string
}

/** Largest sheet [bytes], deepest nesting, most complaints about the bare text. */
export const LARGEST = 2_000_000
const DEEPEST = 64
const MOST = 20

/**
 * Refuses what no sheet needs and a parser could choke on (size, depth, anchors, tags, directives), and says in plain words
 * what a slip with a sign of the notation would otherwise become. One pass over the text, quotes and comments respected.
 */
export function gate(text: string): readonly TextTrouble[] {
  if (text.length > LARGEST || Buffer.byteLength(text) > LARGEST) {
    const what = `the sheet is ${(text.length / 1e6).toFixed(1)} MB long; up to 2 MB are read`
    return [{ line: 1, column: 1, what, mend: 'split it, and keep long tables out of it' }]
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: looking for them is the purpose
  const control = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.exec(text)
  if (control) {
    const code = control[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')
    return [
      {
        ...placeAt(text, control.index),
        what: `a control character (U+${code}) stands in the text`,
        mend: 'delete it',
      },
    ]
  }
  return new Scanner(text).run()
}

export function placeAt(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1
  let start = 0
  for (let end = text.indexOf('\n'); end >= 0 && end < offset; end = text.indexOf('\n', end + 1)) {
    line += 1
    start = end + 1
  }
  return { line, column: offset - start + 1 }
}

const BRACKETS: Readonly<Record<string, string>> = { '[': ']', '{': '}' }

const REFUSED: Readonly<Record<string, readonly [what: string, mend: string]>> = {
  '&': ['a value that starts with & (an anchor)', 'quote it; sheets need no anchors'],
  '*': ['a value that starts with * (an alias)', 'quote it; in a reference the star is never first'],
  '!': ['a value that starts with ! (a tag)', 'quote it; sheets need no tags'],
  '%': ['a value that starts with %', 'quote it'],
  '@': ['a value that starts with @', 'quote it'],
  '`': ['a value that starts with `', 'quote it'],
}

/** Goes through the text once. Mutable for the length of one call, and known to nobody else. */
class Scanner {
  readonly text: string
  readonly troubles: TextTrouble[] = []
  readonly open: { readonly sign: string; readonly at: number }[] = []
  /** Columns of the block levels the scanner is in. */
  readonly levels: number[] = []
  at = 0
  /** A value may start here. */
  fresh = true
  /** The value in hand is a plain one behind a key, outside brackets. */
  behindKey = false
  /** Where the last quoted text ended. */
  quoteEnd = -1
  stopped = false

  constructor(text: string) {
    this.text = text
  }

  run(): readonly TextTrouble[] {
    if (this.text.startsWith('\ufeff')) this.at = 1
    while (this.at < this.text.length && !this.stopped) this.line()
    const left = this.open[0]
    if (left && !this.stopped)
      this.say(
        left.at,
        `"${left.sign}" is never closed`,
        `close it with "${BRACKETS[left.sign]}"; a # or a quote inside may have swallowed the end`,
      )
    return this.troubles
  }

  say(at: number, what: string, mend: string): void {
    this.troubles.push({ ...placeAt(this.text, at), what, mend })
    if (this.troubles.length >= MOST) this.stopped = true
  }

  line(): void {
    const start = this.at
    const end = lineEnd(this.text, start)
    while (this.text[this.at] === ' ') this.at += 1
    this.fresh = true
    this.behindKey = false
    if (this.open.length === 0) this.blockStart(start)
    while (this.at < end && !this.stopped) this.token(end)
    if (this.at >= end && this.at <= end) this.at = end + 1
  }

  /** Depth by indentation; a directive or a tab in front. */
  blockStart(start: number): void {
    const column = this.at - start
    const sign = this.text[this.at]
    if (sign === undefined || sign === '\n' || sign === '\r' || sign === '#') return
    if (column === 0 && sign === '%') {
      this.say(this.at, 'a directive (%YAML, %TAG)', 'leave it out: sheets are YAML 1.2')
      this.stopped = true
      return
    }
    if (sign === '\t' && lineText(this.text, start).trim() !== '') {
      this.say(this.at, 'a tab in the indentation', 'indent with blanks')
      this.stopped = true
      return
    }
    while (this.levels.length > 0 && (this.levels.at(-1) as number) >= column) this.levels.pop()
    this.levels.push(column)
    this.deep()
  }

  deep(): void {
    if (this.levels.length + this.open.length <= DEEPEST) return
    this.say(this.at, `nested more than ${DEEPEST} deep`, 'no sheet needs that: look for a bracket or a dash too many')
    this.stopped = true
  }

  token(end: number): void {
    const { text } = this
    const sign = text[this.at] as string
    if (sign === ' ' || sign === '\t' || sign === '\r') this.at += 1
    else if (sign === '#' && (this.at === 0 || /\s/.test(text[this.at - 1] ?? ' '))) this.at = end
    else if (sign === '[' || sign === '{') this.bracket(sign)
    else if (this.open.length > 0 && (sign === ']' || sign === '}')) this.unbracket(sign)
    else if (this.open.length > 0 && sign === ',') this.next()
    else if (this.fresh && (sign === '"' || sign === "'")) this.quoted(sign)
    else if (sign === ':' && this.endsKey()) this.next(true)
    else if (this.fresh && sign === '-' && this.open.length === 0 && isBlank(text[this.at + 1])) this.dash()
    else if (this.fresh && sign === '?' && isBlank(text[this.at + 1]))
      this.refuse(end, 'a key marked by "?"', 'write key: value')
    else if (this.fresh && Object.hasOwn(REFUSED, sign))
      this.refuse(end, ...(REFUSED[sign] as readonly [string, string]))
    else if (this.fresh && (sign === '>' || sign === '|')) this.blockText(end, sign)
    else this.plain(end)
  }

  next(key = false): void {
    if (key && this.behindKey) {
      this.say(this.at, 'a second ": " in one value', 'quote the whole value')
      this.at = this.valueEnd(lineEnd(this.text, this.at))
      return
    }
    this.at += 1
    this.fresh = true
    this.behindKey = key
  }

  /** A colon ends a key when a blank or the end follows; inside brackets also behind a quote. */
  endsKey(): boolean {
    const after = this.text[this.at + 1]
    if (isBlank(after)) return true
    return this.open.length > 0 && (this.at === this.quoteEnd || /[,\]}[{]/.test(after ?? ' '))
  }

  bracket(sign: string): void {
    if (!this.fresh) {
      this.at += 1
      if (this.open.length === 0) return
      this.say(this.at - 1, `"${sign}" inside a value`, 'quote the value')
      this.stopped = true
      return
    }
    this.open.push({ sign, at: this.at })
    this.behindKey = false
    this.at += 1
    this.deep()
  }

  unbracket(sign: string): void {
    const opened = this.open.pop()
    if (opened && BRACKETS[opened.sign] !== sign) {
      const { line } = placeAt(this.text, opened.at)
      this.say(
        this.at,
        `"${sign}" closes the "${opened.sign}" of line ${line}`,
        `close it with "${BRACKETS[opened.sign]}" first`,
      )
      this.stopped = true
    }
    this.at += 1
    this.fresh = false
    this.behindKey = false
  }

  quoted(sign: string): void {
    const start = this.at
    this.at += 1
    for (;;) {
      const close = this.text.indexOf(sign, this.at)
      if (close < 0) {
        this.say(start, `a quote (${sign}) is never closed`, 'close it at the end of the text')
        this.stopped = true
        return
      }
      this.at = close + 1
      if (sign === "'" && this.text[this.at] === "'") this.at += 1
      else if (sign === "'" || !escaped(this.text, close)) break
    }
    this.quoteEnd = this.at
    this.fresh = false
  }

  dash(): void {
    this.levels.push(this.at - this.text.lastIndexOf('\n', this.at) - 1 + 1)
    this.at += 1
    this.deep()
  }

  refuse(end: number, what: string, mend: string): void {
    this.say(this.at, what, mend)
    this.at = this.valueEnd(end)
  }

  /** Where a value that cannot be read probably ends: at the end of the line, inside brackets at the next sign of theirs. */
  valueEnd(end: number): number {
    this.fresh = false
    const found = this.open.length > 0 ? this.text.slice(this.at, end).search(/[,\]}]/) : -1
    return found < 0 ? end : this.at + found
  }

  /** Folded or literal text is fine when nothing follows the sign; otherwise the sign was meant as words. */
  blockText(end: number, sign: string): void {
    const header = this.text.slice(this.at, end)
    if (this.open.length > 0 || !/^[|>][+-]?\s*(?:#.*)?$/.test(header)) {
      const words =
        sign === '>'
          ? `write "above ${header
              .slice(1)
              .split(/[,}\]]/)[0]
              ?.trim()
              .slice(0, 20)}", or quote it`
          : 'quote it'
      this.refuse(end, `a value that starts with ${sign}`, words)
      return
    }
    const parent = this.levels.at(-1) ?? 0
    this.at = end + 1
    while (this.at < this.text.length) {
      const next = lineEnd(this.text, this.at)
      const line = this.text.slice(this.at, next)
      if (line.trim() !== '' && line.length - line.trimStart().length <= parent) break
      this.at = next + 1
    }
    this.at -= 1
  }

  /** Steps over plain words to the next sign that could end them. */
  plain(end: number): void {
    const stop = this.open.length > 0 ? /[,:#[\]{}]/g : /[:#]/g
    this.fresh = false
    stop.lastIndex = this.at + 1
    const found = stop.exec(this.text)
    this.at = found && found.index < end ? found.index : end
  }
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from)
  return end < 0 ? text.length : end
}

function lineText(text: string, from: number): string {
  return text.slice(from, lineEnd(text, from))
}

const isBlank = (sign: string | undefined): boolean =>
  sign === undefined || sign === ' ' || sign === '\n' || sign === '\r' || sign === '\t'

/** Whether a quote is written with an odd number of backslashes in front. */
function escaped(text: string, quote: number): boolean {
  let slashes = 0
  while (text[quote - 1 - slashes] === '\\') slashes += 1
  return slashes % 2 === 1
}
