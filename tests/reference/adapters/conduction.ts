import { interfaceSheet, layerStack } from '../../../queries/physics/layer-stack.ts'
import { diesOnPlate, sourceOnPlate } from '../../../queries/physics/plate-source.ts'
import { discSpreading, halfSpaceSource, spreadingCone } from '../../../queries/physics/spreading-closed.ts'
import { stackField } from '../../../queries/physics/stack-field.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity, toSi } from './inputs.ts'

type Answer = Record<string, number>

const listOr = (input: Case, many: string, one: string): readonly number[] =>
  Array.isArray(input.inputs[many]) ? quantities(input, many) : [quantity(input, one)]

function conduction(input: Case): Answer {
  const thicknesses = quantities(input, 'thicknesses')
  const areas = Array.isArray(input.inputs.areas)
    ? quantities(input, 'areas')
    : thicknesses.map(() => quantity(input, 'area'))
  const film = maybeQuantity(input, 'coefficient')
  const found = layerStack({
    thicknesses,
    thermalConductivities: quantities(input, 'conductivities'),
    areas,
    ...(Array.isArray(input.inputs.contactResistances)
      ? { contactResistivities: quantities(input, 'contactResistances') }
      : {}),
    ...(film === undefined ? {} : { filmCoefficient: film }),
  })
  return {
    ...Object.fromEntries(found.layerResistances.map((resistance, i) => [`layer${i + 1}`, resistance])),
    ...(found.filmResistance === undefined ? {} : { convection: found.filmResistance }),
    total: found.total,
    areaSpecificTotal: found.specificResistance,
    lowerBound: found.lowerBound,
    upperBound: found.upperBound,
  }
}

function sheet(input: Case): Answer {
  return interfaceSheet({
    thickness: quantity(input, 'thickness'),
    thermalConductivity: quantity(input, 'conductivity'),
    area: quantity(input, 'area'),
    firstContact: maybeQuantity(input, 'contactResistance1') ?? maybeQuantity(input, 'contactResistance') ?? 0,
    secondContact: maybeQuantity(input, 'contactResistance2') ?? maybeQuantity(input, 'contactResistance') ?? 0,
  })
}

/** Rows of [name, thickness mm, conductivity, area mm²]; the published bracket and the split into measured and assumed. */
function openStack(input: Case): Answer {
  const rows = input.inputs.layers as readonly (readonly [string, number, number, number])[]
  const stack = (some: typeof rows) => ({
    thicknesses: some.map(([, thickness]) => toSi(thickness, 'mm')),
    thermalConductivities: some.map(([, , conductivity]) => conductivity),
    areas: some.map(([, , , area]) => toSi(area, 'mm2')),
  })
  const all = layerStack({
    ...stack(rows),
    filmCoefficient: quantity(input, 'film'),
    filmArea: quantity(input, 'film_area'),
  })
  const assumed = Number(
    /last (\w+) layers are assumed/
      .exec(input.note ?? '')?.[1]
      ?.replace('three', '3')
      .replace('two', '2') ?? 0,
  )
  const of = (some: typeof rows) => (some.length === 0 ? 0 : layerStack(stack(some)).total)
  const cut = rows.length - assumed
  return {
    measured_layers: of(rows.slice(0, cut)),
    assumed_layers: of(rows.slice(cut)),
    film: all.filmResistance ?? Number.NaN,
    total: all.total,
    lower_bound_full_spreading: all.lowerBound,
    upper_bound_no_spreading: all.upperBound,
  }
}

function spreading(input: Case): Answer | undefined {
  if (Array.isArray(input.inputs.layers)) return stackCase(input)
  if (maybeQuantity(input, 'angle') !== undefined) {
    return spreadingCone({
      ...sourceSides(input),
      thickness: quantity(input, 'thickness'),
      thermalConductivity: quantity(input, 'conductivity'),
      coneAngle: quantity(input, 'angle'),
    })
  }
  if (maybeQuantity(input, 'sourceArea') !== undefined) {
    const found = discSpreading({
      sourceArea: quantity(input, 'sourceArea'),
      plateArea: quantity(input, 'plateArea'),
      thickness: quantity(input, 'thickness'),
      thermalConductivity: quantity(input, 'conductivity'),
      filmCoefficient: quantity(input, 'coefficient'),
    })
    return { resistanceMean: found.meanResistance, resistanceMax: found.centreResistance }
  }
  if (Array.isArray(input.inputs.centres)) return diesCase(input)
  if (maybeQuantity(input, 'plateX') === undefined) {
    const found = halfSpaceSource({ ...sourceSides(input), thermalConductivity: quantity(input, 'conductivity') })
    return { resistanceMean: found.meanResistance, resistanceMax: found.centreResistance }
  }
  const [centreX, centreY] = [maybeQuantity(input, 'centreX'), maybeQuantity(input, 'centreY')]
  const found = sourceOnPlate({
    ...sourceSides(input),
    ...plateOf(input),
    ...(centreX === undefined ? {} : { centreX }),
    ...(centreY === undefined ? {} : { centreY }),
  })
  return {
    resistanceMean: found.meanResistance,
    resistanceMax: found.centreResistance,
    resistanceOneDimensional: found.evenResistance,
    spreadingMean: found.meanSpreading,
    spreadingMax: found.centreSpreading,
  }
}

function sourceSides(input: Case): { sourceX: number; sourceY: number } {
  const side = maybeQuantity(input, 'side')
  return side === undefined
    ? { sourceX: quantity(input, 'sourceX'), sourceY: quantity(input, 'sourceY') }
    : { sourceX: side, sourceY: side }
}

function plateOf(input: Case) {
  const [thicknesses, conductivities] = [
    listOr(input, 'thicknesses', 'thickness'),
    listOr(input, 'conductivities', 'conductivity'),
  ]
  const upwards = /bottom|upwards/i.test(`${input.inputs.layerOrder ?? ''}`)
  return {
    plateX: quantity(input, 'plateX'),
    plateY: quantity(input, 'plateY'),
    thicknesses: upwards ? [...thicknesses].reverse() : thicknesses,
    thermalConductivities: upwards ? [...conductivities].reverse() : conductivities,
    filmCoefficient: quantity(input, 'coefficient', 'coefficientBottom'),
  }
}

/** Dies of one size on a plate; own and mutual resistance of the first two, and each with all powered by one watt. */
function diesCase(input: Case): Answer {
  const unit = typeof input.inputs.centreUnit === 'string' ? input.inputs.centreUnit : 'm'
  const centres = (input.inputs.centres as readonly (readonly [number, number])[]).map(
    ([x, y]) => [toSi(x, unit), toSi(y, unit)] as const,
  )
  const found = diesOnPlate({
    ...plateOf(input),
    dieX: centres.map(() => quantity(input, 'dieX', 'sourceX')),
    dieY: centres.map(() => quantity(input, 'dieY', 'sourceY')),
    centresX: centres.map(([x]) => x),
    centresY: centres.map(([, y]) => y),
    losses: centres.map(() => 1),
  })
  const answer: Answer = {
    own: found.resistances[0]!,
    mutual: found.resistances[1]!,
    bothPoweredPerDie: found.rises[0]!,
    allPoweredPerDie: found.rises[0]!,
  }
  for (const [i] of centres.entries()) {
    answer[`rise${i + 1}`] = found.rises[i]!
    for (const [j] of centres.entries()) answer[`r${i + 1}${j + 1}`] = found.resistances[i * centres.length + j]!
  }
  return answer
}

function stackCase(input: Case): Answer {
  const rows = input.inputs.layers as readonly Readonly<Record<string, number | string>>[]
  const number = (row: Readonly<Record<string, number | string>>, key: string) => Number(row[key])
  const layers = rows.map((row) => ({
    thickness: toSi(number(row, 'thickness_mm'), 'mm'),
    thermalConductivity: number(row, 'conductivity_W_mK'),
    x: toSi(number(row, 'x_mm'), 'mm'),
    y: toSi(number(row, 'y_mm'), 'mm'),
  }))
  const named = rows.findIndex((row) => `${input.inputs.source}`.endsWith(`layer ${row.name}`))
  const topCoefficient = maybeQuantity(input, 'coefficientTop')
  const found = stackField({
    layers,
    source: {
      layer: named < 0 ? layers.length - 1 : named,
      x: quantity(input, 'sourceX'),
      y: quantity(input, 'sourceY'),
    },
    bottomCoefficient: quantity(input, 'coefficientBottom', 'coefficient'),
    ...(topCoefficient === undefined ? {} : { topCoefficient }),
  })
  return {
    resistanceMean: found.meanResistance,
    resistanceMax: found.centreResistance,
    shareBottom: found.bottomShare,
    shareTop: found.topShare,
  }
}

const BY_TOPIC: Readonly<Record<string, (input: Case) => Answer | undefined>> = {
  conduction,
  interface: sheet,
  spreading,
  'layer stack with lower and upper bound': openStack,
}

export const conductionAdapter: Adapter = {
  topics: Object.keys(BY_TOPIC),
  answer: (input) => BY_TOPIC[input.topic]?.(input),
}
