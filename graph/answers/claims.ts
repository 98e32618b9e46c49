import { standardUncertainty } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import type { Claim, Fact, TeardownRecord } from '../record/record.ts'
import { refutedIn } from '../record/refuted.ts'
import { answerOf, type Context } from './context.ts'

/** Properties whose claims disagree, or that rest on a refuted finding. */
export function cause({ record }: Context, ask: 'disputed' | 'rests-on-refuted'): Found {
  const facts = [...record.facts.values()]
  const refuted = refutedIn(record)
  const paths =
    ask === 'disputed'
      ? facts.filter((fact) => disputed(record, fact))
      : facts.filter(({ taken }) => taken.evidence.restsOn.some((finding) => refuted.has(finding)))
  return answerOf(paths.map((fact) => fact.path))
}

/** Two values are compatible when they differ by no more than this many uncertainties of their difference. */
const COMPATIBLE = 2

function disputed(record: TeardownRecord, { claims }: Fact): boolean {
  const values = claims.filter((claim) => claim.quantity && !claim.quantity.bound && claim.of === undefined)
  return values.some((a, at) => values.slice(at + 1).some((b) => alike(record, a, b) && !compatible(record, a, b)))
}

/** Relative difference up to which two conditions count as the same. */
const SAME_CONDITION = 0.02

/** Claims made under different conditions (10 kHz and 200 kHz) answer different questions: they cannot disagree. */
function alike({ facts }: TeardownRecord, a: Claim, b: Claim): boolean {
  return Object.entries(a.at ?? {}).every(([name, path]) => {
    const [one, other] = [path, b.at?.[name]].map((at) =>
      at === undefined ? undefined : facts.get(at)?.taken.quantity,
    )
    if (!one || !other) return true
    return Math.abs(one.value - other.value) <= SAME_CONDITION * Math.max(Math.abs(one.value), Math.abs(other.value))
  })
}

/** Metrological compatibility; a cause both claims share does not part them. */
function compatible(record: TeardownRecord, a: Claim, b: Claim): boolean {
  const parts = new Map<string, number>()
  for (const [claim, sign] of [
    [a, 1],
    [b, -1],
  ] as const) {
    const { value, terms } = claim.quantity!
    for (const term of terms) {
      const influence = record.influences.get(term.influence)
      const u = influence ? standardUncertainty(influence.shape) : 0
      const component = sign * term.weight * u * (term.mode === 'scale' ? value : 1)
      parts.set(term.influence, (parts.get(term.influence) ?? 0) + component)
    }
  }
  const u = Math.sqrt([...parts.values()].reduce((sum, one) => sum + one * one, 0))
  return Math.abs(a.quantity!.value - b.quantity!.value) <= COMPATIBLE * u
}
