import { asPath, type Path, standardUncertainty } from '../quantity/quantity.ts'
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

/** Sense and number of a value that is known only as a bound. */
export function boundOf({ record }: Context, value: Path): Found {
  const taken = record.facts.get(value)?.taken
  const bound = taken?.quantity?.bound
  if (!taken || bound === undefined) return answerOf([])
  return answerOf([bound, String(taken.quantity!.value)].map(asPath), [taken.evidence])
}

/** Two values are compatible when they differ by no more than this many uncertainties of their difference. */
const COMPATIBLE = 2

function disputed(record: TeardownRecord, { claims }: Fact): boolean {
  const values = claims.filter((claim) => claim.quantity && claim.of === undefined)
  return values.some((a, at) => values.slice(at + 1).some((b) => alike(record, a, b) && !agree(record, a, b)))
}

/** Whether two claims are of the same conditions: a resistance at 25 °C and one at 125 °C need not agree. */
function alike({ facts }: TeardownRecord, a: Claim, b: Claim): boolean {
  const names = new Set([...Object.keys(a.at ?? {}), ...Object.keys(b.at ?? {})])
  const stated = ({ at }: Claim, name: string) => {
    const taken = at?.[name] && facts.get(at[name])?.taken
    return taken && (taken.quantity?.value ?? taken.word)
  }
  return [...names].every((name) => stated(a, name) === stated(b, name))
}

/** Values agree when they are compatible, a bound with whatever lies beyond it no further than its doubt. */
function agree(record: TeardownRecord, a: Claim, b: Claim): boolean {
  const difference = a.quantity!.value - b.quantity!.value
  const [over, under] = [a.quantity!.bound, b.quantity!.bound]
  if (over && under) return over === under || (over === '>' ? difference < 0 : difference > 0)
  if (over === '>' || under === '<') return difference <= COMPATIBLE * differenceDoubt(record, a, b)
  if (over === '<' || under === '>') return -difference <= COMPATIBLE * differenceDoubt(record, a, b)
  return Math.abs(difference) <= COMPATIBLE * differenceDoubt(record, a, b)
}

/** Standard uncertainty of the difference; a cause both claims share does not part them (JCGM 200:2012 2.47). */
function differenceDoubt(record: TeardownRecord, a: Claim, b: Claim): number {
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
  return Math.hypot(...parts.values())
}
