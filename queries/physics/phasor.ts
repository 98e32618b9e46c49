/** Complex number as real and imaginary part. */
export type Phasor = readonly [re: number, im: number]

export const plus = (a: Phasor, b: Phasor): Phasor => [a[0] + b[0], a[1] + b[1]]
export const minus = (a: Phasor, b: Phasor): Phasor => [a[0] - b[0], a[1] - b[1]]
export const times = (a: Phasor, b: Phasor): Phasor => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]]
export const size = (a: Phasor): number => Math.hypot(a[0], a[1])
export const scaled = (a: Phasor, factor: number): Phasor => [a[0] * factor, a[1] * factor]

/** a/b by Smith's order of operations, which neither overflows nor underflows on the way. */
export function over(a: Phasor, b: Phasor): Phasor {
  if (Math.abs(b[0]) >= Math.abs(b[1])) {
    const ratio = b[1] / b[0]
    const scale = b[0] + b[1] * ratio
    return [(a[0] + a[1] * ratio) / scale, (a[1] - a[0] * ratio) / scale]
  }
  const ratio = b[0] / b[1]
  const scale = b[0] * ratio + b[1]
  return [(a[0] * ratio + a[1]) / scale, (a[1] * ratio - a[0]) / scale]
}
