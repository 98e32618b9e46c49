import type { Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { type Foster, ladderToFoster, transientImpedance } from '../physics/transient.ts'
import { defineFigure } from './figure.ts'
import { entriesWithin, heatInto, heatThrough, noPath, stateOf, temperatureAt } from './heat/at.ts'
import { coolingConductance } from './heat/film.ts'
import { ofMaterial } from './heat/material.ts'
import { throughPlateOf } from './heat/mutual.ts'
import { sayOnwards } from './heat/onwards.ts'
import { firstOf, known } from './heat/reading.ts'
import { areaOf } from './heat/spread.ts'
import { heatTopology, isSink, type Way } from './heat/topology.ts'
import { wayResistance } from './heat/ways.ts'
import { lossOf } from './loss.ts'
import { below, operating } from './paths.ts'
import { HEAT_POINT, junctionSubjects } from './thermal.ts'

/** A stretch of the way of heat: a resistance in the middle of which its own heat capacity sits. */
interface Stretch {
  readonly resistance: number
  /** Unknown for what has no material on record: it then stores nothing. */
  readonly capacity: number | undefined
}

/**
 * From a junction along its only way to coolant, air or frame, all for one watt of the junction: where more heat passes
 * than its own, it is given its share of the metal, and feels the rest as more resistance.
 */
const ladder: Model<Foster> = {
  id: 'thermal ladder',
  compute(view, piece) {
    const [entry] = entriesWithin(view, piece)
    if (!entry) return noPath(view, piece)
    const [own, stated, stretches] = view.all(
      () => dieCapacity(view, piece),
      () => view.model(lossOf, piece),
      () => stretchesFrom(view, entry.node),
    )
    sayOnwards(view, [entry.node])
    const loss = stateOf(view, entry.node).losses.get(entry.of) ?? stated
    if (!(loss > 0)) view.fail(`${piece} gives no heat`, 'refused', piece)
    const capacities = [own]
    const resistances = [0]
    for (const { heat, resistance, capacity } of stretches) {
      const more = heat / loss
      const last = resistances.length - 1
      resistances[last] = resistances[last]! + (resistance * more) / (capacity ? 2 : 1)
      if (!capacity) continue
      capacities.push(capacity / more)
      resistances.push((resistance * more) / 2)
    }
    return ladderToFoster({ heatCapacities: capacities, ladderResistances: resistances })
  },
}

function dieCapacity(view: View, piece: Path): number {
  const [size, density, specificHeat] = view.all(
    () =>
      view.need({
        length: below(piece, 'size/length'),
        width: below(piece, 'size/width'),
        height: below(piece, 'size/height'),
      }),
    () => ofMaterial(view, piece, 'density'),
    () => ofMaterial(view, piece, 'specific-heat'),
  )
  return size.length * size.width * size.height * density * specificHeat
}

function stretchesFrom(view: View, start: Path): readonly (Stretch & { readonly heat: number })[] {
  const found: (Stretch & { heat: number })[] = []
  let node = start
  for (;;) {
    const island = heatTopology(view).islandOf.get(node)
    const ways = island?.ways.filter(({ from }) => from === node) ?? []
    const coolings = island?.coolings.filter(({ face }) => face === node) ?? []
    const [way, cooling] = [ways[0], coolings[0]]
    if (ways.length + coolings.length > 1)
      view.fail(`heat parts at ${node}: a ladder stands for one way only`, 'not-applicable', node)
    if (cooling) {
      const { conductance } = view.model(coolingConductance, cooling.id)
      const heat = heatThrough(view, cooling.id)
      const capacity = coolerCapacity(view, node, heat)
      return [...found, { resistance: 1 / conductance, capacity, heat }]
    }
    if (!way) return noPath(view, node)
    const heat = heatThrough(view, way.id)
    found.push(...stretchesOf(view, way, heat).map((one) => ({ ...one, heat })))
    if (isSink(way.to)) return found
    node = way.to
  }
}

/** Layer by layer; a plate that other sources stand on as well resists more, and only its share of it stores for this one. */
function stretchesOf(view: View, { id, from, to, layers }: Way, heat: number): readonly Stretch[] {
  const { resistance, layers: resolved } = view.model(wayResistance, id)
  if (resolved.length === 0) return [{ resistance, capacity: undefined }]
  const shared = throughPlateOf(view, id)
  const beside = shared ? (temperatureAt(view, from) - endTemperature(view, to)) / heat - resistance : 0
  return resolved.map((one, n) => {
    const capacity = one.exit ? layerCapacity(view, layers[n]!.part, areaOf(one.exit)) : undefined
    if (capacity === undefined && !isThin(view, one.layer))
      view.note(`${one.layer} stores no heat here, for its size or material is not on record`)
    if (one.layer !== shared?.layer) return { resistance: one.resistance, capacity }
    const all = view.each(shared.ways, (way) => heatThrough(view, way)).reduce((sum, each) => sum + each, 0)
    return { resistance: one.resistance + beside, capacity: capacity && capacity * (heat / all) }
  })
}

const endTemperature = (view: View, to: Path): number =>
  isSink(to) ? view.need({ temperature: to }).temperature : temperatureAt(view, to)

/** Solder, paste and films of a fraction of a millimetre hold next to nothing. */
const isThin = (view: View, layer: Path): boolean => (view.may(below(layer, 'thickness')) ?? 1) < 0.3e-3

function layerCapacity(view: View, part: Path | undefined, area: number): number | undefined {
  if (part === undefined) return undefined
  return known(view, () => {
    if (view.may(below(part, 'ceramic-thickness')) !== undefined) return area * ceramicHeat(view, part)
    const [thickness, density, specificHeat] = view.all(
      () => firstOf(view, [below(part, 'thickness'), below(part, 'size/height')]),
      () => ofMaterial(view, part, 'density'),
      () => ofMaterial(view, part, 'specific-heat'),
    )
    return thickness * area * density * specificHeat
  })
}

/** Heat capacity per area of a ceramic with metal on both sides [J/(m².K)]. */
function ceramicHeat(view: View, part: Path): number {
  const of = (name: 'ceramic' | 'metal'): number => {
    const [{ thickness }, word] = view.all(
      () => view.need({ thickness: below(part, `${name}-thickness`) }),
      () => view.mayWord(below(part, `${name}-material`)) ?? view.word(below(part, 'material')),
    )
    const at = (property: string): Path => below('materials' as Path, `${word}/${property}`)
    const { density, specificHeat } = view.need({ density: at('density'), specificHeat: at('specific-heat') })
    return thickness * density * specificHeat
  }
  const metal = view.may(below(part, 'metal-thickness')) === undefined ? 0 : 2 * of('metal')
  return of('ceramic') + metal
}

/** Weighed metal that the coolant touches, the share of it that goes with the heat of one of its faces. */
function coolerCapacity(view: View, face: Path, heat: number): number | undefined {
  const topology = heatTopology(view)
  const piece = topology.pieceOf.get(face)!
  return known(view, () => {
    const [{ mass }, specificHeat] = view.all(
      () => view.need({ mass: below(piece, 'mass') }),
      () => ofMaterial(view, piece, 'specific-heat'),
    )
    const faces = [...topology.pieceOf].flatMap(([one, owner]) => (owner === piece ? [one] : []))
    const passages = new Set(
      [...topology.coolingById.values()].filter((one) => faces.includes(one.face)).map(({ passage }) => passage),
    )
    const all = view.each([...passages], (passage) => heatInto(view, passage)).reduce((sum, one) => sum + one, 0)
    return mass * specificHeat * (all > 0 ? heat / all : 1)
  })
}

const TIMES = [0.01, 0.1, 1, 10] as const

const transientResistance = defineFigure({
  id: 'TRANSIENT_RESISTANCE',
  title: 'Thermal resistance at the end of the operating point',
  definition:
    'Rise of a junction above its local coolant per watt of its loss when the operating point has lasted for its recorded duration, from cold: layers store heat by thickness, area and material, the cooler by its mass, each in the share of the heat that is the junction’s own. Only where heat takes one way. The note gives it at other times.',
  unit: 'K/W',
  subject: 'component',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method: 'ladder of resistances and heat capacities (Cauer), each layer a T, brought to Foster form; step response',
  sources: ['linear network, eigenvalues of the ladder; IEC 60747-15 uses both forms (from memory)'],
  subjects: junctionSubjects,
  compute(view, piece) {
    const [foster, { time }] = view.all(
      () => view.model(ladder, piece),
      () => view.need({ time: operating(view, 'duration') }),
    )
    view.note(
      view.choice(`transient ${piece}`, () =>
        TIMES.map((one) => `${one} s: ${transientImpedance({ ...foster, time: one }).toPrecision(3)} K/W`).join(', '),
      ),
    )
    return transientImpedance({ ...foster, time })
  },
})

export const impedanceFigures = [transientResistance] as const
