import { Matrix, solve } from 'ml-matrix'
import { factorSymmetric, solveSymmetric } from '../../queries/physics/dense.ts'
import { solveNetwork } from '../../queries/physics/thermal-network.ts'
import { type Row, timed } from './timed.ts'

/** The complex symmetric solve of the filaments beside a general numeric library on the same equations as real ones. */
export function filamentRows(): readonly Row[] {
  return [100, 500, 1000].flatMap((n) => {
    const { re, im } = coupled(n)
    const right = Float64Array.from({ length: n }, (_, i) => 1 + (i % 3))
    const own = timed(`filament solve, ${n} unknowns`, 2, () => {
      const system = { re: re.slice(), im: im.slice() }
      factorSymmetric(system, n)
      solveSymmetric(system, n, { re: right.slice(), im: new Float64Array(n) })
    })
    // A + jB as [[A, −B], [B, A]]: the library has no complex numbers.
    const real = new Matrix(2 * n, 2 * n)
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const [a, b] = [re[i * n + j] ?? 0, im[i * n + j] ?? 0]
        real
          .set(i, j, a)
          .set(i, n + j, -b)
          .set(n + i, j, b)
          .set(n + i, n + j, a)
      }
    }
    const both = Matrix.columnVector([...right, ...new Float64Array(n)])
    return [own, timed(`  ml-matrix, the same as ${2 * n} real ones`, 1, () => solve(real, both))]
  })
}

/** Resistances on the diagonal, inductances that fall with distance: symmetric, as filaments of a bar are. */
function coupled(n: number): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(n * n)
  const im = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    re[i * n + i] = 1 + (i % 7) / 10
    for (let j = 0; j < n; j++) im[i * n + j] = 5 / (1 + Math.abs(i - j)) + (i === j ? 3 : 0)
  }
  return { re, im }
}

/** A square sheet of nodes, heated in one corner and cooled along one edge. */
export function heatRows(): readonly Row[] {
  return [50, 500, 5000].map((count) => {
    const side = Math.round(Math.sqrt(count))
    const name = (i: number, j: number): string => `${i},${j}`
    const cells = Array.from({ length: side * side }, (_, k) => [Math.floor(k / side), k % side] as const)
    const links = cells.flatMap(([i, j]) => [
      ...(i + 1 < side ? [{ a: name(i, j), b: name(i + 1, j), conductance: 2 }] : []),
      ...(j + 1 < side ? [{ a: name(i, j), b: name(i, j + 1), conductance: 2 }] : []),
    ])
    const network = {
      nodes: cells.map(([i, j]) => name(i, j)),
      links,
      sources: [{ node: name(0, 0), loss: 100 }],
      sinks: Array.from({ length: side }, (_, j) => ({
        id: `sink ${j}`,
        node: name(side - 1, j),
        temperature: 300,
        conductance: 1,
      })),
    }
    return timed(`heat network, ${side * side} nodes`, 3, () => solveNetwork(network))
  })
}
