import { barSkinEffect, pairSkinEffect } from '../../../queries/physics/bar-skin.ts'
import { laminatedPairInductance } from '../../../queries/physics/laminated.ts'
import { microstrip, microstripQuick } from '../../../queries/physics/microstrip.ts'
import { widePairImpedance } from '../../../queries/physics/skin-effect.ts'
import { stripline } from '../../../queries/physics/stripline.ts'
import { wireResistanceRatio } from '../../../queries/physics/wire-skin.ts'
import { draws, repeated, type Sweep, type Worst, worst } from './sweep.ts'

const COPPER = 58e6
const MU0 = 4e-7 * Math.PI

type Complex = readonly [re: number, im: number]
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c]
const over = (x: Complex, [c, d]: Complex): Complex => {
  const size = c * c + d * d
  return times(x, [c / size, -d / size])
}

/** Surface impedance of a plate with no field behind it, from 20,000 layers. */
function layered(thickness: number, frequency: number): Complex {
  const h = thickness / 20_000
  let z: Complex = [1 / (COPPER * h), 0]
  for (let k = 1; k < 20_000; k++) {
    const deeper: Complex = [z[0], z[1] + 2 * Math.PI * frequency * MU0 * h]
    z = over(deeper, [1 + COPPER * h * deeper[0], COPPER * h * deeper[1]])
  }
  return z
}

/** R/R₀ = Re (q/2) J₀(q)/J₁(q), q² = −jx², ascending series. */
function byPowerSeries(x: number): number {
  let [term, above, below]: [Complex, Complex, Complex] = [
    [1, 0],
    [1, 0],
    [0.5, 0],
  ]
  for (let k = 1; k < 80; k++) {
    // −q²/4 = jx²/4.
    term = times(term, [0, x ** 2 / 4 / k ** 2])
    above = [above[0] + term[0], above[1] + term[1]]
    below = [below[0] + term[0] / (2 * (k + 1)), below[1] + term[1] / (2 * (k + 1))]
  }
  // (q/2) J₀/J₁ with J₁ = q × below.
  const [re] = over(above, below)
  return re / 2
}

const FREQUENCIES = [1e3, 1e4, 1e5, 1e6, 1e7]

function meshOpen(kind: 'resistanceError' | 'inductanceError'): Worst {
  const found = FREQUENCIES.map(
    (frequency) =>
      pairSkinEffect({
        arrangement: 'laminated',
        width: 0.02,
        thickness: 1e-3,
        gap: 5e-4,
        conductivity: COPPER,
        frequency,
      })[kind],
  )
  return worst(found.map((off) => [1 + off, 1] as const))
}

/** Ratio K(k)/K(k′) by arithmetic-geometric means. */
function ellipticRatio(k: number): number {
  const mean = (a: number, b: number): number => (Math.abs(a - b) < 1e-15 * a ? a : mean((a + b) / 2, Math.sqrt(a * b)))
  return mean(1, k) / mean(1, Math.sqrt(1 - k * k))
}

export const frequencySweeps: readonly Sweep[] = [
  {
    field: 'electrical',
    method: 'skin effect of wide plates, resistance',
    range: '1 mm plates of copper, 1 kHz … 1 MHz',
    against: '20,000 layers, surface impedance carried from the back to the front',
    run: () =>
      worst(
        [1e3, 1e4, 1e5, 1e6].map((frequency) => {
          const pair = { width: 0.06, thickness: 1e-3, gap: 5e-4, conductivity: COPPER, frequency }
          return [widePairImpedance(pair).resistancePerLength, (2 * layered(1e-3, frequency)[0]) / 0.06] as const
        }),
      ),
  },
  {
    field: 'electrical',
    method: 'skin effect of a round wire, resistance',
    range: 'radius over skin depth times √2: 0.1 … 8',
    against: 'Bessel functions by their power series',
    run: () =>
      worst(
        Array.from({ length: 80 }, (_, k) => (k + 1) / 10).map(
          (x) => [wireResistanceRatio(x), byPowerSeries(x)] as const,
        ),
      ),
  },
  {
    field: 'electrical',
    method: 'filaments of a laminated pair, R(f)',
    range: '20 × 1 mm, gap 0.5 mm, copper, 1 kHz … 10 MHz',
    against: 'its own convergence check: extrapolated against the finer of two meshes',
    run: () => meshOpen('resistanceError'),
  },
  {
    field: 'electrical',
    method: 'filaments of a laminated pair, L(f)',
    range: 'the same',
    against: 'the same',
    run: () => meshOpen('inductanceError'),
  },
  {
    field: 'electrical',
    method: 'filaments of a laminated pair at 1 Hz, inductance',
    range: 'widths 5 … 40 mm, thicknesses 0.5 … 3 mm, gaps 0.2 … 5 mm',
    against: 'exact inductance per length at direct current',
    run: () => {
      const { even } = draws(17)
      return worst(
        repeated(12, () => {
          const pair = { width: even(5e-3, 0.04), thickness: even(5e-4, 3e-3), gap: even(2e-4, 5e-3) }
          const found = pairSkinEffect({ arrangement: 'laminated', ...pair, conductivity: COPPER, frequency: 1 })
          return [found.inductancePerLength, laminatedPairInductance({ ...pair, length: 1 }).loopPerLength] as const
        }),
      )
    },
  },
  {
    field: 'electrical',
    method: 'filaments of one bar far above the corner, resistance',
    range: '10 × 1 mm, copper, 1 MHz against 10 MHz',
    against: 'R ∝ √f, the limit at the skin depth',
    run: () => {
      const at = (frequency: number): number =>
        barSkinEffect({ width: 0.01, thickness: 1e-3, conductivity: COPPER, frequency }).resistanceRatio
      return worst([[at(1e7) / at(1e6), Math.sqrt(10)]])
    },
  },
  {
    field: 'electrical',
    method: 'trace over a plane, without thickness',
    range: 'width over height 0.1 … 20, permittivity 1 … 12',
    against: 'closed form, E. Hammerstad, O. Jensen, IEEE MTT-S 1980 (from memory), itself good to 0.2 %',
    run: () => {
      const { log, even } = draws(23)
      return worst(
        repeated(40, () => {
          const trace = { traceWidth: log(0.1, 20), heightAbovePlane: 1, permittivity: even(1, 12) }
          return [microstrip(trace).impedance, microstripQuick(trace).impedance] as const
        }),
      )
    },
  },
  {
    field: 'electrical',
    method: 'trace midway between planes, by field (thickness 10⁻⁶ of the spacing)',
    range: 'width over spacing 0.1 … 4',
    against: 'exact, conformal map: S. B. Cohn, IRE Trans. MTT-2 (1954) (from memory)',
    run: () => {
      const { log } = draws(29)
      return worst(
        repeated(10, () => {
          const traceWidth = log(0.1, 4)
          const k = 1 / Math.cosh((Math.PI * traceWidth) / 2)
          const exact = (376.730313668 / 4) * ellipticRatio(Math.sqrt(1 - k * k)) ** -1
          return [
            stripline({ traceWidth, planeSpacing: 1, permittivity: 1, traceThickness: 1e-6 }).impedance,
            exact,
          ] as const
        }),
      )
    },
  },
]
