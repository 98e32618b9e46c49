/** Quantiles of the normal and of Student's t distribution. */

/**
 * Standard normal deviate below which a share p lies.
 * Range: 0 < p < 1; relative error about 1e-16.
 * Source: M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477-484; coefficients from memory.
 *
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return (q * poly(A, r)) / poly(B, r)
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const tail = r <= 5 ? poly(C, r - 1.6) / poly(D, r - 1.6) : poly(E, r - 5) / poly(F, r - 5)
  return q < 0 ? -tail : tail
}

function poly(coefficients: readonly number[], x: number): number {
  let sum = 0
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!
  return sum
}

const A = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
  33430.57558358813, 2509.0809287301227,
]
const B = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
  5226.495278852854,
]
const C = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
  0.022723844989269184, 0.0007745450142783414,
]
const D = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
]
const E = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
]
const F = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
  1.421511758316446e-7, 2.0442631033899397e-15,
]

/**
 * Student's t below which a share p lies, for any degrees of freedom above 0 (whole or not); infinite ones give the normal.
 * Closed forms for 1 and 2 (Cauchy; exact algebra), else the root of the distribution function, which is an incomplete beta.
 * Source: JCGM 100:2008 G.3; M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 26.7 (from memory).
 *
 * @example tQuantile(0.975, 2) // 4.302652729911275
 */
export function tQuantile(p: number, dof: number): number {
  if (dof > 1e10) return normalQuantile(p)
  if (p === 0.5) return 0
  const tail = Math.min(p, 1 - p)
  if (dof > 1000) return p < 0.5 ? -nearNormal(tail, dof) : nearNormal(tail, dof)
  const t = dof === 1 ? 1 / Math.tan(Math.PI * tail) : dof === 2 ? twoDegrees(tail) : root(tail, dof)
  return p < 0.5 ? -t : t
}

const twoDegrees = (tail: number) => (1 - 2 * tail) / Math.sqrt(2 * tail * (1 - tail))

/** Newton on the logarithm of the tail, in a bracket: quadratic near the root and safe far from it. */
function root(tail: number, dof: number): number {
  let low = 0
  let high = Number.POSITIVE_INFINITY
  let t = nearNormal(tail, dof)
  for (let turn = 0; turn < 60; turn++) {
    const now = upperTail(t, dof)
    if (now > tail) low = t
    else high = t
    const step = (now / density(t, dof)) * Math.log(now / tail)
    let next = t + step
    if (!(next > low && next < high)) next = high === Number.POSITIVE_INFINITY ? 2 * t + 1 : (low + high) / 2
    if (Math.abs(next - t) <= 1e-14 * next) return next
    t = next
  }
  return t
}

/** Expansion about the normal in 1/ν (Abramowitz and Stegun 26.7.5): to 1e-10 above 1000 degrees, a start for fewer. */
function nearNormal(tail: number, dof: number): number {
  const z = -normalQuantile(tail)
  const w = z * z
  const first = ((w + 1) * z) / 4
  const second = (((5 * w + 16) * w + 3) * z) / 96
  const third = ((((3 * w + 19) * w + 17) * w - 15) * z) / 384
  const fourth = (((((79 * w + 776) * w + 1482) * w - 1920) * w - 945) * z) / 92160
  return dof > 1000
    ? z + first / dof + second / dof ** 2 + third / dof ** 3 + fourth / dof ** 4
    : z + first / dof + second / dof ** 2
}

function density(t: number, dof: number): number {
  return Math.exp(-((dof + 1) / 2) * Math.log1p((t * t) / dof) - logBetaHalf(dof)) / Math.sqrt(dof)
}

/** P(T > t) for t ≥ 0: half the incomplete beta I_x(ν/2, 1/2) at x = ν/(ν+t²). */
function upperTail(t: number, dof: number): number {
  const x = dof / (dof + t * t)
  const y = (t * t) / (dof + t * t)
  const a = dof / 2
  const front = Math.exp(-a * Math.log1p((t * t) / dof) + 0.5 * Math.log(y) - logBetaHalf(dof))
  if (t === 0) return 0.5
  return x < (a + 1) / (a + 2.5) ? (front * fraction(a, 0.5, x)) / (2 * a) : 0.5 - front * fraction(0.5, a, y)
}

/** Continued fraction of the incomplete beta (modified Lentz). */
function fraction(a: number, b: number, x: number): number {
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1))
  let sum = d
  for (let m = 1; m < 2000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / (1 + even * d)
    c = 1 + even / c
    sum *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / (1 + odd * d)
    c = 1 + odd / c
    sum *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return sum
}

const betas = new Map<number, number>()

/** ln B(ν/2, 1/2), remembered: every draw of one influence asks for the same. */
function logBetaHalf(dof: number): number {
  const known = betas.get(dof)
  if (known !== undefined) return known
  const value = logGamma(dof / 2) + 0.5 * Math.log(Math.PI) - logGamma((dof + 1) / 2)
  if (betas.size > 256) betas.clear()
  betas.set(dof, value)
  return value
}

/** ln Γ(x), x > 0: Stirling's series after shifting x above 12. Abramowitz and Stegun 6.1.41 (from memory). */
function logGamma(x: number): number {
  let shift = 0
  let z = x
  for (; z < 12; z += 1) shift += Math.log(z)
  const w = 1 / (z * z)
  const series = (1 / 12 - w * (1 / 360 - w * (1 / 1260 - w * (1 / 1680 - w * (1 / 1188 - (w * 691) / 360360))))) / z
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series - shift
}
