import { expect, it } from 'vitest'
import { rendered } from '../../../api/cli/emphasis.ts'
import { printReading, readingDocument } from '../../../api/cli/sheet-report.ts'
import { readSheet } from '../../../graph/sheet/read.ts'

const SHEET = `lidoff: 1
id: bench
title: Bench
basis: published
specimen: { kind: traction-inverter }
coolant:
  fluid: water
  flow: 0 L/min
  inlet: 25 °C
  passages:
    - { id: run, pipe: { diameter: 8 mm, length: 1 m } }
  sequence: [inlet, run, outlet]
`

it('prints what a check finds at its line, with the mend under the value', () => {
  const read = readSheet(SHEET, 'bench.yaml')
  if (!('record' in read)) throw new Error(JSON.stringify(read.complaints))
  const reading = { file: 'bench.yaml', text: SHEET, complaints: [], ...read }
  const lines: string[] = []
  const print = (text: string): void => void lines.push(text)
  printReading(reading, { print } as never, { readings: false })
  const found = lines.find((line) => line.includes('coolant/flow'))!
  expect(found).toContain('bench.yaml:8:9  coolant/flow: is 0')
  expect(found.split('\n')[1]!.trim()).toBe('flow: 0 L/min')
  const { checks } = readingDocument(reading)
  expect(checks.find(({ path }) => path === 'coolant/flow')).toMatchObject({ line: 8, column: 9 })
})

const read = (text: string) => {
  const found = readSheet(text, 'bench.yaml')
  if (!('record' in found)) throw new Error(JSON.stringify(found.complaints))
  return { file: 'bench.yaml', text, complaints: [], ...found }
}

function printed(text: string): readonly string[] {
  const lines: string[] = []
  printReading(read(text), { print: (line: string) => void lines.push(rendered(line, false)) } as never, {
    readings: false,
  })
  return lines
}

it('counts what checks find by severity, apart from errors of the sheet', () => {
  const text = SHEET.replace(
    'kind: traction-inverter',
    'kind: traction-inverter, dc-voltage: { nominal: 700 V, max: 650 V }',
  )
  const { checks, found, ok, errors } = readingDocument(read(text))
  const errorsFound = checks.filter(({ severity }) => severity === 'error').length
  expect([ok, errors.length]).toEqual([true, 0])
  expect(errorsFound).toBeGreaterThan(0)
  expect(found.error).toBe(errorsFound)
  expect(found.error + found.warning + found.question).toBe(checks.length)
  const last = printed(text).at(-1)!
  expect(last).toMatch(/^doubtful bench\.yaml: 0 errors, 0 warnings, /)
  expect(last).toContain(`(${errorsFound} error`)
  expect(last).toMatch(/it can be stored all the same$/)
})

it('prints once what differs only in the names of pieces, apart from what differs in a number', () => {
  const text = `lidoff: 1
id: bench
title: Bench
basis: published
specimen: { kind: traction-inverter }
parts:
  - { id: paste, class: thermal-grease, count: 12, each: { "1": { conductivity: 20.5 W/(m·K) }${[...Array(11).keys()]
    .map((n) => `, "${n + 2}": { conductivity: 20.7 W/(m·K) }`)
    .join('')} } }
`
  const { checks } = readingDocument(read(text))
  expect(checks.filter(({ path }) => path.startsWith('parts/paste'))).toHaveLength(12)
  const lines = printed(text).filter((line) => line.includes('parts/paste'))
  expect(lines).toHaveLength(2)
  expect(lines[0]).toContain('parts/paste.1/conductivity: is 20.5')
  expect(lines[0]).not.toContain('alike')
  expect(lines[1]).toContain('parts/paste.2/conductivity: is 20.7')
  expect(lines[1]).toContain('(and 10 alike)')
})
