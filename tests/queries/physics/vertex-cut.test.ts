import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { vertexCut } from '../../../queries/physics/vertex-cut.ts'

const names = ['hv', 'a', 'b', 'c', 'd', 'e', 'f', 'lv'] as const
const edges = fc.array(fc.tuple(fc.constantFrom(...names), fc.constantFrom(...names)), { maxLength: 16 })

describe('smallest set of parts that bridge a barrier', () => {
  it('agrees with trying every set, on random graphs', () => {
    // Second method: brute force over all sets of the six inner vertices, smallest first.
    fc.assert(
      fc.property(edges, (one) => {
        const cut = vertexCut({ edges: one, from: ['hv'], to: ['lv'] })
        const smallest = bruteForce(one)
        if (cut === undefined || smallest === undefined) return cut === smallest
        return cut.length === smallest && !connected(one, new Set(cut))
      }),
      { numRuns: 500 },
    )
  })

  it('finds each part that bridges, and one only where two are in a row', () => {
    const bridging: (readonly [string, string])[] = [
      ['hv', 'driver'],
      ['driver', 'lv'],
      ['hv', 'divider'],
      ['divider', 'amplifier'],
      ['amplifier', 'lv'],
    ]
    expect(vertexCut({ edges: bridging, from: ['hv'], to: ['lv'] })).toEqual(['driver', 'divider'])
  })

  it('takes several vertices on both sides', () => {
    const joined: (readonly [string, string])[] = [
      ['plus', 'x'],
      ['minus', 'x'],
      ['x', 'supply'],
      ['x', 'ground'],
    ]
    expect(vertexCut({ edges: joined, from: ['plus', 'minus'], to: ['supply', 'ground'] })).toEqual(['x'])
  })

  it('says that nothing parts sides which touch, and that nothing need part sides which do not meet', () => {
    expect(vertexCut({ edges: [['hv', 'lv']], from: ['hv'], to: ['lv'] })).toBeUndefined()
    expect(vertexCut({ edges: [['hv', 'a']], from: ['hv'], to: ['lv'] })).toEqual([])
    expect(() => vertexCut({ edges: [], from: ['hv'], to: ['hv'] })).toThrow(DomainError)
    expect(() => vertexCut({ edges: [], from: [], to: ['lv'] })).toThrow(DomainError)
  })
})

function bruteForce(one: readonly (readonly [string, string])[]): number | undefined {
  const inner = names.filter((name) => name !== 'hv' && name !== 'lv')
  const sizes = Array.from({ length: 2 ** inner.length }, (_, mask) => inner.filter((_, i) => (mask >> i) & 1))
    .filter((removed) => !connected(one, new Set(removed)))
    .map((removed) => removed.length)
  return sizes.length === 0 ? undefined : Math.min(...sizes)
}

function connected(one: readonly (readonly [string, string])[], removed: ReadonlySet<string>): boolean {
  const seen = new Set(['hv'])
  for (let grown = true; grown; ) {
    grown = false
    for (const [x, y] of [...one, ...one.map(([x, y]) => [y, x] as const)]) {
      if (seen.has(x) && !seen.has(y) && !removed.has(y)) {
        seen.add(y)
        grown = true
      }
    }
  }
  return seen.has('lv')
}
