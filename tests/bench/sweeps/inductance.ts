import { laminatedPairInductance, widePlateInductance } from '../../../queries/physics/laminated.ts'
import { rectangleMeanDistance } from '../../../queries/physics/mean-log.ts'
import type { Plate } from '../../../queries/physics/plate.ts'
import { solvePlates } from '../../../queries/physics/plate-network.ts'
import { inductanceAccuracy, secondMethod } from '../../queries/physics/inductance-accuracy.ts'
import { draws, repeated, type Sweep, type Worst, worst } from './sweep.ts'

const TWO_FILAMENTS = 'two-filament integral over the overlap of the sections, tanh-sinh rules'
const KINDS = {
  self: 'one bar',
  'equal, face to face': 'gap 0.02 … 20 mm',
  'any two, near': 'middles less than their sizes apart in each direction',
  'any two, apart': '10 mm … 0.5 m apart across',
} as const

let accuracy: ReturnType<typeof inductanceAccuracy> | undefined

/** Bars over the stated box, a row a kind. */
const bars = Object.entries(KINDS).map(
  ([kind, box]): Sweep => ({
    field: 'electrical',
    method: `partial inductance of parallel bars: ${kind}`,
    range: `widths 0.5 … 100 mm, thicknesses 0.02 … 10 mm, lengths 2 mm … 1 m; ${box}`,
    against: TWO_FILAMENTS,
    run: () => {
      accuracy ??= inductanceAccuracy({ pairs: 40, seed: 7 })
      const row = accuracy.find(({ what }) => what === kind)
      if (!row) throw new Error(`no row ${kind}`)
      return { off: row.worst, points: row.pairs }
    },
  }),
)

const even = (size: number, offset = 0) => ({ first: size, second: size, offset })

function laminatedPairs(): Worst {
  const { log } = draws(11)
  return worst(
    repeated(30, () => {
      const pair = { width: log(5e-3, 0.1), thickness: log(1e-4, 5e-3), gap: log(1e-4, 0.02), length: log(0.01, 0.5) }
      const { width, thickness, gap, length } = pair
      const [x, z] = [even(width), even(length)]
      const self = secondMethod({ x, y: even(thickness), z })
      const mutual = secondMethod({ x, y: even(thickness, thickness + gap), z })
      return [laminatedPairInductance(pair).loop, 2 * (self - mutual)] as const
    }),
  )
}

function widePlates(): Worst {
  const { even: between } = draws(5)
  return worst(
    repeated(200, () => {
      const pair = {
        width: between(0.02, 0.1),
        thickness: between(0.5e-3, 2e-3),
        gap: between(0.1e-3, 1e-3),
        length: between(0.05, 0.3),
      }
      return [widePlateInductance(pair).lowFrequency, laminatedPairInductance(pair).loop] as const
    }),
  )
}

/** Two plates between small contacts a little inside their long edges, one above the other. */
function plateLoop(across: number): number {
  const [thickness, gap] = [1e-3, 0.3e-3]
  const plate = (id: string, height: number): Plate => ({
    id,
    thin: 2,
    corner: [0, 0, height],
    size: [0.15, 0.064, thickness],
    contacts: [
      { node: `${id} entry`, corner: [0.071, 0.01, height], size: [8e-3, 8e-3, thickness] },
      { node: 'exit', corner: [0.071, 0.048, height], size: [8e-3, 8e-3, thickness] },
    ],
  })
  const answer = solvePlates({
    plates: [plate('lower', 0), plate('upper', gap + thickness)],
    branches: [],
    across,
    ports: [{ id: 'loop', from: 'lower entry', to: 'upper entry' }],
  })
  if (!answer.ok) throw new Error('the plates are open')
  return answer.coarse[0]?.[0] ?? Number.NaN
}

export const inductanceSweeps: readonly Sweep[] = [
  ...bars,
  {
    field: 'electrical',
    method: 'laminated pair, go and return as one quantity',
    range: 'widths 5 … 100 mm, thicknesses 0.1 … 5 mm, gaps 0.1 … 20 mm, lengths 10 … 500 mm',
    against: `2 (L − M), each by the ${TWO_FILAMENTS}`,
    run: laminatedPairs,
  },
  {
    field: 'electrical',
    method: 'wide plates, µ₀ (g + ⅔t) l/w (calculator only)',
    range: 'widths 20 … 100 mm, thicknesses 0.5 … 2 mm, gaps 0.1 … 1 mm, lengths 50 … 300 mm',
    against: 'laminated pair, exact volume integral',
    run: widePlates,
  },
  {
    field: 'electrical',
    method: 'own mean distance of a rectangle',
    range: 'aspects 1 … 1000',
    against: '0.2235 (w + t), F. W. Grover, Inductance Calculations, 1946 (from memory): what that rule is off by',
    run: () => {
      const { log } = draws(3)
      return worst(
        repeated(200, () => {
          const thickness = log(1e-3, 1)
          return [rectangleMeanDistance({ width: 1, thickness }), 0.2235 * (1 + thickness)] as const
        }),
      )
    },
  },
  {
    field: 'electrical',
    method: 'plates between small terminals, 6 tiles across as in the loop figures',
    range: '150 × 64 × 1 mm, gap 0.3 mm, squares of 8 mm opposite each other, one above the other',
    against: 'the same on 10 tiles across',
    run: () => worst([[plateLoop(6), plateLoop(10)]]),
  },
]
