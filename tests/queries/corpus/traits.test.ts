import { describe, expect, it } from 'vitest'
import { traitsOf } from '../../../queries/corpus/materialise.ts'
import { sheetSession } from '../demo-session.ts'

const traits = (more: string) =>
  new Map(
    traitsOf(
      sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter }
${more}`),
    ).map(({ id, value, basis }) => [id, { value, basis }]),
  )

describe('how a trait is known', () => {
  it('is no basis at all where nothing was observed', () => {
    expect(traits('').get('cooling-medium')).toEqual({ value: 'none recorded', basis: null })
    const board = traits('parts: [ { id: control, class: control-board } ]')
    expect(board.get('board-isolation')).toEqual({ value: 'nothing recorded', basis: null })
  })

  it.each(['measured', 'published', 'assumed'])('counts a word that was read: %s', (basis) => {
    const { value, basis: told } = traits(`coolant: { fluid: water (${basis}), sequence: [inlet, outlet] }`).get(
      'cooling-medium',
    )!
    expect([value, told]).toEqual(['liquid', basis])
  })

  it('is as weak as the weakest of the words that were read', () => {
    const dies = traits(`parts:
  - { id: a, class: power-die, kind: IGBT (marked) }
  - { id: b, class: power-die, kind: IGBT (judged) }
`)
    expect(dies.get('semiconductor')).toEqual({ value: 'IGBT', basis: 'judged' })
  })
})
