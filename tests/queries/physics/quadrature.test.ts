import { describe, expect, it } from 'vitest'
import { doubleExponential, emptyRule, legendre, trapezium } from '../../../queries/physics/quadrature.ts'

describe('quadrature', () => {
  it('Gauss-Legendre nodes and weights are those of the tables', () => {
    // M. Abramowitz, I. A. Stegun, table 25.4 (from memory), n = 3 on −1 … 1: 0.7745966692, weights 5/9 and 8/9.
    const { nodes, weights } = legendre(3)
    expect(2 * nodes[2]! - 1).toBeCloseTo(0.7745966692, 10)
    expect(2 * weights[0]!).toBeCloseTo(5 / 9, 14)
    expect(2 * weights[1]!).toBeCloseTo(8 / 9, 14)
  })

  it('Gauss-Legendre is exact to degree 2n − 1', () => {
    for (const n of [1, 2, 5, 12, 20]) {
      const { nodes, weights } = legendre(n)
      const sum = nodes.reduce((total, x, i) => total + weights[i]! * x ** (2 * n - 1), 0)
      expect(sum * 2 * n).toBeCloseTo(1, 13)
    }
  })

  it('the double-exponential rule takes singular ends: ∫ ln x = −1, ∫ x ln x = −1/4', () => {
    const { nodes, weights } = doubleExponential()
    const integral = (f: (x: number) => number): number => nodes.reduce((sum, x, i) => sum + weights[i]! * f(x), 0)
    expect(integral(Math.log)).toBeCloseTo(-1, 13)
    expect(integral((x) => x * Math.log(x))).toBeCloseTo(-0.25, 14)
  })

  it('trapezium rules are exact to degree 2n − 1 (moments of the sum of two even distances)', () => {
    const [a, b, offset] = [0.7, 0.2, 1.3]
    const rule = emptyRule()
    for (const count of [1, 2, 3, 4, 5]) {
      trapezium({ first: a, second: b, offset, count }, rule)
      for (let degree = 0; degree < 2 * count; degree++) {
        let found = 0
        for (let i = 0; i < count; i++) found += rule.weights[i]! * rule.nodes[i]! ** degree
        // Exact: mean of (offset + u + v)^degree over both intervals, by Gauss-Legendre in each.
        const { nodes, weights } = legendre(8)
        let exact = 0
        for (let i = 0; i < 8; i++) {
          for (let j = 0; j < 8; j++) {
            exact += weights[i]! * weights[j]! * (offset + a * (nodes[i]! - 0.5) + b * (nodes[j]! - 0.5)) ** degree
          }
        }
        expect(found / exact).toBeCloseTo(1, 12)
      }
    }
  })
})
