import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { type CoreFactsInputs, familyVerdicts } from '../physics/core-family.ts'
import type { CoreFamily } from '../physics/core-material.ts'
import { below } from './paths.ts'

/**
 * Families of material that the recorded facts of a core leave possible; null when there is no fact. Saturation is left
 * out: where it is on record it was as a rule taken from the family that one supposed.
 */
export function possibleFamilies(view: View, core: Path, known?: number): readonly CoreFamily[] | null {
  const permeability = known ?? view.may(below(core, 'permeability'))
  const density = bareDensity(view, core)
  const resistivity = view.may(below(core, 'resistivity'))
  const halved = permeability === undefined ? undefined : view.may(below(core, 'cut-off-frequency'))
  const facts: CoreFactsInputs = {
    ...(permeability !== undefined && { permeability }),
    ...(density !== undefined && { density }),
    ...(resistivity !== undefined && { resistivity }),
    ...(halved !== undefined && { frequency: halved, retained: 0.5 }),
  }
  if (!Object.values(facts).every((one) => one > 0) || Object.keys(facts).length === 0) return null
  return familyVerdicts(facts)
    .filter(({ against }) => against.length === 0)
    .map(({ family }) => family)
}

/** Mass over the ring's own volume; a case or coating would weigh in, so only of a core that has none on record. */
function bareDensity(view: View, core: Path): number | undefined {
  if (view.may(below(core, 'over-case/height')) !== undefined) return undefined
  const at = (name: string): number | undefined =>
    view.may(below(core, `magnetic/${name}`)) ?? view.may(below(core, name))
  const [outer, inner, height] = [at('outer-diameter'), at('inner-diameter'), at('height')]
  const mass = view.may(below(core, 'mass'))
  if (outer === undefined || inner === undefined || height === undefined || mass === undefined) return undefined
  const volume = (Math.PI / 4) * (outer ** 2 - inner ** 2) * height
  return volume > 0 ? mass / volume : undefined
}
