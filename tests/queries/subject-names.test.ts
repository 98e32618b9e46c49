import { expect, it } from 'vitest'
import { isNamed } from '../../queries/subject-names.ts'

it.each<[string, string, boolean]>([
  ['specimen', 'specimen', true],
  ['parts/high.a', 'parts/high.a', true],
  ['parts/high.a', 'parts/high', true],
  ['parts/high.a', 'high', true],
  ['parts/high.a', 'high.b', false],
  ['parts/high.a/tab', 'high/tab', true],
  ['parts/high.a/tab', 'high', false],
  ['parts/higher.a', 'high', false],
  ['coolant/duct', 'duct', true],
  ['heat/seat.u', 'seat', true],
  // A loop bears the id of its half bridge: it is not meant by the part.
  ['loops/module.u', 'module', false],
  ['loops/module.u', 'loops/module', true],
])('%s asked for as %s', (subject, typed, expected) => {
  expect(isNamed(subject, [typed])).toBe(expected)
})
