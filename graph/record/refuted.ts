import { rankOf } from '../quantity/basis.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Claim, Fact, TeardownRecord } from './record.ts'

interface Resting {
  readonly path: Path
  readonly status: string | undefined
  readonly on: readonly Path[]
}

function findingsOf({ sheet }: TeardownRecord): readonly Resting[] {
  return (sheet.findings ?? []).map((one) => ({
    path: asPath(`findings/${one.id}`),
    status: one.status,
    on: [one['rests-on'] ?? []].flat().map((id) => asPath(`findings/${id.replace(/^findings\//, '')}`)),
  }))
}

/** Some findings, and those that they rest on in turn. */
export function withGrounds(record: TeardownRecord, some: Iterable<Path>): ReadonlySet<Path> {
  const all = new Set(some)
  if (all.size === 0) return all
  const on = new Map(findingsOf(record).map((one) => [one.path, one.on]))
  for (const finding of all) for (const ground of on.get(finding) ?? []) all.add(ground) // grows while it is gone through
  return all
}

/** Findings of a record that were refuted, and those that rest on them. */
export function refutedIn(record: TeardownRecord): ReadonlySet<Path> {
  const findings = findingsOf(record)
  const refuted = new Set(findings.filter(({ status }) => status === 'refuted').map(({ path }) => path))
  for (let before = -1; before < refuted.size && refuted.size > 0; ) {
    before = refuted.size
    for (const { path, on } of findings) if (on.some((one) => refuted.has(one))) refuted.add(path)
  }
  return refuted
}

/** The claim that stands: the one taken, or the best other one where that rests on a refuted finding; none, when all fall. */
export function standing({ taken, claims }: Fact, refuted: ReadonlySet<Path>): Claim | undefined {
  if (refuted.size === 0 || !falls(taken, refuted)) return taken
  const others = claims.filter((claim) => !falls(claim, refuted) && (claim.word !== undefined || isValue(claim)))
  return others.toSorted((a, b) => rankOf(a.evidence.basis) - rankOf(b.evidence.basis))[0]
}

const isValue = ({ quantity }: Claim): boolean => quantity !== undefined && quantity.bound === undefined

const falls = ({ evidence }: Claim, refuted: ReadonlySet<Path>): boolean =>
  evidence.restsOn.some((finding) => refuted.has(finding))
