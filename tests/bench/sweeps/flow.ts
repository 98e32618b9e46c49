import { dittusBoelterNusselt, gnielinskiNusselt, rectangularNusselt } from '../../../queries/physics/convection.ts'
import { frictionFactor, rectangularFrictionRe } from '../../../queries/physics/duct.ts'
import { graetzMeanNusselt } from '../../../queries/physics/graetz.ts'
import { draws, repeated, type Sweep, type Worst, worst } from './sweep.ts'

/** Mean velocity for a pressure gradient of one, and f Re and Nu that follow: double sine series, sides 1 and `aspect`. */
function series(aspect: number): { frictionRe: number; nusselt: number } {
  let [flow, heat] = [0, 0]
  for (let m = 1; m < 600; m += 2) {
    for (let n = 1; n < 600; n += 2) {
      const eigenvalue = (m * Math.PI) ** 2 + ((n * Math.PI) / aspect) ** 2
      const square = (8 / (m * n * Math.PI ** 2)) ** 2
      flow += square / eigenvalue
      heat += square / eigenvalue ** 3
    }
  }
  const hydraulic = (2 * aspect) / (1 + aspect)
  return { frictionRe: (2 * hydraulic ** 2) / flow, nusselt: (hydraulic ** 2 / 4) * (flow ** 2 / heat) }
}

const ASPECTS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]

/** Colebrook and White by bisection of 1/√f. */
function colebrook(reynolds: number, roughness: number): number {
  let [low, high] = [1, 100]
  for (let k = 0; k < 200; k++) {
    const x = (low + high) / 2
    if (x + 2 * Math.log10(roughness / 3.7 + (2.51 * x) / reynolds) > 0) high = x
    else low = x
  }
  return low ** -2
}

function friction(): Worst {
  const { log } = draws(73)
  return worst(
    repeated(400, () => {
      const [reynolds, relativeRoughness] = [log(4000, 1e8), log(1e-6, 0.05)]
      return [frictionFactor({ reynolds, relativeRoughness }), colebrook(reynolds, relativeRoughness)] as const
    }),
  )
}

/** Mean Nusselt numbers of a tube with a cold wall at some lengths: rings, implicit steps of (1 − r²) ∂θ/∂x = ½ ∇²θ. */
function tubeByMarching(targets: readonly number[]): readonly number[] {
  const [rings, steps] = [500, 800]
  const bulk = Array.from({ length: rings }, (_, i) => {
    const [a, b] = [i / rings, (i + 1) / rings]
    return (b ** 2 - a ** 2) / 2 - (b ** 4 - a ** 4) / 4
  })
  const total = bulk.reduce((a, b) => a + b)
  let theta = bulk.map(() => 1)
  let at = 0
  return targets.map((target) => {
    for (let k = 0; k < steps; k++) theta = implicit(theta, bulk, (target - at) / steps)
    at = target
    return -Math.log(theta.reduce((sum, one, i) => sum + one * bulk[i]!, 0) / total) / (4 * at)
  })
}

/** Faces conduct radius over distance; the wall is half a ring away. x* counts in diameters, hence the 2. */
function implicit(theta: readonly number[], bulk: readonly number[], dx: number): number[] {
  const n = theta.length
  const diagonal: number[] = []
  const right: number[] = []
  for (let i = 0; i < n; i++) {
    const [inner, outer] = [2 * dx * i, 2 * dx * (i + 1) * (i === n - 1 ? 2 : 1)]
    const factor = i === 0 ? 0 : inner / diagonal[i - 1]!
    diagonal[i] = bulk[i]! + inner + outer - factor * inner
    right[i] = bulk[i]! * theta[i]! + (i === 0 ? 0 : factor * right[i - 1]!)
  }
  const next = new Array<number>(n)
  for (let i = n - 1; i >= 0; i--)
    next[i] = (right[i]! + (i + 1 < n ? 2 * dx * (i + 1) * next[i + 1]! : 0)) / diagonal[i]!
  return next
}

export const flowSweeps: readonly Sweep[] = [
  {
    field: 'thermal',
    method: 'laminar friction of a rectangular duct, f Re',
    range: 'aspects 0.1 … 1',
    against: 'double sine series of the velocity, 90,000 terms',
    run: () => worst(ASPECTS.map((aspect) => [rectangularFrictionRe(aspect), series(aspect).frictionRe] as const)),
  },
  {
    field: 'thermal',
    method: 'laminar Nusselt number of a rectangular duct, even flux along it',
    range: 'aspects 0.1 … 1, all four walls heated',
    against: 'double sine series of velocity and temperature',
    run: () =>
      worst(
        ASPECTS.map(
          (aspect) => [rectangularNusselt({ aspect, wall: 'uniform-flux' }), series(aspect).nusselt] as const,
        ),
      ),
  },
  {
    field: 'thermal',
    method: 'developing laminar flow in a tube, mean Nusselt number',
    range: 'dimensionless length 0.003 … 0.5',
    against: 'implicit marching on 500 rings (itself good to about 0.1 %)',
    run: () => {
      const lengths = [0.003, 0.01, 0.03, 0.1, 0.5]
      const marched = tubeByMarching(lengths)
      return worst(lengths.map((xStar, at) => [graetzMeanNusselt(xStar), marched[at]!] as const))
    },
  },
  {
    field: 'thermal',
    method: 'turbulent friction factor, explicit',
    range: 'Re 4,000 … 10⁸, roughness 10⁻⁶ … 5 %',
    against: 'C. F. Colebrook, C. M. White, by bisection',
    run: friction,
  },
  {
    field: 'thermal',
    method: 'turbulent Nusselt number, Gnielinski',
    range: 'Re 10⁴ … 10⁵, Pr 0.7 … 10',
    against: 'Dittus and Boelter: two correlations, neither exact; the spread is what to expect of them',
    run: () => {
      const { log } = draws(79)
      return worst(
        repeated(200, () => {
          const flow = { reynolds: log(1e4, 1e5), prandtl: log(0.7, 10) }
          return [gnielinskiNusselt(flow), dittusBoelterNusselt(flow)] as const
        }),
      )
    },
  },
]
