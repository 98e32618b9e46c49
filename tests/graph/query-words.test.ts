import { expect, it } from 'vitest'
import { describeLack } from '../../graph/lack.ts'
import { asPath } from '../../graph/quantity/quantity.ts'
import { askFor } from '../../queries/measure-next.ts'
import { changesFrom } from '../../queries/what-if.ts'
import { sheetSession } from '../queries/demo-session.ts'

it('what nobody looked for, what was looked for and not found, and what the nets do not give read differently', () => {
  const dies = { ask: 'parts', class: 'power-die', in: asPath('parts/module') } as const
  expect(describeLack({ query: dies, why: 'census-open' })).toBe(
    'not on record: part of class power-die in parts/module',
  )
  expect(describeLack({ query: dies, why: 'none-found' })).toBe(
    'looked for and found none: part of class power-die in parts/module',
  )
  expect(describeLack({ query: { ask: 'bridge-loops' }, why: 'none-found' })).toBe(
    'there is none: half bridge that makes an alternating output',
  )
})

it('a census answers for a class of parts, not for what follows from the nets', () => {
  expect(askFor({ query: { ask: 'link-parts', class: 'bleed-resistor' }, why: 'census-open' })).toBe(
    'look for and record: part of class bleed-resistor on the nets of the DC link (or write a census that none is there)',
  )
  expect(askFor({ query: { ask: 'rails' }, why: 'census-open' })).not.toContain('census')
})

it('relations and searches that a figure rests on are told in words, not by the keys of questions', () => {
  const said = evaluated('HEAT_FLUX').flatMap(({ restsOn, weak }) => [...restsOn, ...weak.relations])
  expect(said).toContain('where heat/down ends (judged)')
  for (const text of said) expect(text).not.toMatch(/=|^[a-z]+-[a-z-]+ /)
})

it('what a figure moved because of is told in words too', () => {
  const before = heated()
  const after = before.over(changesFrom(before.record, 'heat/down/to=case/far'))
  const log = evaluated('HEAT_FLUX').flatMap((one) => one.log)
  expect(after.differs(log)).toContain('where heat/down ends')
})

const evaluated = (metric: string) => heated().evaluateAll([metric])

const heated = () =>
  sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter }
parts:
  - { id: die, class: power-die, size: 10 x 10 mm (measured), loss: { peak: 100 W (judged) } }
  - { id: case, class: case, material: aluminium-cast, faces: { deck: { area: 100 cm2 }, far: { area: 100 cm2 } } }
heat: [ { id: down, from: die, to: case/deck, layers: [ { id: film, kind: die-attach, thickness: 0.1 mm, conductivity: 2 W/(m K), area: 1 cm2 } ] } ]
`)
