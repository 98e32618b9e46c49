import { describe, expect, it } from 'vitest'
import { drive, figure } from '../../fixtures/drive.ts'

const PARTS = `  - { id: lid, class: lid }
  - { id: board, class: control-board, parts: [ { id: chip, class: microcontroller } ] }
  - { id: stay, class: bracket }`
const STEPS = `steps:
  - { id: prove-dead, proved-dead: { across: [dc-plus, dc-minus], reading: 0.2 V (measured) } }
  - { id: lid-off, takes-off: lid }
  - { id: unplug, title: pull the plug, after: [prove-dead] }
  - { id: board-out, takes-off: board, after: [lid-off, unplug] }`
const steps = (part: string) => figure(drive({ parts: PARTS, rest: STEPS }), 'STEPS_TO_REACH', `parts/${part}`)

describe('steps before a part can be taken off', () => {
  it('counts blockers and theirs once each', () => {
    // lid: the proof alone; board: the proof, the lid, the plug
    expect(steps('lid').atTaken).toBe(1)
    expect(steps('board').atTaken).toBe(3)
  })

  it('what is inside comes off with what holds it', () => {
    expect(steps('chip').atTaken).toBe(3)
  })

  it('is missing for a part that no step takes off', () => {
    expect(steps('stay').status).toBe('MISSING')
    const subjects = drive({ parts: PARTS, rest: STEPS })
      .evaluateAll(['STEPS_TO_REACH'])
      .map(({ subject }) => subject)
    expect(subjects.sort()).toEqual(['parts/board', 'parts/chip', 'parts/lid'])
  })
})
