import { Matrix, solve } from 'ml-matrix'
import { factorSymmetric, solveSymmetric } from '../../queries/physics/dense.ts'
import { groupAdmittance, NO_IMAGE } from '../../queries/physics/filament-solve.ts'
import { solveNetwork } from '../../queries/physics/thermal-network.ts'
import { once, printTable, timed } from './timed.ts'

/**
 * The dense complex solve of the filaments beside a general numeric library on the same equations, which has to take them
 * as twice as many real ones; and the whole of a bar of as many filaments: its matrix, filled and solved.
 */
export function filamentPart(): void {
  const ms = (value: number): string => value.toFixed(value < 10 ? 2 : 0)
  printTable(
    ['unknowns', 'own, solve [ms]', 'ml-matrix [ms]', 'times', 'answers differ by', 'own, fill and solve [ms]'],
    [100, 500, 1000].map((n) => {
      const { own, library, apart } = besideLibrary(n)
      const whole = once('', () => barOfFilaments(n)).median
      return [String(n), ms(own), ms(library), (library / own).toFixed(0), apart.toExponential(0), ms(whole)]
    }),
  )
}

/** Median time of the own solve, one run of the library's, and the largest difference of their answers. */
function besideLibrary(n: number): { own: number; library: number; apart: number } {
  const { re, im } = coupled(n)
  const right = Float64Array.from({ length: n }, (_, i) => 1 + (i % 3))
  const x = { re: new Float64Array(n), im: new Float64Array(n) }
  const own = timed('', 3, () => {
    const system = { re: re.slice(), im: im.slice() }
    x.re.set(right)
    x.im.fill(0)
    factorSymmetric(system, n)
    solveSymmetric(system, n, x)
  }).median
  const { matrix, side } = asReal({ re, im }, right, n)
  let answer = new Matrix(0, 0)
  const measured = n < 1000 ? timed : (name: string, _: number, call: () => unknown) => once(name, call)
  const library = measured('', 1, () => {
    answer = solve(matrix, side)
  }).median
  let [apart, largest] = [0, 0]
  for (let i = 0; i < n; i++) {
    largest = Math.max(largest, Math.hypot(x.re[i]!, x.im[i]!))
    apart = Math.max(apart, Math.hypot(x.re[i]! - answer.get(i, 0), x.im[i]! - answer.get(n + i, 0)))
  }
  return { own, library, apart: apart / largest }
}

/** A + jB as [[A, −B], [B, A]]: the library has no complex numbers. */
function asReal(
  { re, im }: { re: Float64Array; im: Float64Array },
  right: Float64Array,
  n: number,
): { matrix: Matrix; side: Matrix } {
  const matrix = new Matrix(2 * n, 2 * n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const [a, b] = [re[i * n + j] ?? 0, im[i * n + j] ?? 0]
      matrix
        .set(i, j, a)
        .set(i, n + j, -b)
        .set(n + i, j, b)
        .set(n + i, n + j, a)
    }
  }
  return { matrix, side: Matrix.columnVector([...right, ...new Float64Array(n)]) }
}

/** A copper bar of 10 × 1 mm cut evenly, ten filaments through its thickness, at 100 kHz. */
function barOfFilaments(n: number): void {
  const [rows, columns] = [10, n / 10]
  const size = { width: 0.01 / columns, thickness: 1e-3 / rows, group: 0 }
  const cells = Array.from({ length: n }, (_, k) => ({
    ...size,
    x: (Math.floor(k / rows) + 0.5) * size.width,
    y: ((k % rows) + 0.5) * size.thickness,
  }))
  groupAdmittance({ cells, images: [NO_IMAGE], groups: 1, conductivity: 58e6, frequency: 1e5, farReturn: 0.1 })
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

/** The sparse solve of a heat network: a square sheet of nodes, heated in one corner and cooled along one edge. */
export function heatPart(): void {
  printTable(
    ['nodes', 'heat network [ms]', 'rise at the source [K]'],
    [50, 500, 5000].map((count) => {
      const { network, source } = sheet(count)
      let rise = Number.NaN
      const { median } = timed('', 3, () => {
        const state = solveNetwork(network)
        if (state.stable) rise = (state.temperatures[source] ?? Number.NaN) - AMBIENT
      })
      return [String(network.nodes.length), median.toFixed(median < 10 ? 2 : 0), rise.toFixed(2)]
    }),
  )
}

const AMBIENT = 300

function sheet(count: number) {
  // As near to the number asked for as a rectangle comes.
  const rows = Math.floor(Math.sqrt(count))
  const columns = Math.round(count / rows)
  const name = (i: number, j: number): string => `${i},${j}`
  const cells = Array.from({ length: rows * columns }, (_, k) => [Math.floor(k / columns), k % columns] as const)
  const links = cells.flatMap(([i, j]) => [
    ...(i + 1 < rows ? [{ a: name(i, j), b: name(i + 1, j), conductance: 2 }] : []),
    ...(j + 1 < columns ? [{ a: name(i, j), b: name(i, j + 1), conductance: 2 }] : []),
  ])
  const sinks = Array.from({ length: columns }, (_, j) => ({
    id: `sink ${j}`,
    node: name(rows - 1, j),
    temperature: AMBIENT,
    conductance: 1,
  }))
  const source = name(0, 0)
  const network = { nodes: cells.map(([i, j]) => name(i, j)), links, sources: [{ node: source, loss: 100 }], sinks }
  return { network, source }
}
