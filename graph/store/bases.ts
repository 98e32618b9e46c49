import { BASES, type Basis } from '../quantity/basis.ts'

/** Bases as the bits of one number, in the order of their rank. */
export function basesToBits(bases: readonly Basis[]): number {
  return bases.reduce((bits, basis) => bits | (1 << BASES.indexOf(basis)), 0)
}

export function bitsToBases(bits: number): readonly Basis[] {
  return BASES.filter((_, at) => (bits & (1 << at)) !== 0)
}
