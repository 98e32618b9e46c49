import { expect, it } from 'vitest'
import { describeLack } from '../../graph/lack.ts'
import { asPath } from '../../graph/quantity/quantity.ts'
import { askFor } from '../../queries/measure-next.ts'

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
