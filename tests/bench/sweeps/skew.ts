import type { Bar, Vector } from '../../../queries/physics/bar.ts'
import { mutual } from '../../../queries/physics/bar-inductance.ts'
import { draws, repeated, type Sweep, worst } from './sweep.ts'

/** Places and weights of the Gauss rule of five points on −½ … ½ (handbook of formulas, from memory). */
const GAUSS = [
  [0, 128 / 225],
  ...[-1, 1].flatMap((side) => [
    [(side / 3) * Math.sqrt(5 - 2 * Math.sqrt(10 / 7)), (322 + 13 * Math.sqrt(70)) / 900],
    [(side / 3) * Math.sqrt(5 + 2 * Math.sqrt(10 / 7)), (322 - 13 * Math.sqrt(70)) / 900],
  ]),
].map(([at, weight]) => [at! / 2, weight! / 2] as const)

/** Points of a bar in the plane z = height, at an angle to x, with their weights; four blocks along it. */
function points({ length, width, thickness }: Size, middle: Vector, angle: number) {
  const blocks = 4
  return Array.from({ length: blocks }, (_, k) => (k + 0.5) / blocks - 0.5).flatMap((block) =>
    GAUSS.flatMap(([a, wa]) =>
      GAUSS.flatMap(([b, wb]) =>
        GAUSS.map(([c, wc]) => {
          const [along, across] = [length * (block + a / blocks), width * b]
          return {
            x: middle[0] + along * Math.cos(angle) - across * Math.sin(angle),
            y: middle[1] + along * Math.sin(angle) + across * Math.cos(angle),
            z: middle[2] + thickness * c,
            weight: (wa * wb * wc) / blocks,
          }
        }),
      ),
    ),
  )
}

interface Size {
  readonly length: number
  readonly width: number
  readonly thickness: number
}

function barAt({ length, width, thickness }: Size, [x, y, z]: Vector, angle: number): Bar {
  const [dx, dy] = [(length / 2) * Math.cos(angle), (length / 2) * Math.sin(angle)]
  return { start: [x - dx, y - dy, z], end: [x + dx, y + dy, z], width, thickness, flat: [0, 0, 1] }
}

export const skewSweep: Sweep = {
  field: 'electrical',
  method: 'partial inductance of bars at an angle, in crossing planes',
  range: 'angles 5 … 80°, lengths 20 … 100 mm, widths 5 … 20 mm, thicknesses 1 … 3 mm, planes 25 … 60 mm apart',
  against: 'Neumann’s double integral over both bars, 500 Gauss points in each',
  run: () => {
    const { even } = draws(83)
    const size = (): Size => ({ length: even(0.02, 0.1), width: even(5e-3, 0.02), thickness: even(1e-3, 3e-3) })
    return worst(
      repeated(10, () => {
        const [a, b, angle] = [size(), size(), (even(5, 80) * Math.PI) / 180]
        const middle: Vector = [even(-0.04, 0.04), even(-0.04, 0.04), even(0.025, 0.06)]
        const others = points(b, middle, angle)
        let sum = 0
        for (const p of points(a, [0, 0, 0], 0))
          for (const q of others) sum += (p.weight * q.weight) / Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z)
        const expected = 1e-7 * Math.cos(angle) * a.length * b.length * sum
        return [mutual(barAt(a, [0, 0, 0], 0), barAt(b, middle, angle)), expected] as const
      }),
    )
  },
}
