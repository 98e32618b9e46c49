import { DomainError } from './method.ts'

/** Symmetric seven-point system: diagonal, and couplings to the next cell in x, y and z. */
export type SevenPoint = {
  readonly diagonal: Float64Array
  readonly east: Float64Array
  readonly north: Float64Array
  readonly up: Float64Array
  readonly right: Float64Array
  readonly stepY: number
  readonly stepZ: number
}

/** Conjugate gradients with incomplete Cholesky of the seven-point pattern, to a relative residual of 1e-10. */
export function conjugateGradients({ diagonal, east, north, up, right, stepY, stepZ }: SevenPoint): Float64Array {
  const n = diagonal.length
  const pivot = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    let d = diagonal[i]!
    if (i >= 1) d -= east[i - 1]! ** 2 * pivot[i - 1]!
    if (i >= stepY) d -= north[i - stepY]! ** 2 * pivot[i - stepY]!
    if (i >= stepZ) d -= up[i - stepZ]! ** 2 * pivot[i - stepZ]!
    pivot[i] = 1 / d
  }
  const precondition = (r: Float64Array, z: Float64Array) => {
    for (let i = 0; i < n; i++) {
      let v = r[i]!
      if (i >= 1) v += east[i - 1]! * z[i - 1]!
      if (i >= stepY) v += north[i - stepY]! * z[i - stepY]!
      if (i >= stepZ) v += up[i - stepZ]! * z[i - stepZ]!
      z[i] = v * pivot[i]!
    }
    for (let i = n - 1; i >= 0; i--) {
      let v = 0
      if (i + 1 < n) v += east[i]! * z[i + 1]!
      if (i + stepY < n) v += north[i]! * z[i + stepY]!
      if (i + stepZ < n) v += up[i]! * z[i + stepZ]!
      z[i]! += v * pivot[i]!
    }
  }
  const multiply = (p: Float64Array, q: Float64Array) => {
    for (let i = 0; i < n; i++) {
      let v = diagonal[i]! * p[i]!
      if (i + 1 < n) v -= east[i]! * p[i + 1]!
      if (i >= 1) v -= east[i - 1]! * p[i - 1]!
      if (i + stepY < n) v -= north[i]! * p[i + stepY]!
      if (i >= stepY) v -= north[i - stepY]! * p[i - stepY]!
      if (i + stepZ < n) v -= up[i]! * p[i + stepZ]!
      if (i >= stepZ) v -= up[i - stepZ]! * p[i - stepZ]!
      q[i] = v
    }
  }
  const [x, z, q] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  const r = Float64Array.from(right)
  precondition(r, z)
  const p = Float64Array.from(z)
  let rz = dot(r, z)
  const goal = 1e-22 * dot(right, right)
  for (let step = 0; step < 4000; step++) {
    multiply(p, q)
    const alpha = rz / dot(p, q)
    for (let i = 0; i < n; i++) {
      x[i]! += alpha * p[i]!
      r[i]! -= alpha * q[i]!
    }
    if (dot(r, r) < goal) return x
    precondition(r, z)
    const next = dot(r, z)
    const beta = next / rz
    rz = next
    for (let i = 0; i < n; i++) p[i] = z[i]! + beta * p[i]!
  }
  throw new DomainError('stackField', 'layers', 'no convergence', 'conductivities within ten decades of each other')
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}
