import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { possibleFamilies } from '../figures/core-family.ts'
import { known } from '../figures/heat/reading.ts'
import { defineTrait } from './trait.ts'

const coreFamily = defineTrait({
  id: 'core-family',
  title: 'Material family of the common-mode core',
  definition:
    'Which families of core material the recorded facts (permeability, density of a bare core, resistivity, where permeability has halved) leave possible; one is named only where the others are ruled out.',
  values: ['manganese-zinc', 'nickel-zinc', 'nanocrystalline', 'powder', 'several possible', 'none fits', 'mixed'],
  compute(view) {
    const cores = view.find({ ask: 'parts', class: 'one-turn-core' }).paths
    const told = new Set(cores.map((core) => familyOf(view, core)).filter((one) => one !== null))
    if (told.size === 0) return null
    return told.size === 1 ? [...told][0]! : 'mixed'
  },
})

function familyOf(view: View, core: Path): string | null {
  const permeability = known(view, () => view.figure('CORE_PERMEABILITY', core))
  const possible = possibleFamilies(view, core, permeability)
  if (possible === null) return null
  return possible.length === 1 ? possible[0]! : possible.length === 0 ? 'none fits' : 'several possible'
}

/** Loops whose inductances differ by less are alike: no more than places and cans a few millimetres off (common practice). */
const ALIKE = 0.1

const phaseSymmetry = defineTrait({
  id: 'phase-symmetry',
  title: 'Symmetry of the phases',
  definition:
    'Whether the commutation loops of the phases have one inductance to within a tenth of the smallest, as computed from the bars and capacitors on record.',
  values: ['alike', 'unequal'],
  compute(view) {
    const loops = view.find({ ask: 'bridge-loops' }).paths
    if (loops.length < 2) return null
    const all = loops.map((loop) => view.figure('LOOP_INDUCTANCE', asPath(loop)))
    return Math.max(...all) <= (1 + ALIKE) * Math.min(...all) ? 'alike' : 'unequal'
  },
})

export const computedTraits = [coreFamily, phaseSymmetry] as const
