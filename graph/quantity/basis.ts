/** Where a value comes from. The order is the rank: the first present is taken unless the sheet takes another. */
export const BASES = ['measured', 'marked', 'published', 'reported', 'computed', 'judged', 'assumed'] as const
export type Basis = (typeof BASES)[number]

/** Four kinds of nothing, never zero and never confused. */
export const NOTHINGS = ['not-looked-for', 'absent', 'not-applicable', 'unreadable'] as const
export type Nothing = (typeof NOTHINGS)[number]

/** Rank of a basis: smaller is better evidence. */
export function rankOf(basis: Basis): number {
  return BASES.indexOf(basis)
}

/** The weaker of two bases. */
export function weaker(a: Basis, b: Basis): Basis {
  return rankOf(a) >= rankOf(b) ? a : b
}
