import { describe, expect, it } from 'vitest'
import { FAULTS, Fault, faultDocument } from '../../api/errors.ts'
import { faultOf } from '../../api/fault-of.ts'
import { Conflict, NotFound } from '../../graph/store/store-error.ts'
import { ConditionError } from '../../queries/conditions.ts'
import { DomainError } from '../../queries/physics/method.ts'
import { QuantityInputError } from '../../queries/quantity-input.ts'

describe('the table of refusals', () => {
  // The exit statuses are pinned: 1 the input has errors, 2 wrong usage, 3 not found, 4 refused or in conflict;
  // 70 is EX_SOFTWARE of sysexits.h (from memory), for faults of the program itself.
  it.each(Object.entries(FAULTS))(
    '%s has a refusing HTTP status and a stated exit status',
    (_code, { http, exit, about }) => {
      expect(http).toBeGreaterThanOrEqual(400)
      expect(http).toBeLessThan(600)
      expect([1, 2, 3, 4, 70]).toContain(exit)
      expect(about).toMatch(/\.$/)
    },
  )

  it('keeps 5xx for what the caller cannot mend', () => {
    const server = Object.entries(FAULTS).filter(([, { http }]) => http >= 500)
    expect(server.map(([code]) => code).sort()).toEqual(['DEADLINE', 'INTERNAL', 'UNAVAILABLE'])
  })
})

describe('what others throw', () => {
  it.each([
    [new Conflict('x', 1, { revision: 2, hash: 'h' }), 'CONFLICT'],
    [new NotFound('x', 'no record is stored under this id', 'list'), 'NOT_FOUND'],
    [new ConditionError('no condition "warmth"', 'known'), 'USAGE'],
    [new QuantityInputError('x', 'y'), 'QUANTITY'],
    [new DomainError('m', 'length', -1, '> 0'), 'DOMAIN'],
    [Object.assign(new Error('x'), { code: 'ENOENT', path: 'a.yaml' }), 'NOT_FOUND'],
  ])('%s is %s', (error, code) => {
    expect(faultOf(error).code).toBe(code)
  })

  it('tells nothing of a fault of ours but an id that the log has too', () => {
    const fault = faultOf(new Error('SELECT secret FROM nowhere'))
    expect(fault.code).toBe('INTERNAL')
    expect(JSON.stringify(faultDocument(fault))).not.toContain('SELECT')
    expect(fault.message).toContain(String(fault.facts.id))
    expect((fault.cause as Error).message).toContain('SELECT')
  })

  it('leaves a fault alone', () => {
    const fault = new Fault('USAGE', 'a', 'b')
    expect(faultOf(fault)).toBe(fault)
  })
})
