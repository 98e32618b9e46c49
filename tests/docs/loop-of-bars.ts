import { first, numbers, offset, partsOf, places, sheetText } from './sheet-numbers.ts'
import { markdownTable } from './tables.ts'

/** A stretch of bar from one place to another along it [mm]; the order is the direction of the current. */
type Way = readonly [from: number, to: number]

/** Two filaments of equal length side by side: 0.2 (l asinh(l/d) − √(l² + d²) + d) [nH, mm]. */
export function aligned(length: number, distance: number): number {
  const l = Math.abs(length)
  return 0.2 * (l * Math.asinh(l / distance) - Math.hypot(l, distance) + distance)
}

/** Any two parallel ways from the aligned ones of their four end distances. */
function mutual([a, b]: Way, [c, d]: Way, pair: (length: number) => number): number {
  return (pair(b - c) + pair(a - d) - pair(a - c) - pair(b - d)) / 2
}

/** What a pair of lengths couples within one bar, and between the two bars. */
export interface Couplings {
  readonly within: (length: number) => number
  readonly between: (length: number) => number
}

/** The bars of tractor 3 and what hangs on them, as its sheet says [mm, nH]. */
export function barsOfTractor3() {
  const part = partsOf(sheetText('tractor-3-drive'))
  const [run, cap, snubber, module] = [part('bar-plus').run!, part('link-cap'), part('snubber'), part('module')]
  const x = (of: Parameters<typeof offset>[0], terminal: string, at: number): number => at + offset(of, terminal)[0]!
  const [capAt, snubberAt] = [numbers(cap.at)[0]!, numbers(snubber.at)[0]!]
  return {
    width: first(run.width),
    thickness: first(run.thickness),
    gap: first(part('bar-minus').beside!.gap),
    cap: { plus: x(cap, 'plus', capAt), minus: x(cap, 'minus', capAt), inductance: first(cap.inductance) },
    snubber: {
      plus: x(snubber, '1', snubberAt),
      minus: x(snubber, '2', snubberAt),
      inductance: first(snubber.inductance),
    },
    modules: places(module).map(([at]) => ({ plus: x(module, 'dc-plus', at!), minus: x(module, 'dc-minus', at!) })),
    inside: first(module.inductance),
  }
}

export type Bars = ReturnType<typeof barsOfTractor3>

/** Mean distances: of a section from itself, 0.2235 (w + t), and of two facing strips a distance apart. */
export function meanDistances({ width: w, thickness: t, gap }: Bars): { own: number; apart: number; middles: number } {
  const d = gap + t
  const q = (d / w) ** 2
  const log = q * Math.log(d) + ((1 - q) / 2) * Math.log(w * w + d * d) + ((2 * d) / w) * Math.atan(w / d) - 1.5
  return { own: 0.2235 * (w + t), apart: Math.exp(log), middles: d }
}

export function byMeanDistance(bars: Bars): Couplings {
  const { own, apart } = meanDistances(bars)
  return { within: (length) => aligned(length, own), between: (length) => aligned(length, apart) }
}

/** Loop of a half bridge: two loops, by the capacitor and by the snubber, that share its current. */
export function barLoop(bars: Bars, at: number, { within, between }: Couplings) {
  const { plus, minus } = bars.modules[at]!
  const go = [bars.cap, bars.snubber].map((one): Way => [one.plus, plus])
  const back = [bars.cap, bars.snubber].map((one): Way => [minus, one.minus])
  const shared = (i: number, j: number): number =>
    mutual(go[i]!, go[j]!, within) +
    mutual(back[i]!, back[j]!, within) +
    mutual(go[i]!, back[j]!, between) +
    mutual(back[i]!, go[j]!, between)
  const byCap = shared(0, 0) + bars.cap.inductance
  const bySnubber = shared(1, 1) + bars.snubber.inductance
  const both = shared(0, 1)
  const outside = (byCap * bySnubber - both ** 2) / (byCap + bySnubber - 2 * both)
  return { go, back, byCap, bySnubber, both, outside, whole: outside + bars.inside }
}

/** The steps for the first half bridge, as the page prints them. */
export function barSteps(): string {
  const bars = barsOfTractor3()
  const { own, apart, middles } = meanDistances(bars)
  const { within, between } = byMeanDistance(bars)
  const { go, back, byCap, bySnubber, both, outside, whole } = barLoop(bars, 0, { within, between })
  const n = (value: number): string => value.toFixed(2)
  const own1 = ([from, to]: Way): string => `${from} → ${to} mm: F(${Math.abs(to - from)}; g)`
  const apart4 = ([a, b]: Way, [c, d]: Way): string => {
    const [p, q, r, s] = [a - c, b - d, b - c, a - d].map(Math.abs)
    return `½ [F(${p}; D) + F(${q}; D) − F(${r}; D) − F(${s}; D)]`
  }
  const { cap, snubber, inside } = bars
  return markdownTable(
    ['step', 'how', 'result'],
    [
      ['g, mean distance of a section from itself', `0.2235 (${bars.width} + ${bars.thickness}) mm`, `${n(own)} mm`],
      ['D, of the two sections', `facing strips ${bars.width} mm wide, middles ${middles} mm apart`, `${n(apart)} mm`],
      ['plus bar, by the can', own1(go[0]!), `${n(mutual(go[0]!, go[0]!, within))} nH`],
      ['minus bar, by the can', own1(back[0]!), `${n(mutual(back[0]!, back[0]!, within))} nH`],
      ['between them', apart4(go[0]!, back[0]!), `${n(-mutual(go[0]!, back[0]!, between))} nH`],
      ['L₁, loop by the can', `both bars − 2 × between + ${cap.inductance} nH of the can`, `${n(byCap)} nH`],
      ['plus bar, by the snubber', own1(go[1]!), `${n(mutual(go[1]!, go[1]!, within))} nH`],
      ['minus bar, by the snubber', own1(back[1]!), `${n(mutual(back[1]!, back[1]!, within))} nH`],
      ['between them', apart4(go[1]!, back[1]!), `${n(-mutual(go[1]!, back[1]!, between))} nH`],
      [
        'L₂, loop by the snubber',
        `both bars − 2 × between + ${snubber.inductance} nH of the snubber`,
        `${n(bySnubber)} nH`,
      ],
      ['M, shared by the two loops', 'the four pairs of stretches, with their signs', `${n(both)} nH`],
      ['outside the half bridge', '(L₁ L₂ − M²)/(L₁ + L₂ − 2 M)', `${n(outside)} nH`],
      ['whole', `+ ${inside} nH of the module`, `**${n(whole)} nH**`],
      ['without the snubber', `L₁ + ${inside} nH`, `${n(byCap + inside)} nH`],
    ],
  )
}
