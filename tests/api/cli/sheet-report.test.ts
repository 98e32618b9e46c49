import { expect, it } from 'vitest'
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
