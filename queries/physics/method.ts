/** An argument that cannot exist (a negative length, NaN): thrown, never answered with a number. */
export class DomainError extends Error {
  readonly method: string
  readonly argument: string
  readonly found: unknown
  readonly allowed: string

  constructor(method: string, argument: string, found: unknown, allowed: string) {
    super(`${method}: ${argument} must be ${allowed}, but is ${String(found)}`)
    this.name = 'DomainError'
    this.method = method
    this.argument = argument
    this.found = found
    this.allowed = allowed
  }
}

/** Throws {@link DomainError} unless `value` is a finite number above zero. */
export function requirePositive(method: string, argument: string, value: number): void {
  if (!(value > 0) || !Number.isFinite(value)) throw new DomainError(method, argument, value, 'a finite number > 0')
}

/** Throws {@link DomainError} unless `value` is a finite number of zero or more. */
export function requireNonNegative(method: string, argument: string, value: number): void {
  if (!(value >= 0) || !Number.isFinite(value)) throw new DomainError(method, argument, value, 'a finite number ≥ 0')
}

/** What a method takes for one argument: the UCUM code of its SI unit, a list of such, a word of a closed list, or a yes/no. */
export interface Argument {
  /** UCUM code of the SI unit in which the function takes the number, e.g. 'm', 'W/(m.K)', '1'. */
  readonly unit?: string
  /** A closed list of words instead of a number. */
  readonly words?: readonly string[]
  readonly list?: boolean
  readonly optional?: boolean
  readonly about: string
}

/**
 * A calculation that can be called by name (bench calculator), with its validity as data.
 * `Inputs` and `Outputs` are objects of SI numbers (or lists of them, or words).
 */
export interface Method<Inputs, Outputs extends Readonly<Record<string, unknown>> = Readonly<Record<string, unknown>>> {
  readonly id: string
  readonly title: string
  readonly takes: { readonly [K in keyof Required<Inputs>]: Argument }
  /** Each output by name: UCUM code of its SI unit, and the customary unit it is printed in. */
  readonly gives: {
    readonly [K in keyof Required<Outputs>]: { readonly unit: string; readonly print: string; readonly about: string }
  }
  /** Validated range by argument or output name (SI). Outside of it the answer is marked OUT_OF_RANGE, never silent. */
  readonly valid?: Readonly<Record<string, readonly [number, number]>>
  /** Shown wherever the result is shown: lethal energy, high voltage, hot coolant. */
  readonly caution?: string
  readonly sources: readonly string[]
  readonly compute: (inputs: Inputs) => Outputs
}

/** Declares a method; only there so that the types of `takes`, `gives` and `compute` are held together. */
export function defineMethod<Inputs, Outputs extends Readonly<Record<string, unknown>>>(
  method: Method<Inputs, Outputs>,
): Method<Inputs, Outputs> {
  return method
}

/** Names of the arguments and outputs that lie outside the validated range of the method. */
export function outOfRange(
  valid: Readonly<Record<string, readonly [number, number]>> | undefined,
  values: Readonly<Record<string, unknown>>,
): readonly string[] {
  if (!valid) return []
  return Object.entries(valid)
    .filter(([name, [low, high]]) => {
      const value = values[name]
      const all = Array.isArray(value) ? value : [value]
      return all.some((one) => typeof one === 'number' && (one < low || one > high))
    })
    .map(([name]) => name)
}
