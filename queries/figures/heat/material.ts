import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { below } from '../paths.ts'

/** A property of a part: its own, else that of its material. Neither: both are named as what to find out. */
export function ofMaterial(view: View, part: Path, name: 'conductivity' | 'density' | 'specific-heat'): number {
  const own = view.may(below(part, name))
  if (own !== undefined) return own
  const material = view.mayWord(below(part, 'material'))
  if (material !== undefined) {
    const value = view.may(below('materials' as Path, `${material}/${name}`))
    if (value !== undefined) return value
  }
  return view.first([
    { name: 'of the part', read: () => view.need({ value: below(part, name) }).value },
    {
      name: 'of its material',
      read: () =>
        view.need({ value: below('materials' as Path, `${view.word(below(part, 'material'))}/${name}`) }).value,
    },
  ]).value
}
