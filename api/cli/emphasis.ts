import pc from 'picocolors'
import { plainText } from './plain-text.ts'

/**
 * Commands mark what stands out; only the terminal turns marks into colour codes, after it has neutralised everything
 * else. So no text of a sheet can bring a code of its own through.
 */
const OPEN = '\ue000'
const CLOSE = '\ue001'
const MARKED = /\ue000([a-z])([^\ue001]*)\ue001/g

const { bold, dim, red, yellow, green } = pc.createColors(true)
const CODES: Readonly<Record<string, (text: string) => string>> = { b: bold, d: dim, r: red, y: yellow, g: green }

const marks =
  (code: string) =>
  (text: string): string =>
    `${OPEN}${code}${text}${CLOSE}`

export const strong = marks('b')
export const faint = marks('d')
export const bad = marks('r')
export const doubtful = marks('y')
export const good = marks('g')

/** Text for the screen: neutralised, marks as colour or as nothing. */
export function rendered(text: string, colour: boolean): string {
  return plainText(text).replace(MARKED, (_, code: string, inner: string) => {
    const paint = CODES[code]
    return colour && paint ? paint(inner) : inner
  })
}
