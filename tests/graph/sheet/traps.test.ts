import { describe, expect, it } from 'vitest'
import { readSheet } from '../../../graph/sheet/read.ts'
import { sheetText } from '../../fixtures/record.ts'

const head = sheetText({ basis: 'judged' })
const lines = head.split('\n').length - 1

const complaintsOf = (text: string) => {
  const read = readSheet(head + text, 'trap.yaml')
  return 'record' in read ? [] : read.complaints.map((one) => ({ ...one, line: one.line - lines }))
}

// What the notation makes of each, by its own rules (YAML 1.2.2: 5.3 indicators, 6.6 comments, 7.3.3 plain style, 7.4 flow
// style, 8.1 block scalars): another structure, lost text, or an error that does not name the cause.
const traps: readonly {
  readonly name: string
  readonly text: string
  readonly at: readonly [line: number, column: number]
  readonly what: RegExp
  readonly mend: RegExp
}[] = [
  {
    name: '> at the start',
    text: 'ambient:\n  air: > 40 °C\n',
    at: [2, 8],
    what: /starts with >/,
    mend: /above 40 °C/,
  },
  {
    name: '> that would fold to nothing',
    text: 'ambient:\n  air: >9\n',
    at: [2, 8],
    what: /starts with >/,
    mend: /above 9/,
  },
  {
    name: '> in braces',
    text: 'ambient: { air: > 40 °C }\n',
    at: [1, 17],
    what: /starts with >/,
    mend: /"above 40 °C"/,
  },
  { name: '| at the start', text: 'loan:\n  lender: |2\n', at: [2, 11], what: /starts with \|/, mend: /quote/ },
  { name: '% at the start', text: 'loan:\n  lender: %5\n', at: [2, 11], what: /starts with %/, mend: /quote/ },
  { name: '@ at the start', text: 'loan: { lender: @5 }\n', at: [1, 17], what: /starts with @/, mend: /quote/ },
  { name: '` at the start', text: 'loan: { lender: `a` }\n', at: [1, 17], what: /starts with `/, mend: /quote/ },
  { name: '! at the start', text: 'loan: { lender: !a b }\n', at: [1, 17], what: /tag/, mend: /quote/ },
  { name: '* at the start', text: 'loan: { lender: *a }\n', at: [1, 17], what: /alias/, mend: /quote/ },
  { name: '& at the start', text: 'loan: { lender: &a b }\n', at: [1, 17], what: /anchor/, mend: /quote/ },
  {
    name: 'a basis behind a comma in braces',
    text: 'parts:\n  - { id: a, class: screw, mass: 9.35 kg, measured }\n',
    at: [2, 43],
    what: /"measured" became a key/,
    mend: /mass: 9\.35 kg \(measured\)/,
  },
  {
    name: 'a decimal comma in braces',
    text: 'parts:\n  - { id: a, class: screw, mass: 9,35 kg }\n',
    at: [2, 36],
    what: /"9,35 kg" was parted/,
    mend: /mass: 9\.35 kg/,
  },
  {
    name: 'a basis in a list',
    text: 'parts:\n  - { id: a, class: screw, mass: [9.35 kg, measured] }\n',
    at: [2, 44],
    what: /"measured" stands as an entry/,
    mend: /9\.35 kg \(measured\)/,
  },
  {
    name: 'a comma in the brackets of a note',
    text: 'parts:\n  - { id: a, class: screw, mass: 5 g (measured, with caliper) }\n',
    at: [2, 34],
    what: /torn apart/,
    mend: /semicolons: \(measured; with caliper\)/,
  },
  {
    name: 'a place in brackets in braces',
    text: 'parts:\n  - { id: a, class: screw, at: (0, 120, 250) mm }\n',
    at: [2, 32],
    what: /torn apart/,
    mend: /at: 0 \/ 120 \/ 250 mm/,
  },
  {
    name: 'a number sign in a marking',
    text: 'parts:\n  - id: a\n    class: screw\n    marking: AB #12\n',
    at: [4, 17],
    what: /" #" ends the unquoted text "AB"/,
    mend: /quote it: "AB #1/,
  },
  {
    name: 'the same in braces, where it eats the brace',
    text: 'parts:\n  - { id: a, class: screw, marking: AB #12 }\n',
    at: [2, 40],
    what: /" #" ends the unquoted text "AB"/,
    mend: /quote it/,
  },
  {
    name: 'a colon in a text',
    text: 'loan:\n  lender: Link: front\n',
    at: [2, 15],
    what: /second ": "/,
    mend: /quote the whole/,
  },
  {
    name: 'a colon in a text in braces',
    text: 'loan: { lender: Link: front }\n',
    at: [1, 21],
    what: /second ": "/,
    mend: /quote/,
  },
  { name: 'a tab in front', text: 'loan:\n\tlender: a\n', at: [2, 1], what: /tab/, mend: /blanks/ },
  {
    name: 'a key twice',
    text: 'ambient: { air: 1 °C, air: 2 °C }\n',
    at: [1, 23],
    what: /stands twice.*"air"/,
    mend: /list/,
  },
  {
    name: 'a brace left open',
    text: 'ambient: { air: 40 °C\nloan: { back: 2026 }\n',
    at: [1, 10],
    what: /never closed/,
    mend: /}/,
  },
  {
    name: 'the wrong bracket',
    text: 'ambient: { air: 40 °C ]\n',
    at: [1, 23],
    what: /"]" closes the "{" of line/,
    mend: /}/,
  },
  {
    name: 'a quote left open',
    text: 'loan: { lender: "a }\n',
    at: [1, 17],
    what: /quote \("\) is never closed/,
    mend: /close it/,
  },
  {
    name: 'a key without a value',
    text: 'ambient:\n  air:\n',
    at: [2, 3],
    what: /"air" has no value/,
    mend: /not looked for/,
  },
  { name: 'two sheets in one file', text: '---\nlidoff: 1\n', at: [1, 1], what: /two sheets/, mend: /one file/ },
  { name: 'a key marked by ?', text: '? a\n: b\n', at: [1, 1], what: /marked by "\?"/, mend: /key: value/ },
  {
    name: 'a line that stands askew',
    text: 'loan:\n  lender: a\n   back: b\n',
    at: [3, 8],
    what: /./,
    mend: /column|": "/,
  },
]

describe('what the notation spoils is told in our words', () => {
  it.each(traps)('$name', ({ text, at, what, mend }) => {
    const complaints = complaintsOf(text)
    expect(complaints).toHaveLength(1)
    const [{ line, column, ...first }] = complaints as [(typeof complaints)[0]]
    expect(first.what).toMatch(what)
    expect(first.mend).toMatch(mend)
    expect([line, column]).toEqual(at)
  })
})

describe('what is no trap', () => {
  it.each([
    ['a number sign without a blank', 'loan: { lender: AB#12 }\n'],
    ['a quoted number sign', 'parts: [{ id: a, class: screw, marking: "AB #12" }]\n'],
    ['a remark behind a quantity', 'ambient: { air: 40 °C (assumed) } # as in the hall\n'],
    ['a colon without a blank', 'loan: { lender: a:b }\n'],
    ['folded text', 'loan:\n  lender: >\n    a: b\n    #c\n'],
    ['literal text', 'loan:\n  lender: |-\n    { a\n    *b\n  back: 2026-01-01\n'],
    ['brackets and signs inside a text', 'loan: { lender: a*b&c!d%e@f>g|h? }\n'],
    ['quotes inside a text', 'loan:\n  lender: the "old" one, don\'t ask\n'],
    ['a minus and a bound', 'parts: [{ id: a, class: screw, at: -1 / -2 / 3 mm, mass: <5 g }]\n'],
    ['both line ends', 'loan:\r\n  lender: a\r\n'],
    ['three dashes in front', ''],
  ])('%s', (_, text) => {
    expect(complaintsOf(text)).toEqual([])
  })

  it('is JSON', () => {
    const json = JSON.stringify({
      lidoff: 1,
      id: 'a',
      title: 'b',
      specimen: { kind: 'combined', mass: '5 kg (measured)' },
    })
    expect('record' in readSheet(json, 'a.json')).toBe(true)
  })
})
