import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readSheet } from '../../../graph/sheet/read.ts'
import { exampleSheet } from '../../fixtures/example-sheet.ts'
import { formatPage } from '../../fixtures/format-page.ts'
import { sheetText } from '../../fixtures/record.ts'

const read = (text: string) => {
  const found = readSheet(text, 'sheet.yaml')
  if ('record' in found) return found
  throw new Error(found.complaints.map(({ line, what, mend }) => `${line}: ${what} (${mend})`).join('\n'))
}
const seeds = new URL('../../../seeds/', import.meta.url)

describe('readSheet', () => {
  it('takes in the complete example of the format without a word', () => {
    const { record, warnings } = read(exampleSheet)
    expect(record.id).toBe('sweeper-14-auxiliary')
    expect(warnings).toEqual([])
    // Counted in the sheet by hand: 1+1+1+4+4+8+1+2+2+6+2+1+1+4+2+1+4+1+2+22.
    expect(record.parts.entries).toHaveLength(20)
    const pieces = record.parts.entries.flatMap((entry) => record.parts.piecesOf(entry))
    expect(pieces).toHaveLength(70)
  })

  it('takes in every example of the page that defines the format', () => {
    expect(() => read(formatPage)).not.toThrow()
  })

  it.each(readdirSync(seeds).filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml'))(
    'takes in the demo sheet %s',
    (name) => {
      expect(() => read(readFileSync(new URL(name, seeds), 'utf8'))).not.toThrow()
    },
  )

  it('keeps every scalar as it was typed', () => {
    const markings = [
      '15E2621',
      '0012',
      '1.50',
      '0x1F',
      'null',
      '~',
      'yes',
      'no',
      '12:30',
      '1_000',
      '.nan',
      '9007199254740993',
    ]
    const parts = markings.map((marking, n) => ({ id: `p${n}`, class: 'screw', marking }))
    const lines = parts.map(({ id, marking }) => `  - { id: ${id}, class: screw, marking: ${marking} }`)
    const { record } = read(`${sheetText()}parts:\n${lines.join('\n')}\n`)
    const seen = parts.map(({ id }) => record.facts.get(`parts/${id}/marking` as never)?.taken.word)
    expect(seen).toEqual(markings)
  })

  it('prints back how each quantity was read', () => {
    const { readings } = read(`${sheetText()}ambient: { air: 40 ± 2 °C (assumed) }\n`)
    expect(readings).toHaveLength(1)
    expect(readings[0]).toMatchObject({ path: 'ambient/air', text: '40 ± 2 °C (assumed)' })
    // A rectangle of half-width a has a/√3 (JCGM 100:2008 4.3.7): 2/√3 = 1.15.
    expect(readings[0]?.read).toMatch(/1\.15?|1\.2/)
  })

  it('says what holds where no tolerance is written', () => {
    const { readings } = read(
      `${sheetText({ instruments: { balance: { kind: 'balance', serial: '7', uncertainty: '± 0.2 %', resolution: '1 g' } } })}${[
        'parts:',
        '  - { id: a, class: case, mass: 870 g (measured; with balance), thickness: 2 mm (judged), size: 9 x 8 mm (judged) }',
        '  - { id: b, class: screw, count: 4, length: { readings: [12.41 mm, 12.38 mm, 12.44 mm], basis: measured } }',
      ].join('\n')}\n`,
    )
    const how = (path: string) => readings.find((one) => one.path === path)?.read
    expect(how('parts/a/mass')).toBe('no tolerance written: scale of balance 7 and half a step of balance 7')
    expect(how('parts/a/thickness')).toMatch(/^no tolerance written: default of judged: ± 15 %/)
    expect(how('parts/a/size')).toMatch(/size of 2 sides; no tolerance written: default of judged/)
    expect(how('parts/b/count/built')).toBe('taken as it stands, without doubt')
    // s = 0.03 mm, s/√3 = 0.0173 mm (JCGM 100:2008 4.2.3).
    expect(how('parts/b/length')).toBe(
      'mean of 3 readings; standard uncertainty of the mean 0.017 mm, 2 degrees of freedom',
    )
  })

  it('tells everything that is wrong at once, in the order of the sheet', () => {
    const text = `${sheetText()}${[
      'parts:',
      '  - { id: a, class: screw, mas: 5 g, size: 5 mm }',
      '  - { id: b, class: bleed-resistor, resistance: 5 kX, terminals: { 1: dc, 3: x } }',
      'joints:',
      '  - { between: [a, zz] }',
    ].join('\n')}\n`
    const found = readSheet(text, 'sheet.yaml')
    if ('record' in found) throw new Error('was taken in')
    const first = text.split('\n').indexOf('parts:') + 1
    expect(found.complaints.map(({ line, path }) => [line - first, path])).toEqual([
      [1, 'parts/a'],
      [1, 'parts/a/size'],
      [2, 'parts/b/resistance'],
      [2, 'parts/b/terminals/1'],
      [2, 'parts/b/terminals/3'],
      [4, 'joints/a~zz/between'],
    ])
  })

  it('is the same for the same text', () => {
    const [first, second] = [read(exampleSheet).record, read(exampleSheet).record]
    expect(second.facts).toEqual(first.facts)
    expect(second.influences).toEqual(first.influences)
  })
})
