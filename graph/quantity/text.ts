import { refuse } from './reading.ts'

/** A text with one spelling for each sign, read from left to right. `where` leads back to the offset as typed. */
export interface Cursor {
  readonly typed: string
  readonly text: string
  at: number
  readonly where: (at: number) => number
  readonly warnings: string[]
}

/** Longest text that is read as a quantity. */
const LONGEST = 2000

/** Nothing in it needs another spelling. */
const SIMPLE = /^[ -~°±µΩ²³×·≈≤≥⁻¹]*$/

export function cursorOf(typed: string): Cursor {
  if (typed.length > LONGEST)
    refuse(0, `the text is ${typed.length} characters long`, `a quantity and its note fit in ${LONGEST}`)
  if (SIMPLE.test(typed)) return { typed, text: typed, at: 0, where: (at) => at, warnings: [] }
  return respelt(typed)
}

const SPELT: Readonly<Record<string, string>> = {
  μ: 'µ',
  '\u2126': 'Ω',
  '\u212b': 'Å',
  º: '°',
  '˚': '°',
  '⋅': '·',
  '•': '·',
  '∙': '·',
  '‧': '·',
  '∕': '/',
  '…': '..',
  '≦': '≤',
  '≧': '≥',
  '∼': '~',
  '～': '~',
  '≃': '≈',
  '≅': '≈',
  '✕': '×',
  '⨯': '×',
  '℃': '°C',
  '℉': '°F',
  '\t': ' ',
  '\n': ' ',
  '\r': ' ',
}

function respelt(typed: string): Cursor {
  let text = ''
  const columns: number[] = []
  let wide = false
  for (let at = 0; at < typed.length; at++) {
    const sign = typed[at] ?? ''
    let written = SPELT[sign] ?? plain(sign, at)
    if (/[\uff01-\uff5e]/.test(sign)) wide = true
    if (/[½¼¾⅓⅔⅛⅜⅝⅞]/.test(sign) && /\d$/.test(text)) written = ` ${written}`
    text += written
    for (let i = 0; i < written.length; i++) columns.push(at)
  }
  const where = (at: number) => columns[at] ?? typed.length
  return { typed, text, at: 0, where, warnings: wide ? [`full-width characters read as "${text}"`] : [] }
}

function plain(sign: string, at: number): string {
  const code = sign.charCodeAt(0)
  if (
    code < 0x20 ||
    (code >= 0x7f && code < 0xa0) ||
    /[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/.test(sign)
  ) {
    refuse(
      at,
      `an invisible character (U+${code.toString(16).toUpperCase().padStart(4, '0')}) stands in the text`,
      'type it again without',
    )
  }
  if (/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/.test(sign)) return ' '
  if (/[\u2010-\u2015\u2212\ufe63]/.test(sign)) return '-'
  if (code >= 0xff01 && code <= 0xff5e) return String.fromCharCode(code - 0xfee0)
  if (/[½¼¾⅓⅔⅛⅜⅝⅞㍱-㏟]/.test(sign)) return sign.normalize('NFKC').replace('⁄', '/').replaceAll('μ', 'µ')
  return sign === '⁄' ? '/' : sign
}

export function skipBlanks(cursor: Cursor): void {
  while (cursor.text[cursor.at] === ' ') cursor.at += 1
}

/** Steps over a pattern (sticky) and gives what it matched. */
export function take(cursor: Cursor, pattern: RegExp): string | null {
  pattern.lastIndex = cursor.at
  const found = pattern.exec(cursor.text)
  if (!found) return null
  cursor.at += found[0].length
  return found[0]
}

/** Whether a pattern (sticky) matches here. */
export function sees(cursor: Cursor, pattern: RegExp): boolean {
  pattern.lastIndex = cursor.at
  return pattern.test(cursor.text)
}
