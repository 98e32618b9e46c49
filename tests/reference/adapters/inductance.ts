import type { BarMutualInputs } from '../../../queries/physics/bar-methods.ts'
import { barMutual, barSelf, filamentMutual } from '../../../queries/physics/bar-methods.ts'
import { coplanarPair, laminatedPair, widePlates } from '../../../queries/physics/laminated.ts'
import { barRectangleMethod, wireCircleMethod, wireRectangleMethod } from '../../../queries/physics/loop.ts'
import { meanDistance } from '../../../queries/physics/mean-log.ts'
import { surfaceCoplanar, surfacePair } from '../../../queries/physics/perfect-conductor.ts'
import { twoWireLine, wireSelf } from '../../../queries/physics/round-wire.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { answersBy, need, read, story } from './spelling.ts'

/** Kinds are told apart by which inputs a case states. */
function partialInductance(input: Case): Answers | undefined {
  const radius = read(input, 'radius', 'wire_radius')
  if (radius !== undefined) {
    const { lowFrequency, highFrequency } = wireSelf.compute({ radius, length: need(input, 'length') })
    return answersBy(input, { 'L_dc|L|L_self': lowFrequency, L_hf: highFrequency })
  }
  if (read(input, 'bar1_width', 'width_1') !== undefined) return twoBars(input)
  const firstLength = read(input, 'length_1', 'first_length')
  if (firstLength !== undefined) {
    const { mutual } = filamentMutual.compute({
      firstLength,
      secondLength: need(input, 'length_2', 'second_length'),
      distance: need(input, 'distance'),
      startAlong: read(input, 'start_offset', 'offset') ?? 0,
    })
    return answersBy(input, { 'M|mutual': mutual })
  }
  const { self } = barSelf.compute({
    width: need(input, 'width', 'bar_width'),
    thickness: need(input, 'thickness', 'bar_thickness'),
    length: need(input, 'length', 'bar_length'),
  })
  return answersBy(input, { 'L_self|L|self': self })
}

/** Offsets of the cases run from low corner to low corner, those of the product from middle line to middle line. */
function twoBars(input: Case): Answers | undefined {
  const side = (bar: 1 | 2, name: string): number => need(input, `bar${bar}_${name}`, `${name}_${bar}`)
  const offset = (axis: string): number => read(input, `offset_${axis}_direction`, `offset_${axis}`) ?? 0
  const angle = read(input, 'angle', 'angle_between')
  const inputs: BarMutualInputs = {
    firstWidth: side(1, 'width'),
    firstThickness: side(1, 'thickness'),
    firstLength: side(1, 'length'),
    secondWidth: side(2, 'width'),
    secondThickness: side(2, 'thickness'),
    secondLength: side(2, 'length'),
    startAlong: offset('length'),
    startAcross: offset('width') + (side(2, 'width') - side(1, 'width')) / 2,
    startThrough: offset('thickness') + (side(2, 'thickness') - side(1, 'thickness')) / 2,
    ...(angle === undefined ? {} : { angle }),
  }
  const [first, second] = ([1, 2] as const).map((bar) =>
    barSelf.compute({ width: side(bar, 'width'), thickness: side(bar, 'thickness'), length: side(bar, 'length') }),
  )
  return answersBy(input, {
    'M|mutual': barMutual.compute(inputs).mutual,
    'L_self|L_self_1|L_1': first?.self,
    'L_self_2|L_2': second?.self,
  })
}

function loopInductance(input: Case): Answers | undefined {
  return rectangle(input) ?? circle(input) ?? wires(input) ?? meanDistanceOf(input) ?? pair(input)
}

function rectangle(input: Case): Answers | undefined {
  const sideA = read(input, 'side_a', 'centreline_side_a', 'length_a')
  const sideB = read(input, 'side_b', 'centreline_side_b', 'length_b') ?? read(input, 'side')
  const radius = read(input, 'wire_radius', 'radius')
  const widthInPlane = read(input, 'bar_width_in_loop_plane', 'width_in_loop_plane', 'bar_width')
  if (sideB === undefined || (radius === undefined && widthInPlane === undefined)) return undefined
  const sides = { sideA: sideA ?? sideB, sideB }
  const found =
    radius === undefined
      ? barRectangleMethod.compute({
          ...sides,
          widthInPlane: widthInPlane ?? Number.NaN,
          widthAcross: need(input, 'bar_thickness_across_plane', 'thickness_across_plane', 'bar_thickness'),
        })
      : wireRectangleMethod.compute({ ...sides, radius })
  return answersBy(input, { 'L|L_loop|L_mitred': found.mitred, L_partial_sum: found.partialSum })
}

function circle(input: Case): Answers | undefined {
  const loopRadius = read(input, 'loop_radius', 'mean_radius', 'ring_radius')
  if (loopRadius === undefined) return undefined
  const { lowFrequency, highFrequency } = wireCircleMethod.compute({
    loopRadius,
    radius: need(input, 'wire_radius', 'radius'),
  })
  return answersBy(input, { 'L|L_dc|L_loop': lowFrequency, L_hf: highFrequency })
}

function wires(input: Case): Answers | undefined {
  const centreDistance = read(input, 'centre_distance', 'axis_distance', 'spacing')
  const radius = read(input, 'radius', 'wire_radius')
  if (centreDistance === undefined || radius === undefined) return undefined
  const found = twoWireLine.compute({ radius, centreDistance })
  return answersBy(input, {
    'L_dc|L_per_length|L_dc_per_length': found.lowFrequencyPerLength,
    'L_hf|L_hf_per_length': found.highFrequencyPerLength,
  })
}

function meanDistanceOf(input: Case): Answers | undefined {
  const width = read(input, 'side_a', 'width')
  const thickness = read(input, 'side_b', 'thickness')
  if (!('GMD' in input.expected) || width === undefined || thickness === undefined) return undefined
  return answersBy(input, { GMD: meanDistance.compute({ width, thickness }).meanDistance })
}

const isCoplanar = (input: Case): boolean =>
  read(input, 'gap_edge_to_edge') !== undefined || /side by side|coplanar/.test(story(input))

/** Pairs: without thickness only the wide-plate limit, without length only what is per length. */
function pair(input: Case): Answers | undefined {
  const width = need(input, 'plate_width', 'bar_width', 'width')
  const gap = need(input, 'gap_face_to_face', 'gap_edge_to_edge', 'gap')
  const thickness = read(input, 'plate_thickness', 'bar_thickness', 'thickness')
  const length = read(input, 'length', 'bar_length', 'plate_length')
  const fast = /high-frequency|perfect|hf/.test(story(input))
  if (thickness === undefined || /wide-plate|wide plate/.test(story(input))) {
    const limit = (l: number): number => {
      const found = widePlates.compute({ width, gap, length: l, thickness: thickness ?? 0 })
      return fast || thickness === undefined ? found.highFrequency : found.lowFrequency
    }
    return answersBy(input, { 'L|L_loop': length === undefined ? undefined : limit(length), L_per_length: limit(1) })
  }
  const section = { width, thickness, gap }
  if (fast) {
    const { loopPerLength } = (isCoplanar(input) ? surfaceCoplanar : surfacePair).compute(section)
    return answersBy(input, {
      'L_per_length|L_per_length_2d|L_hf': loopPerLength,
      'L|L_loop': length === undefined ? undefined : loopPerLength * length,
    })
  }
  const found = (isCoplanar(input) ? coplanarPair : laminatedPair).compute({ ...section, length: length ?? 1 })
  return answersBy(input, {
    'L_per_length_2d|L_per_length|L_dc_per_length': found.loopPerLength,
    ...(length === undefined
      ? {}
      : { 'L_self_each|L_self': found.self, 'M|mutual': found.mutual, 'L_loop|L': found.loop }),
  })
}

export const inductanceAdapters: readonly Adapter[] = [
  { topics: ['partial-inductance'], answer: partialInductance },
  { topics: ['loop-inductance'], answer: loopInductance },
]
