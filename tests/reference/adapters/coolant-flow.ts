import { type CoolantTree, ductPassage, powerLawPassage, splitFlow } from '../../../queries/physics/coolant-network.ts'
import {
  blasiusFriction,
  colebrookFriction,
  ductPressureDrop,
  ductSection,
  frictionFactor,
  petukhovFriction,
  rectangularFrictionRe,
} from '../../../queries/physics/duct.ts'
import { fittingsLoss, stepLoss } from '../../../queries/physics/minor-loss.ts'
import { parallelTubes } from '../../../queries/physics/parallel-ducts.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity } from './inputs.ts'

type Answer = Record<string, number>

const has = (input: Case, name: string) => input.inputs[name] !== undefined

/** The number that a key carries behind its last underscore: `f_2300` → 2300. */
const keyed = (input: Case, prefix: string): readonly (readonly [key: string, at: number])[] =>
  Object.keys(input.expected).flatMap((key) =>
    key.startsWith(prefix) ? [[key, Number(key.slice(prefix.length))] as const] : [],
  )

function friction(input: Case): Answer | undefined {
  if (has(input, 'aspectRatios')) {
    const darcy = keyed(input, 'fDarcyRe_').map(([key, aspect]) => [key, rectangularFrictionRe(aspect)] as const)
    const fanning = keyed(input, 'fFanningRe_').map(
      ([key, aspect]) => [key, rectangularFrictionRe(aspect) / 4] as const,
    )
    return Object.fromEntries([...darcy, ...fanning])
  }
  if (has(input, 'shapes')) {
    return {
      circular: ductSection({ shape: 'circular', diameter: 1 }).laminarFrictionRe,
      parallelPlates: ductSection({ shape: 'parallel-plates', height: 1 }).laminarFrictionRe,
      square: ductSection({ shape: 'rectangular', width: 1, height: 1 }).laminarFrictionRe,
    }
  }
  if (has(input, 'flow') || has(input, 'velocity')) return ductCase(input)
  const relativeRoughness = maybeQuantity(input, 'relativeRoughness') ?? 0
  if (Array.isArray(input.inputs.reynolds)) {
    return Object.fromEntries(
      keyed(input, 'f_').map(([key, reynolds]) => [key, frictionFactor({ reynolds, relativeRoughness })]),
    )
  }
  const reynolds = quantity(input, 'reynolds')
  const smooth = maybeQuantity(input, 'reynoldsSmooth') ?? reynolds
  return {
    colebrook: colebrookFriction({ reynolds, relativeRoughness }),
    churchill: frictionFactor({ reynolds, relativeRoughness }),
    frictionFactor: frictionFactor({ reynolds, relativeRoughness }),
    blasiusSmooth: blasiusFriction(smooth),
    petukhovSmooth: petukhovFriction(smooth),
    colebrookSmooth: colebrookFriction({ reynolds: smooth }),
    churchillSmooth: frictionFactor({ reynolds: smooth }),
  }
}

function ductCase(input: Case): Answer {
  const round = maybeQuantity(input, 'diameter') ?? maybeQuantity(input, 'hydraulicDiameter')
  const shape =
    round === undefined
      ? ({
          shape: 'rectangular',
          width: quantity(input, 'channelWidth', 'width'),
          height: quantity(input, 'channelHeight', 'height'),
        } as const)
      : ({ shape: 'circular', diameter: round } as const)
  const count = maybeQuantity(input, 'channels') ?? 1
  const flow = maybeQuantity(input, 'flow') ?? quantity(input, 'velocity') * ductSection(shape).area * count
  const result = ductPressureDrop({
    ...shape,
    count,
    flow,
    length: quantity(input, 'length', 'channelLength'),
    density: quantity(input, 'density'),
    viscosity: quantity(input, 'viscosity'),
    roughness: maybeQuantity(input, 'roughness') ?? 0,
    minorLoss: maybeQuantity(input, 'lossCoefficient') ?? 0,
    frictionLaw: /laminar/i.test(input.quantity) ? 'laminar' : 'all-regimes',
  })
  return { ...result, frictionFactor: result.frictionFactor ?? Number.NaN }
}

function minorLoss(input: Case): Answer {
  const [density, flow] = [quantity(input, 'density'), quantity(input, 'flow')]
  const small = quantity(input, 'smallDiameter', 'diameter')
  const fittings = fittingsLoss({
    lossFactors: has(input, 'lossCoefficients') ? quantities(input, 'lossCoefficients') : [],
    diameter: small,
    flow,
    density,
  })
  const answer: Answer = {
    velocitySmall: fittings.velocity,
    velocity: fittings.velocity,
    fittingsLoss: fittings.pressureDrop,
  }
  const large = maybeQuantity(input, 'largeDiameter')
  if (large === undefined) return answer
  const area = (diameter: number) => ductSection({ shape: 'circular', diameter }).area
  const wider = stepLoss({ upstreamArea: area(small), downstreamArea: area(large), flow, density })
  const narrower = stepLoss({ upstreamArea: area(large), downstreamArea: area(small), flow, density })
  return {
    ...answer,
    expansionLoss: wider.pressureDrop,
    expansionStaticRise: wider.staticRise,
    contractionLoss: narrower.pressureDrop,
    contractionStaticDrop: -narrower.staticRise,
  }
}

function flowNetwork(input: Case): Answer | undefined {
  if (has(input, 'coefficients')) return powerNetwork(input)
  if (has(input, 'branch1Diameter')) return tubes(input)
  return groups(input)
}

/** "p1, then p2 in parallel with (p3, then …)" with one coefficient for each p; exponent 2 unless the unit says otherwise. */
function powerNetwork(input: Case): Answer {
  const unit = `${input.inputs.coefficientUnit ?? ''}`
  const exponent =
    maybeQuantity(input, 'exponent') ??
    Number(/\)(\d+(?:\.\d+)?)$/.exec(unit)?.[1] ?? (/\(m3\/s\)$|s\/m3/.test(unit) ? 1 : 2))
  const factors = input.inputs.coefficients as readonly number[]
  const passage = (name: string) => powerLawPassage({ id: name, factor: factors[Number(name.slice(1)) - 1]!, exponent })
  const split = splitFlow({ tree: readSequence(`${input.inputs.sequence}`, passage), flow: quantity(input, 'flow') })
  const answer: Answer = { pressureDropTotal: split.pressureDrop, pressureDrop: split.pressureDrop }
  for (const [id, flow] of Object.entries(split.flows)) answer[`flow${id.slice(1)}`] = flow
  for (const [id, drop] of Object.entries(split.drops)) answer[`pressureDrop${id.slice(1)}`] = drop
  return answer
}

/** Reads "a, then b in parallel with (c, then d)" into a tree. */
function readSequence(text: string, passage: (name: string) => CoolantTree): CoolantTree {
  const tokens = text.match(/p\d+|\(|\)|in parallel with|then/g) ?? []
  let at = 0
  const atom = (): CoolantTree => {
    const token = tokens[at++]
    if (token !== '(') return passage(token ?? '')
    const inner = series()
    at++
    return inner
  }
  const parallel = (): CoolantTree => {
    const branches = [atom()]
    while (tokens[at] === 'in parallel with') {
      at++
      branches.push(atom())
    }
    return branches.length === 1 ? branches[0]! : { parallel: branches }
  }
  const series = (): CoolantTree => {
    const parts = [parallel()]
    while (tokens[at] === 'then') {
      at++
      parts.push(parallel())
    }
    return { series: parts }
  }
  return series()
}

function tubes(input: Case): Answer {
  const numbers = Object.keys(input.inputs).flatMap((key) => /^branch(\d+)Diameter$/.exec(key)?.[1] ?? [])
  const each = (what: string, otherwise?: number) =>
    numbers.map((n) => maybeQuantity(input, `branch${n}${what}`) ?? otherwise ?? Number.NaN)
  const [density, viscosity] = [quantity(input, 'density'), quantity(input, 'viscosity')]
  const feed = maybeQuantity(input, 'feedDiameter')
  const diameters = each('Diameter')
  const result = parallelTubes({
    diameters,
    lengths: each('Length'),
    roughnesses: each('Roughness', 0),
    minorLosses: each('LossCoefficient', 0),
    ...(feed === undefined
      ? {}
      : {
          feedDiameter: feed,
          feedLength: quantity(input, 'feedLength'),
          feedRoughness: maybeQuantity(input, 'feedRoughness') ?? 0,
          feedMinorLoss: maybeQuantity(input, 'feedLossCoefficient') ?? 0,
        }),
    flow: quantity(input, 'flow'),
    density,
    viscosity,
  })
  const answer: Answer = {
    pressureDropBranches: result.branchDrop,
    pressureDropFeed: result.feedDrop,
    pressureDropTotal: result.pressureDrop,
    pressureDrop: result.pressureDrop,
  }
  for (const [i, n] of numbers.entries()) {
    const flow = result.flows[i]!
    answer[`flow${n}`] = flow
    answer[`share${n}`] = result.shares[i]!
    answer[`reynolds${n}`] = ductPressureDrop({
      shape: 'circular',
      diameter: diameters[i]!,
      length: 1,
      flow,
      density,
      viscosity,
    }).reynolds
  }
  return answer
}

/** Groups A, B, … in parallel: channels (width and height, laminar) or tubes (diameter), equal in length unless told. */
function groups(input: Case): Answer | undefined {
  const letters = Object.keys(input.inputs).flatMap((key) => /^(?:width|diameter)([A-Z])$/.exec(key)?.[1] ?? [])
  if (letters.length === 0) return undefined
  const law = /blasius/i.test(input.quantity) ? 'blasius' : /laminar/i.test(input.quantity) ? 'laminar' : 'all-regimes'
  const of = (what: string, letter: string) => maybeQuantity(input, `${what}${letter}`)
  // Where a case leaves the fluid, the length or the flow out, the split does not depend on them: any will do.
  const fluid = {
    density: maybeQuantity(input, 'density') ?? 1000,
    viscosity: maybeQuantity(input, 'viscosity') ?? 1e-3,
  }
  const passages = letters.map((letter) => {
    const diameter = of('diameter', letter)
    const shape =
      diameter === undefined
        ? ({ shape: 'rectangular', width: of('width', letter)!, height: of('height', letter)! } as const)
        : ({ shape: 'circular', diameter } as const)
    return ductPassage({
      id: letter,
      ...shape,
      ...fluid,
      count: of('channels', letter) ?? 1,
      length: of('length', letter) ?? 1,
      roughness: of('roughness', letter) ?? 0,
      minorLoss: of('lossCoefficient', letter) ?? 0,
      frictionLaw: law,
    })
  })
  const flow = maybeQuantity(input, 'flow') ?? 1e-3
  const split = splitFlow({ tree: { parallel: passages }, flow })
  const answer: Answer = { pressureDrop: split.pressureDrop, pressureDropTotal: split.pressureDrop }
  for (const letter of letters) {
    answer[`flow${letter}`] = split.flows[letter]!
    answer[`share${letter}`] = split.flows[letter]! / flow
    for (const other of letters) answer[`flowRatio${letter}to${other}`] = split.flows[letter]! / split.flows[other]!
  }
  return answer
}

export const coolantFlowAdapter: Adapter = {
  topics: ['friction', 'minor-loss', 'flow-network'],
  answer: (input) =>
    input.topic === 'friction' ? friction(input) : input.topic === 'minor-loss' ? minorLoss(input) : flowNetwork(input),
}
