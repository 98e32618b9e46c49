import { asPath } from '../../graph/quantity/quantity.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { sheetSession } from '../queries/demo-session.ts'
import { barLoop, barSteps, barsOfTractor3, byMeanDistance } from './loop-of-bars.ts'
import { loopsOfSweeper11, loopsOfTractor8, plateLoop, plateSteps } from './loop-of-plates.ts'
import { sheetText } from './sheet-numbers.ts'
import { markdownTable, type Tables } from './tables.ts'

/** A loop by hand and by the product [nH]; `together` with plus and minus terminals one above the other. */
export interface Compared {
  readonly unit: string
  readonly loop: string
  readonly hand: number
  readonly product: number
  readonly together?: number
}

export function product(text: string, loop: string): number {
  const { value } = sheetSession(text).atTaken(figureById('LOOP_INDUCTANCE'), asPath(`loops/${loop}`))
  if (value === null) throw new Error(`no loop inductance of ${loop}`)
  return value * 1e9
}

/** The sheet with the terminals of every part on the rails moved to the middle of the part. */
export function sweeper11Together(): string {
  return sheetText('sweeper-11-drive').replace(/at: -?[89] \/ 0 \/ (0\.5|1\.8) mm/g, 'at: 0 / 0 / $1 mm')
}

/** The same for tractor 8: each low transistor stands over its high one, half-way between the two. */
export function tractor8Together(): string {
  return sheetText('tractor-8-drive')
    .replace(/at: -?3\.8 \/ 0 \/ (0\.5|1\.7) mm/g, 'at: 0 / 0 / $1 mm')
    .replace(/([uvw])-(high|low)-([12]): \{ at: (\d+) \//g, (_, phase, side, n, x) => {
      return `${phase}-${side}-${n}: { at: ${Number(x) + (side === 'high' ? 12 : -12)} /`
    })
}

export function comparedLoops(): readonly Compared[] {
  const bars = barsOfTractor3()
  const couplings = byMeanDistance(bars)
  return [
    ...['u', 'v', 'w'].map((phase, at) => ({
      unit: 'tractor-3-drive',
      loop: `module.${phase}`,
      hand: barLoop(bars, at, couplings).whole,
      product: product(sheetText('tractor-3-drive'), `module.${phase}`),
    })),
    ...ofPlates('sweeper-11-drive', loopsOfSweeper11(), sweeper11Together()),
    ...ofPlates('tractor-8-drive', loopsOfTractor8(), tractor8Together()),
  ]
}

function ofPlates(unit: string, loops: ReturnType<typeof loopsOfTractor8>, together: string): readonly Compared[] {
  return loops.map((one) => ({
    unit,
    loop: one.name,
    hand: plateLoop(one).whole,
    product: product(sheetText(unit), one.name),
    together: product(together, one.name),
  }))
}

const percent = (hand: number, other: number): string => {
  const off = 100 * (hand / other - 1)
  return `${off < 0 ? '−' : '+'}${Math.abs(off).toFixed(1)} %`
}

function results(all: readonly Compared[], unit: string): string {
  const rows = all.filter((one) => one.unit === unit)
  const n = (value: number): string => `${value.toFixed(2)} nH`
  const plain = ['half bridge', 'by hand', '`lidoff figures`', 'hand is off by']
  return rows[0]?.together === undefined
    ? markdownTable(
        plain,
        rows.map(({ loop, hand, product: own }) => [loop, n(hand), n(own), percent(hand, own)]),
      )
    : markdownTable(
        [...plain, 'lidoff, terminals one above the other', 'hand is off from that by'],
        rows.map(({ loop, hand, product: own, together }) => [
          loop,
          n(hand),
          n(own),
          percent(hand, own),
          n(together!),
          percent(hand, together!),
        ]),
      )
}

/** Every table of the page, from the sheets and the product as they are now. */
export function loopTables(all: readonly Compared[] = comparedLoops()): Tables {
  return {
    'tractor-3-steps': barSteps(),
    'tractor-3': results(all, 'tractor-3-drive'),
    'sweeper-11-steps': plateSteps(loopsOfSweeper11()[1]!),
    'sweeper-11': results(all, 'sweeper-11-drive'),
    'tractor-8-steps': plateSteps(loopsOfTractor8()[1]!),
    'tractor-8': results(all, 'tractor-8-drive'),
  }
}
