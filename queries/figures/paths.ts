import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'

/** `below('parts/module.v', 'size/length')`. */
export function below(path: Path, name: string): Path {
  const names = joined.get(path) ?? new Map<string, Path>()
  const known = names.get(name)
  if (known !== undefined) return known
  const made = asPath(`${path}/${name}`)
  if (joined.size >= MOST) joined.clear()
  joined.set(path, names.set(name, made))
  return made
}

/** Paths put together before: a sampled evaluation asks for the same some thousand times a second. */
const joined = new Map<Path, Map<string, Path>>()
const MOST = 4096

/** A value of the operating point that the `power` setting picks. */
export function operating(view: View, name: string): Path {
  return asPath(`operating-points/${view.setting('power') === 'PEAK' ? 'peak' : 'continuous'}/${name}`)
}

/** The three lengths of a box property. */
export function box(path: Path): { readonly length: Path; readonly width: Path; readonly height: Path } {
  return { length: below(path, 'length'), width: below(path, 'width'), height: below(path, 'height') }
}

/** The three coordinates of a place property. */
export function place(path: Path): { readonly x: Path; readonly y: Path; readonly z: Path } {
  return { x: below(path, 'x'), y: below(path, 'y'), z: below(path, 'z') }
}
