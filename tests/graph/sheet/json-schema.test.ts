import { readdirSync, readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { PART_CLASSES } from '../../../graph/record/part-class.ts'
import { sheetJsonSchema } from '../../../graph/sheet/json-schema.ts'
import { exampleSheet } from '../../fixtures/example-sheet.ts'
import { sheetText } from '../../fixtures/record.ts'

// Outside check: a general-purpose validator of JSON Schema draft 2020-12, which shares nothing with what reads a sheet.
const validate = new Ajv2020({ strict: false, allErrors: true }).compile(sheetJsonSchema())
const seeds = new URL('../../../seeds/', import.meta.url)

describe('sheetJsonSchema', () => {
  it('is the one that is committed for editors', async () => {
    const text = `${JSON.stringify(sheetJsonSchema(), null, 1)}\n`
    await expect(text).toMatchFileSnapshot('../../../api/docs/sheet.schema.json')
  })

  it.each(readdirSync(seeds).filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml'))(
    'accepts the demo sheet %s as an editor reads it',
    (name) => {
      validate(parse(readFileSync(new URL(name, seeds), 'utf8')))
      expect(validate.errors ?? []).toEqual([])
    },
  )

  it('accepts the sheet of the format page and the smallest one', () => {
    for (const text of [exampleSheet, sheetText()]) {
      validate(parse(text))
      expect(validate.errors ?? []).toEqual([])
    }
  })

  it.each([
    ['a mistyped section', 'lidof: 1'],
    ['a mistyped property', 'parts: [{ id: a, class: x-capacitor, capacitence: 1 µF }]'],
    ['a property of another class', 'parts: [{ id: a, class: screw, capacitance: 1 µF }]'],
    ['a mistyped property of a piece', 'parts: [{ id: a, class: screw, each: { u: { mas: 1 g } } }]'],
    ['an unknown class', 'parts: [{ id: a, class: flux-thing }]'],
    ['an unknown word', 'nets: { a: { potential: high } }'],
    ['a missing key', 'heat: [{ from: a }]'],
  ])('refuses %s', (_, lines) => {
    expect(validate(parse(`${sheetText()}${lines}\n`))).toBe(false)
  })

  it('describes every class by title and meaning', () => {
    const { $defs } = sheetJsonSchema() as { $defs: Record<string, { title?: string; description?: string }> }
    for (const { class: name, title, is } of PART_CLASSES) {
      expect($defs[`class-${name}`]).toMatchObject({ title, description: is })
    }
  })

  it('names units for a property', () => {
    const text = JSON.stringify(sheetJsonSchema())
    expect(text).toContain('Of one can, near room temperature. Capacitance, e.g. in µF, nF, pF.')
  })
})
