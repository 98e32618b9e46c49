import { closest } from '../graph/record/suggest.ts'
import { traits } from '../queries/traits/registry.ts'
import { Fault } from './errors.ts'

/** What rows of a comparison are gathered by: `kind`, or the id of a trait; null when by nothing. */
export function groupName(
  group: { kind?: boolean | null | undefined; trait?: string | null | undefined } | null | undefined,
): string | null {
  if (!group?.trait) return group?.kind ? 'kind' : null
  const ids = traits.map(({ id }) => id)
  if (ids.includes(group.trait)) return group.trait
  const near = closest(group.trait, ids)
  throw new Fault(
    'USAGE',
    `no trait "${group.trait}"`,
    `${near ? `did you mean ${near}? ` : ''}known traits: ${ids.join(', ')}`,
  )
}
