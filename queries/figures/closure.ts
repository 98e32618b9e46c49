import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { volumeOf } from './power.ts'

/** Sum over the parts list of one property, with the parts that state none. */
export interface PartSum {
  readonly total: number
  readonly without: readonly Path[]
  readonly stated: number
}

/** A stated total of a part stands for everything inside it; only where there is none is it summed from what is inside. */
export function partSum(view: View, name: 'mass' | 'volume'): PartSum {
  const without: Path[] = []
  let total = 0
  let stated = 0
  const visit = (entry: Path): void => {
    const count = view.find({ ask: 'pieces', of: entry }).paths.length
    const all = view.may(asPath(`${entry}/${name}-of-all`))
    const each = all === undefined ? view.may(asPath(`${entry}/${name}`)) : undefined
    if (all !== undefined || each !== undefined) {
      total += all ?? each! * count
      stated++
      return
    }
    const inside = view.find({ ask: 'entries-inside', part: entry }).paths
    if (inside.length === 0) without.push(entry)
    for (const child of inside) visit(child)
  }
  for (const top of view.find({ ask: 'top-parts' }).paths) visit(top)
  return { total, without, stated }
}

const massParts: Model<PartSum> = { id: 'part masses', compute: (view) => partSum(view, 'mass') }
const volumeParts: Model<PartSum> = { id: 'part volumes', compute: (view) => partSum(view, 'volume') }

function unexplained(view: View, whole: number, { total, without, stated }: PartSum, what: string): number {
  if (stated === 0) return view.fail(`no part states its ${what}: weigh or measure the largest first`)
  noteWithout(view, without, what)
  return (whole - total) / whole
}

function noteWithout(view: View, without: readonly Path[], what: string): void {
  if (without.length === 0) return
  const names = without.map((path) => path.replace(/^parts\//, ''))
  view.note(
    `${without.length} part(s) state no ${what}: ${names.slice(0, 10).join(', ')}${names.length > 10 ? ' …' : ''}`,
  )
}

const partsMass = defineFigure({
  id: 'PARTS_MASS',
  title: 'Sum of the part masses',
  definition: 'Sum of the recorded part masses, each once: a stated total of a part stands for all that is inside it.',
  unit: 'kg',
  subject: 'specimen',
  honours: ['counts'],
  method: 'sum over the parts list',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    view.setting('counts')
    const { total, stated, without } = view.model(massParts, specimen)
    if (stated === 0) return view.fail('no part states its mass: weigh the largest first')
    noteWithout(view, without, 'mass')
    return total
  },
})

const massRemainder = defineFigure({
  id: 'MASS_REMAINDER',
  title: 'Unexplained mass',
  definition: 'Unit mass less the sum of the recorded part masses.',
  unit: 'kg',
  subject: 'specimen',
  honours: ['counts'],
  uses: ['PARTS_MASS'],
  method: 'unit mass − PARTS_MASS',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    const [{ mass }, parts] = view.all(
      () => view.need({ mass: asPath('specimen/mass') }),
      () => view.figure('PARTS_MASS', specimen),
    )
    return mass - parts
  },
})

const massClosure = defineFigure({
  id: 'MASS_CLOSURE',
  title: 'Unexplained share of the mass',
  definition: 'Unit mass less the sum of the recorded part masses, over the unit mass. Parts without a mass are named.',
  unit: '%',
  subject: 'specimen',
  honours: ['counts'],
  method: 'mass closure; a stated total stands for all that is inside',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    view.setting('counts')
    const [{ mass }, sum] = view.all(
      () => view.need({ mass: asPath('specimen/mass') }),
      () => view.model(massParts, specimen),
    )
    return unexplained(view, mass, sum, 'mass')
  },
})

const volumeClosure = defineFigure({
  id: 'VOLUME_CLOSURE',
  title: 'Unexplained share of the volume',
  definition: 'Unit volume of the kind asked for less the sum of the recorded part volumes, over the unit volume.',
  unit: '%',
  subject: 'specimen',
  honours: ['volume', 'counts', 'boundary'],
  method: 'volume closure; a stated total stands for all that is inside',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view, specimen) {
    view.setting('counts')
    const [volume, sum] = view.all(
      () => view.model(volumeOf, specimen),
      () => view.model(volumeParts, specimen),
    )
    return unexplained(view, volume, sum, 'volume')
  },
})

export const closureFigures = [partsMass, massRemainder, massClosure, volumeClosure] as const
