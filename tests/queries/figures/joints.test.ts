import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import { demoSession } from '../demo-session.ts'

describe('loss in a joint', () => {
  it('is the square of the current of its net times the recorded resistance', () => {
    // 92 kW at 620 V over 12 µΩ: (92,000/620)² · 12·10⁻⁶ = 0.26422 W
    const [result, ...others] = demoSession('ferry-2-combined').evaluateAll(['JOINT_LOSS'])
    expect(others.filter(({ status }) => status === 'OK')).toEqual([])
    expect(result).toMatchObject({ subject: 'joints/lead-minus~plate-minus', status: 'OK' })
    expect(result!.atTaken).toBeCloseTo((92e3 / 620) ** 2 * 12e-6, 12)
    // 22,019 A² · 2 µΩ/√3 = 0.0254 W by the resistance alone; power and voltage come on top.
    expect(result!.u).toBeGreaterThan(22_019 * (2e-6 / Math.sqrt(3)))
  })

  it('is missing, by the joint, where nobody looked for its resistance', () => {
    const results = demoSession('ferry-7-drive').evaluateAll(['JOINT_LOSS'])
    expect(results.map(({ status }) => status)).toEqual(results.map(() => 'MISSING'))
    expect(results.length).toBeGreaterThan(1)
    for (const { subject, missing } of results)
      expect(missing.map(describeLack).join()).toContain(`${subject}/resistance`)
  })
})
