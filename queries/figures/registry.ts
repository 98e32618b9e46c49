import { boardFigures } from './boards.ts'
import { buildFigures } from './build.ts'
import { capacitorFigures } from './capacitors.ts'
import { closureFigures } from './closure.ts'
import { conductorFigures } from './conductors.ts'
import { coolantFigures } from './coolant.ts'
import { linkFigures } from './dc-link.ts'
import { evidenceFigures } from './evidence.ts'
import type { Figure } from './figure.ts'
import { gateDriveFigures } from './gate-drive.ts'
import { impedanceFigures } from './impedance.ts'
import { insulationFigures } from './insulation.ts'
import { jointFigures } from './joints.ts'
import { linkDischargeFigures } from './link-discharge.ts'
import { linkRippleFigures } from './link-ripple.ts'
import { loopFigures } from './loop.ts'
import { magneticFigures } from './magnetics.ts'
import { overshootFigures } from './overshoot.ts'
import { plumbingFigures } from './plumbing.ts'
import { powerFigures } from './power.ts'
import { sealFigures } from './seals.ts'
import { semiconductorFigures } from './semiconductor.ts'
import { heatFigures } from './thermal.ts'
import { transientFigures } from './transient.ts'

const others = [
  ...powerFigures,
  ...linkFigures,
  ...linkDischargeFigures,
  ...linkRippleFigures,
  ...capacitorFigures,
  ...loopFigures,
  ...overshootFigures,
  ...conductorFigures,
  ...jointFigures,
  ...magneticFigures,
  ...semiconductorFigures,
  ...gateDriveFigures,
  ...insulationFigures,
  ...boardFigures,
  ...heatFigures,
  ...coolantFigures,
  ...plumbingFigures,
  ...transientFigures,
  ...impedanceFigures,
  ...sealFigures,
  ...buildFigures,
  ...closureFigures,
] as const

const list = [...others, ...evidenceFigures(others)] as const

/** Every figure, in the order in which they are listed to a person. */
export const figures: readonly Figure[] = list

const byId = new Map<string, Figure>(checked(list).map((figure) => [figure.id, figure]))

/** @throws Error when no figure has this id: callers check names that a person typed with `hasFigure` first. */
export function figureById(id: string): Figure {
  const figure = byId.get(id)
  if (!figure) throw new Error(`no figure "${id}"`)
  return figure
}

export function hasFigure(id: string): boolean {
  return byId.has(id)
}

/** Refuses a second use of an id, a use of a figure that is not there, and a cycle between figures. */
export function checked(all: readonly Figure[]): readonly Figure[] {
  const known = new Map(all.map((figure) => [figure.id, figure]))
  if (known.size !== all.length) throw new Error('two figures share an id')
  const visit = (id: string, above: readonly string[]): void => {
    if (above.includes(id)) throw new Error(`figures depend on each other: ${[...above, id].join(' → ')}`)
    const figure = known.get(id)
    if (!figure) throw new Error(`${above.at(-1)} uses "${id}", which is no figure`)
    for (const used of figure.uses ?? []) visit(used, [...above, id])
  }
  for (const figure of all) visit(figure.id, [])
  return all
}
