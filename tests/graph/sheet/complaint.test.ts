import { describe, expect, it } from 'vitest'
import { printComplaint } from '../../../graph/sheet/complaint.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { sheetText } from '../../fixtures/record.ts'

const place = {
  file: 'ferry.yaml',
  line: 2,
  column: 5,
  path: 'parts/link-cap',
  what: 'unknown key "x"',
  mend: 'did you mean "y"?',
}

describe('printComplaint', () => {
  it('shows the line with a mark under the place', () => {
    expect(printComplaint(place, 'a: 1\n    x: 130 µF, marked\n')).toBe(
      [
        'ferry.yaml:2:5  parts/link-cap: unknown key "x"',
        '        x: 130 µF, marked',
        '        ^ did you mean "y"?',
      ].join('\n'),
    )
  })

  it('shows a window of a long line, the mark still under the place', () => {
    const line = `  - { ${'a: 1, '.repeat(60)}wrong: 2, ${'b: 1, '.repeat(60)}}`
    const column = line.indexOf('wrong') + 1
    const [, shown = '', mark = ''] = printComplaint({ ...place, line: 1, column }, line).split('\n')
    expect(shown.length).toBeLessThan(140)
    expect(shown.slice(mark.indexOf('^'))).toMatch(/^wrong: 2/)
  })

  it('never moves the cursor of whoever reads it', () => {
    const text = 'a: \u001b[31mred\u202eback\u0007\u2028end'
    const printed = printComplaint(
      { ...place, line: 1, column: 1, what: text, mend: text, path: text, file: text },
      text,
    )
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that there are none is what is checked
    expect(printed.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028\u202e]/)
  })

  it('stays short whatever a sheet holds', () => {
    const long = 'x'.repeat(100_000)
    expect(printComplaint({ ...place, what: long, mend: long, path: long }, long).length).toBeLessThan(2000)
  })

  it('leaves the line out when there is none', () => {
    expect(printComplaint({ ...place, line: 99 }, 'a: 1')).not.toContain('^')
    expect(printComplaint(place)).not.toContain('^')
  })
})

describe('places of complaints', () => {
  const at = (text: string) => {
    const read = readSheet(text, 'a.yaml')
    if ('record' in read) return []
    return read.complaints.map(({ line, column, path }) => ({
      found: text.split('\n')[line - 1]?.slice(column - 1, column + 5),
      path,
    }))
  }

  it.each([
    ['behind a key', 'ambient: { air: 40 mm }', 'mm }', 'ambient/air'],
    ['in a quoted text', 'ambient: { air: "40 mm" }', 'mm" }', 'ambient/air'],
    ['in the second claim of a list', 'ambient: { air: [ 40 °C, 40 mm ] }', 'mm ] }', 'ambient/air'],
    ['in the long form', 'ambient: { air: { value: 40 mm, basis: judged } }', 'mm, ba', 'ambient/air'],
    [
      'in a condition',
      'parts: [{ id: a, class: power-die, gate-charge: { value: 5 nC, at: { swing: 5 mm } } }]',
      'mm } }',
      'parts/a/gate-charge',
    ],
    ['of a piece', 'parts: [{ id: a, class: screw, each: { u: { mass: 5 mm } } }]', 'mm } }', 'parts/a.u/mass'],
    [
      'of a piece in a list',
      'parts: [{ id: a, class: screw, each: [ {}, { mass: 5 mm } ] }]',
      'mm } ]',
      'parts/a.2/mass',
    ],
    [
      'of a part inside one that repeats',
      'parts: [{ id: a, class: assembly, count: 2, parts: [{ id: b, class: screw, mass: 5 mm }] }]',
      'mm }] ',
      'parts/a/b/mass',
    ],
    [
      'of a part inside one that does not',
      'parts: [{ id: a, class: assembly, parts: [{ id: b, class: screw, mass: 5 mm }] }]',
      'mm }] ',
      'parts/b/mass',
    ],
    ['of a face', 'parts: [{ id: a, class: case, faces: { deck: { area: 5 mm } } }]', 'mm } }', 'parts/a/deck/area'],
    ['of an unknown key', 'parts: [{ id: a, class: screw, mas: 5 g }]', 'mas: 5', 'parts/a'],
    ['of a passage', 'coolant: { passages: [{ id: low, fins: { gap: 5 s } }] }', 's } }]', 'coolant/low/fins/gap'],
    ['of an entry without an id', 'joints: [{ between: [a, b], resistance: 5 mm }]', 'mm }]', 'joints/a~b/resistance'],
  ])('%s', (_, line, found, path) => {
    expect(at(`${sheetText()}${line}\n`)).toContainEqual({ found: found.slice(0, 6), path })
  })
})
