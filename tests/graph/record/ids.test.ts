import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import { asId, isId, pairSlug, placeSlug, slugOf } from '../../../graph/record/ids.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { part, record, sheetTree } from '../../fixtures/record.ts'

const whats = (sections: Record<string, Tree>) => {
  const read = recordFromTree(sheetTree(sections))
  return 'faults' in read ? read.faults.map(({ what }) => what) : []
}

describe('ids', () => {
  it.each(['a', 'link-cap', 'x2', 'a-1-b'])('%s is one', (text) => expect(isId(text)).toBe(true))
  it.each(['', 'A', '1a', 'a--b', 'a-', '-a', 'a_b', 'a.b', 'a/b', 'ä', '__proto__', 'constructor', 'prototype'])(
    '"%s" is none',
    (text) => {
      expect(isId(text)).toBe(false)
    },
  )

  it.each([
    ['Link Cap', 'link-cap'],
    ['4th', 'x-4th'],
    ['Kühler', 'ku-hler'],
  ])('%s was meant as %s', (typed, meant) => {
    expect(asId(typed)).toBe(meant)
    expect(isId(meant)).toBe(true)
  })

  it.each<[string, Record<string, Tree>, RegExp]>([
    [
      'twice among parts',
      { parts: [part('a', 'screw'), part('b', 'assembly', { parts: [part('a', 'screw')] })] },
      /"a" is used twice, first in parts/,
    ],
    ['twice across sections', { nets: { a: {} }, parts: [part('a', 'screw')] }, /"a" is used twice, first in nets/],
    ['the name of a property', { parts: [part('capacitance', 'x-capacitor')] }, /name of a property/],
    [
      'the name of a face',
      { parts: [part('deck', 'screw'), part('a', 'case', { faces: { deck: {} } })] },
      /name of a face/,
    ],
    ['the name of a section', { parts: [part('heat', 'screw')] }, /names something else/],
    ['a place where heat ends', { parts: [part('ambient', 'screw')] }, /names something else/],
    ['of a net with a capital', { nets: { DC: {} } }, /cannot be an id/],
    [
      'a face with the name of a property',
      { parts: [part('a', 'case', { faces: { area: {} } })] },
      /cannot name a face/,
    ],
  ])('are refused %s', (_, sections, what) => {
    expect(whats(sections)).toEqual([expect.stringMatching(what)])
  })

  it('are derived from content where none is given', () => {
    const { sheet } = record({
      nets: { a: {}, b: {} },
      parts: [part('die', 'power-die'), part('bar', 'bus-bar'), part('cooler', 'cold-plate', { faces: { seat: {} } })],
      joints: [{ between: ['cooler', 'bar'] }],
      heat: [{ from: 'die', to: 'cooler/seat', layers: [{ kind: 'die-attach' }, { part: 'bar' }] }],
      spacings: [{ kind: 'creepage', between: ['b', 'a'] }],
      census: [{ of: 'bleed-resistor', across: ['b', 'a'], found: 'none' }],
      observed: [
        { metric: 'PRESSURE_DROP', subject: 'specimen', value: '5 kPa' },
        { metric: 'HEAT_FLUX', subject: 'parts/die', value: '5 W/cm²' },
      ],
      steps: [{ 'proved-dead': { across: ['a', 'b'] } }, { 'takes-off': 'cooler' }],
      findings: [{ about: ['cooler', 'bar'], reading: 'a' }],
      photos: [{ file: 'photos/0031.JPG' }],
    })
    expect(sheet.joints?.[0]?.id).toBe('bar~cooler')
    expect(sheet.heat?.[0]?.id).toBe('die~seat')
    expect(sheet.heat?.[0]?.layers?.map(({ id }) => id)).toEqual(['die-attach', 'bar'])
    expect(sheet.spacings?.[0]?.id).toBe('creepage~a~b')
    expect(sheet.census?.[0]?.id).toBe('bleed-resistor~a~b')
    expect(sheet.observed?.map(({ id }) => id)).toEqual(['pressure-drop', 'heat-flux~die'])
    expect(sheet.steps?.map(({ id }) => id)).toEqual(['prove-dead', 'off-cooler'])
    expect(sheet.findings?.[0]?.id).toBe('bar~cooler')
    expect(sheet.photos?.[0]?.id).toBe('0031')
  })

  it('never hold a dot: that parts off a piece', () => {
    expect(placeSlug('140 / -31 / 2.5 mm')).toBe('140_-31_2p5')
    expect(slugOf('cooler-lower/seat.*')).toBe('cooler-lower-seat')
    expect(slugOf('module.v/lower')).toBe('module-v-lower')
    expect(pairSlug('b.1', 'a')).toBe(pairSlug('a', 'b.1'))
  })
})
