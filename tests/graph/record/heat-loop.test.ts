import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readSheet } from '../../../graph/sheet/read.ts'

const sheet = (heat: string): string => `lidoff: 1
id: loop
title: Heat that comes back
basis: published
specimen: { kind: traction-inverter }
parts:
  - { id: module, class: half-bridge-module, each: { u: {}, v: {} }, faces: { base: {} } }
  - { id: block, class: heat-spreader, faces: { top: {} } }
heat:
${heat}
`
const complaints = (heat: string): readonly string[] => {
  const read = readSheet(sheet(heat), 'loop.yaml')
  return 'complaints' in read ? read.complaints.map(({ line, what }) => `${line}: ${what}`) : []
}
const path = (id: string, from: string, to: string): string =>
  `  - { id: ${id}, from: ${from}, to: ${to}, resistance: 1 K/W }`

describe('a heat path that loops', () => {
  it('is refused with the line of the first path of the loop', () => {
    const found = complaints([path('a', 'block', 'block/top'), path('b', 'block/top', 'block')].join('\n'))
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(/^1[01]: heat comes back to where it started/)
  })

  it('through pieces of the same name is one as well', () => {
    const heat = [path('a', 'module', 'module.*/base'), path('b', 'module.*/base', 'module.*')].join('\n')
    expect(complaints(heat).join()).toContain('heat comes back')
  })

  it('is none from one piece to its sister, nor in any demo sheet', () => {
    const heat = [path('a', 'module.u', 'block/top'), path('b', 'block/top', 'module.v')].join('\n')
    expect(complaints(heat)).toEqual([])
    const seeds = new URL('../../../seeds/', import.meta.url)
    for (const name of readdirSync(seeds).filter((one) => one.endsWith('-drive.yaml')))
      expect('record' in readSheet(readFileSync(new URL(name, seeds), 'utf8'), name)).toBe(true)
  })
})
