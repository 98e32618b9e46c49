import { Writable } from 'node:stream'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bad, strong } from '../../../api/cli/emphasis.ts'
import { openTerminal, type Terminal, type TerminalOptions } from '../../../api/cli/terminal.ts'

class Sink extends Writable {
  text = ''
  readonly isTTY: boolean
  readonly columns: number | undefined
  constructor(isTTY: boolean, columns?: number) {
    super()
    this.isTTY = isTTY
    this.columns = columns
  }
  override _write(chunk: Buffer, _encoding: string, done: () => void): void {
    this.text += chunk.toString()
    done()
  }
}

const ESC = '\u001b'
const COLOUR = new RegExp(`${ESC}\\[\\d+m`, 'g')

function terminal(
  tty: boolean,
  options: Partial<TerminalOptions> = {},
): Terminal & { readonly out: Sink; readonly err: Sink } {
  const [out, err] = [new Sink(tty, tty ? 90 : undefined), new Sink(tty)]
  const opened = openTerminal({
    stdout: out as never,
    stderr: err as never,
    env: {},
    json: false,
    colour: true,
    ...options,
  })
  return { ...opened, out, err }
}

describe('terminal', () => {
  // The convention of no-color.org: set and not empty means none.
  it.each([
    ['on a terminal', true, {}, {}, true],
    ['not in a pipe', false, {}, {}, false],
    ['not under NO_COLOR', true, { NO_COLOR: '1' }, {}, false],
    ['an empty NO_COLOR says nothing', true, { NO_COLOR: '' }, {}, true],
    ['not on a dumb terminal', true, { TERM: 'dumb' }, {}, false],
    ['in a pipe under FORCE_COLOR', false, { FORCE_COLOR: '1' }, {}, true],
    ['NO_COLOR wins over FORCE_COLOR', true, { NO_COLOR: '1', FORCE_COLOR: '1' }, {}, false],
    ['not with --no-color', true, {}, { colour: false }, false],
  ])('colours %s', (_name, tty, env, more, coloured) => {
    const one = terminal(tty, { env, ...more })
    one.print(`${strong('figure')} ${bad('MISSING')}`)
    expect(one.out.text.includes(ESC)).toBe(coloured)
    expect(one.out.text).toContain('figure')
  })

  it('lets no escape sequence of a text through, coloured or not', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), fc.boolean(), (text, tty) => {
        const one = terminal(tty)
        one.print(text)
        one.say(text)
        // Only our own colour codes may remain: take them away and no control character is left.
        const rest = `${one.out.text}${one.err.text}`.replaceAll(COLOUR, '')
        expect(rest).not.toMatch(/[^\P{Cc}\n\t]/u)
      }),
    )
  })

  it('keeps standard output for one document under --json', () => {
    const one = terminal(false, { json: true })
    one.print('for a person')
    one.say('a message')
    one.document({ value: new Map([['a', new Set([1])]]) })
    expect(JSON.parse(one.out.text)).toEqual({ value: { a: [1] } })
    expect(one.err.text).toBe('a message\n')
  })

  it('writes no document without --json', () => {
    const one = terminal(false)
    one.document({ a: 1 })
    expect(one.out.text).toBe('')
  })

  it('takes the width of the terminal, else of COLUMNS, else a common one', () => {
    expect(terminal(true).width).toBe(90)
    expect(terminal(false, { env: { COLUMNS: '72' } }).width).toBe(72)
    expect(terminal(false).width).toBe(120)
  })
})
