import { first, numbers, offset, partsOf, places, sheetText } from './sheet-numbers.ts'
import { markdownTable } from './tables.ts'

/** Side of the square over which a terminal touches a plate, which no sheet records: lidoff takes 8 mm and says so. */
const CONTACT = 8
/** Radius of the disc that a square of side 1 acts as: Γ(¼)²/(4 π^{3/2}). */
const SQUARE = 0.59017
const MU0 = 0.4 * Math.PI // nH/mm

/** Where current enters a pair of plates: how far along it, how far from the nearer long edge [mm], and how much of 1 A. */
interface Terminal {
  readonly along: number
  readonly edge: number
  readonly share: number
}

export interface PlateLoop {
  readonly name: string
  readonly thickness: number
  readonly gap: number
  readonly width: number
  readonly bridge: { readonly along: number; readonly edge: number }
  readonly caps: readonly Terminal[]
  readonly capInductance: number
  readonly inside: number
  /** Distance between the two devices that share the current of one side of a half bridge. */
  readonly beside?: number
}

/** Nearer long edge of plates of some width. */
const toEdge = (y: number, width: number): number => Math.min(y, width - y)

function pairOf(text: string) {
  const part = partsOf(text)
  const size = numbers(part('plate-plus').plate!.size)
  const corner = numbers(part('plate-plus').plate!.corner)
  return { part, width: size[1]!, thickness: size[2]!, low: corner[1]!, gap: first(part('plate-minus').beside!.gap) }
}

/** Three half bridges over one pair of plates, capacitors in one row and modules in another. */
export function loopsOfSweeper11(): readonly PlateLoop[] {
  const { part, low, ...pair } = pairOf(sheetText('sweeper-11-drive'))
  const [cap, module] = [part('link-cap'), part('module')]
  const caps = places(cap).map(([x, y], _, all) => ({
    along: x!,
    edge: toEdge(y! - low, pair.width),
    share: 1 / all.length,
  }))
  return places(module).map(([x, y], at) => ({
    ...pair,
    name: `module.${Object.keys(module.each!)[at]}`,
    bridge: { along: x!, edge: toEdge(y! - low, pair.width) },
    caps,
    capInductance: first(cap.inductance),
    inside: first(module.inductance),
  }))
}

/** Twelve transistors, two side by side in each switch, over eight cans. */
export function loopsOfTractor8(): readonly PlateLoop[] {
  const { part, low, ...pair } = pairOf(sheetText('tractor-8-drive'))
  const [can, fet] = [part('store'), part('fet')]
  const caps = places(can).map(([x, y], _, all) => ({
    along: x!,
    edge: toEdge(y! - low, pair.width),
    share: 1 / all.length,
  }))
  const each = Object.entries(fet.each!)
  return ['u', 'v', 'w'].map((phase) => {
    const four = each.filter(([name]) => name.startsWith(`${phase}-`)).map(([, one]) => one)
    const [x, y] = [0, 1].map((axis) => four.reduce((sum, one) => sum + numbers(one.at)[axis]! / four.length, 0))
    const terminal = offset(four[0]!, 'drain')[1]!
    return {
      ...pair,
      name: `phase-${phase}`,
      bridge: { along: x!, edge: toEdge(y! + terminal - low, pair.width) },
      caps,
      capInductance: first(can.inductance),
      // Two in parallel above, two in parallel below.
      inside: first(fet.inductance) / 2 + first(fet.inductance) / 2,
      beside: numbers(four[1]!.at)[0]! - numbers(four[0]!.at)[0]!,
    }
  })
}

/** Squares of plate that the current runs along: Σ i² Δx/w between places where current enters or leaves. */
function along({ bridge, caps, width }: PlateLoop): number {
  const places = [...caps, { along: bridge.along, share: -1 }].toSorted((a, b) => a.along - b.along)
  let current = 0
  let squares = 0
  for (const [at, place] of places.entries()) {
    if (at > 0) squares += (current ** 2 * (place.along - places[at - 1]!.along)) / width
    current += place.share
  }
  return squares
}

/** Squares that crowding adds at a terminal of radius r, h from one long edge: (1/2π) ln(w/(2π r sin(π h/w))). */
function crowding(width: number, radius: number, edge: number): number {
  return Math.log(width / (2 * Math.PI * radius * Math.sin((Math.PI * edge) / width))) / (2 * Math.PI)
}

/** The same on the edge itself, where its image lies on it: (1/π) ln(w/(π r)). */
function crowdingOnEdge(width: number, radius: number): number {
  return Math.log(width / (Math.PI * radius)) / Math.PI
}

export function plateLoop(loop: PlateLoop) {
  const { width, thickness, gap, bridge, caps, capInductance, inside, beside } = loop
  const square = MU0 * (gap + (2 * thickness) / 3)
  const radius = SQUARE * CONTACT
  const lengthwise = along(loop)
  const pairRadius = beside === undefined ? radius : Math.sqrt(radius * beside)
  const atBridge = beside === undefined ? crowding(width, radius, bridge.edge) : crowdingOnEdge(width, pairRadius)
  const atCaps = caps.reduce((sum, { share, edge }) => sum + share ** 2 * crowding(width, radius, edge), 0)
  const squares = lengthwise + atBridge + atCaps
  const inCaps = capInductance / caps.length
  const plates = square * squares
  const whole = inside + inCaps + plates
  return { square, radius, pairRadius, lengthwise, atBridge, atCaps, squares, plates, inCaps, whole }
}

/** The steps for one loop, as the page prints them. */
export function plateSteps(loop: PlateLoop): string {
  const { square, radius, pairRadius, lengthwise, atBridge, atCaps, squares, plates, inCaps, whole } = plateLoop(loop)
  const { width, thickness, gap, bridge, caps, capInductance, inside, beside } = loop
  const n = (value: number, digits = 2): string => value.toFixed(digits)
  return markdownTable(
    ['step', 'how', 'result'],
    [
      ['one square of the pair', `µ₀ (${gap} + 2 × ${thickness}/3) mm`, `${n(square, 3)} nH`],
      ['r, disc as a terminal', `0.590 × ${CONTACT} mm`, `${n(radius)} mm`],
      [
        'along the plates',
        `from ${caps.length} capacitors, 1/${caps.length} A each, to x = ${bridge.along} mm: Σ i² Δx/${width} mm`,
        `${n(lengthwise, 3)} squares`,
      ],
      beside === undefined
        ? [
            'crowding at the module',
            `h = ${bridge.edge} mm: (1/2π) ln(w/(2π r sin(πh/w)))`,
            `${n(atBridge, 3)} squares`,
          ]
        : [
            'crowding at the transistors',
            `on the edge, two ${beside} mm apart, r = √(${n(radius)} × ${beside}) = ${n(pairRadius)} mm: (1/π) ln(w/(π r))`,
            `${n(atBridge, 3)} squares`,
          ],
      [
        'crowding at the capacitors',
        `h = ${caps[0]!.edge} mm, ${caps.length} × (1/${caps.length})² of it`,
        `${n(atCaps, 3)} squares`,
      ],
      ['plates', `${n(square, 3)} nH × ${n(squares, 3)}`, `${n(plates)} nH`],
      ['capacitors', `${capInductance} nH/${caps.length}`, `${n(inCaps)} nH`],
      [
        'half bridge',
        beside === undefined ? 'the module, between its terminals' : 'two packages side by side above, two below',
        `${n(inside)} nH`,
      ],
      ['whole', 'sum', `**${n(whole)} nH**`],
    ],
  )
}
