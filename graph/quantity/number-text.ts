/** A number in plain decimals with this many significant digits; powers of ten only where the zeros would be many. */
export function significant(value: number, digits: number): string {
  if (value === 0) return '0'
  return plainDecimal(value.toPrecision(digits))
}

/** A number with every digit it has. */
export function everyDigit(value: number): string {
  return plainDecimal(String(value))
}

/** Moves the decimal point of a number in its text: exact where multiplying would round. */
export function movedPoint(value: number, places: number): string {
  const [mantissa = '', exponent = '0'] = value.toExponential().split('e')
  return plainDecimal(`${mantissa}e${Number(exponent) + places}`)
}

/** Writes out powers of ten between 1e-7 and 1e9; further ones stay, as 1.5e-9. */
export function plainDecimal(text: string): string {
  const [mantissa = '', power] = text.split('e')
  if (power === undefined) return text
  const exponent = Number(power)
  const negative = mantissa.startsWith('-')
  const digits = mantissa.replace('-', '').replace('.', '')
  const point = mantissa.replace('-', '').split('.')[0]?.length ?? 1
  const at = point + exponent
  if (at < -6 || at > 15) return `${mantissa}e${exponent}`
  const body =
    at <= 0
      ? `0.${'0'.repeat(-at)}${digits}`
      : at >= digits.length
        ? digits.padEnd(at, '0')
        : `${digits.slice(0, at)}.${digits.slice(at)}`
  return negative ? `-${body}` : body
}

/** Rounded to a power of ten, with exactly the digits down to it. */
export function roundedTo(value: number, place: number): string {
  if (place <= 0 && place >= -100) {
    const text = value.toFixed(Math.min(100, -place))
    return text.includes('e') ? plainDecimal(text) : text
  }
  const scaled = Math.round(value / 10 ** place)
  return plainDecimal(`${scaled}e${place}`)
}

/** Power of ten of the last of this many significant digits. */
export function placeOf(value: number, digits: number): number {
  const exponent = Number(
    Math.abs(value)
      .toExponential(digits - 1)
      .split('e')[1],
  )
  return exponent - digits + 1
}
