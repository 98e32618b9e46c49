import { rankOf } from '../quantity/basis.ts'
import type { Claim } from './record.ts'
import type { StatedClaim } from './stated.ts'

/** A claim with what its rank depends on beside its basis. */
export interface Candidate {
  readonly claim: Claim
  readonly stated: StatedClaim
  /** Seen on a cut or damaged piece: never before a claim on the whole type. */
  readonly onDamaged: boolean
}

/**
 * The claim that holds when the sheet does not say: values before bounds, bounds before nothings; claims on the whole
 * type before those on a damaged piece; then by rank of basis; then the one written first.
 */
export function bestOf(candidates: readonly Candidate[]): Claim {
  let best = candidates[0] as Candidate
  for (const one of candidates) if (before(one, best)) best = one
  return best.claim
}

function before(a: Candidate, b: Candidate): boolean {
  const worth = worthOf(a.claim) - worthOf(b.claim)
  if (worth !== 0) return worth < 0
  if (a.onDamaged !== b.onDamaged) return b.onDamaged
  return rankOf(a.claim.evidence.basis) < rankOf(b.claim.evidence.basis)
}

function worthOf({ quantity, nothing }: Claim): number {
  if (nothing) return nothing === 'not-looked-for' ? 3 : 2
  return quantity?.bound ? 1 : 0
}
