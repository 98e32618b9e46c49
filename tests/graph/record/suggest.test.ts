import { expect, it } from 'vitest'
import { closest, didYouMean } from '../../../graph/record/suggest.ts'

it.each([
  ['drian', ['collector', 'drain', 'source'], 'drain'],
  ['frist', ['first', 'second'], 'first'],
  ['film-capacitor', ['dc-link-film-capacitor', 'fan'], 'dc-link-film-capacitor'],
  ['rated_voltage', ['rated-voltage', 'rated-current'], 'rated-voltage'],
  ['xyz', ['drain', 'source'], undefined],
  // Letters that change places over a third one are no slip of neighbours.
  ['dniar', ['drain'], undefined],
])('%s', (typed, known, meant) => {
  expect(closest(typed, known)).toBe(meant)
})

it('of a long list, names that share a word come first', () => {
  const known = Array.from({ length: 60 }, (_, n) => `a-${n}`).concat('discrete-power-device')
  expect(didYouMean('discrete-switch', known)).toMatch(/^Known here: discrete-power-device, a-0, .* and 21 more$/)
})
