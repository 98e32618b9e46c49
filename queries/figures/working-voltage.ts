import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { potentialOf, tiedTo } from './potential.ts'

/** What the insulation between two nets has to stand. */
export interface Stress {
  /** Highest rms or direct voltage in service: decides creepage. */
  readonly rms: number
  /** Highest recurring peak. */
  readonly peak: number
  /** Stated surge, where the sheet states one: decides clearance. */
  readonly impulse?: number
}

/** A net brought down to what sets its potential: what it rides on or is tied to, with the offsets on the way. */
interface Base {
  readonly net: Path
  readonly level: Level
  readonly offset: number
}

type Level = 'plus' | 'minus' | 'middle' | 'switching' | 'ground' | 'low'

const LEVELS: Readonly<Record<string, Level>> = {
  'hv-positive': 'plus',
  'hv-negative': 'minus',
  'hv-middle': 'middle',
  'hv-switching': 'switching',
  'low-voltage': 'low',
  chassis: 'ground',
  coolant: 'ground',
}

function baseOf(view: View, net: Path, offset = 0, seen: readonly Path[] = []): Base {
  const carrier = view.find({ ask: 'rides-on', net }).paths[0]
  if (carrier !== undefined && !seen.includes(carrier))
    return baseOf(view, carrier, offset + Math.abs(view.may(asPath(`${net}/offset`)) ?? 0), [...seen, net])
  const tied = tiedTo(view, net)
  const potential = potentialOf(view, tied) ?? potentialOf(view, net)
  if (potential === undefined)
    return view.fail(`the potential of ${net} is not on record: say potential:, rides-on: or tied-to:`, 'refused', net)
  const level = LEVELS[potential]
  if (level === undefined) return view.fail(`${net} is floating: state its voltage under voltages`, 'refused', net)
  return { net: tied, level, offset }
}

/** Separator of two nets in the subject of {@link stressBetween}. */
export const pairSubject = (a: Path, b: Path): Path => asPath([a, b].toSorted().join('|'))

/**
 * Voltages between two nets at the highest DC voltage: stated ones before derived ones. Where one side is the chassis or
 * a low-voltage net, the other is taken at the whole link voltage: one rail lies on the chassis after a first fault, and
 * a switching net is held at the other.
 */
export const stressBetween: Model<Stress> = {
  id: 'voltage between',
  compute(view, subject) {
    const [a, b] = subject.split('|').map(asPath) as [Path, Path]
    const [first, second] = view.all(
      () => baseOf(view, a),
      () => baseOf(view, b),
    )
    const offset = first.offset + second.offset
    const stated = statedBetween(view, [a, first.net, grounded(view, a)], [b, second.net, grounded(view, b)])
    if (stated) return withStated(view, stated, offset, () => derived(view, first, second, offset))
    return derived(view, first, second, offset)
  },
}

const grounded = (view: View, net: Path): Path => tiedTo(view, net)

/** The first entry under `voltages` for the nets themselves or what they ride on or are tied to. */
function statedBetween(view: View, ours: readonly Path[], theirs: readonly Path[]): Path | undefined {
  for (const one of new Set(ours)) {
    for (const other of new Set(theirs)) {
      const found = view.find({ ask: 'voltage-between', nets: [one, other] }).paths[0]
      if (found !== undefined) return found
    }
  }
  return undefined
}

function withStated(view: View, stated: Path, offset: number, otherwise: () => Stress): Stress {
  const working = view.may(asPath(`${stated}/working`))
  const peak = view.may(asPath(`${stated}/peak`))
  const impulse = view.may(asPath(`${stated}/impulse`))
  const rest = working === undefined ? otherwise() : { rms: working + offset, peak: working + offset }
  if (working !== undefined) view.note(`working voltage ${volts(working)} as stated in ${stated}`)
  return { ...rest, ...(peak !== undefined && { peak }), ...(impulse !== undefined && { impulse }) }
}

function derived(view: View, a: Base, b: Base, offset: number): Stress {
  const live = [a, b].filter(({ level }) => level !== 'ground' && level !== 'low')
  if (live.length === 0)
    return view.fail(`between ${a.net} and ${b.net} no hazardous voltage is on record`, 'not-applicable')
  const { max } = view.need({ max: asPath('specimen/dc-voltage/max') })
  const share = a.net === b.net ? 0 : shareOf(view, a.level, b.level)
  const rms = share * max + offset
  view.note(`${volts(rms)} derived at the highest DC voltage${offset > 0 ? `, ${volts(offset)} of it offset` : ''}`)
  return { rms, peak: rms }
}

/** Share of the link voltage between two levels. */
function shareOf(view: View, a: Level, b: Level): number {
  const levels = new Set([a, b])
  if (levels.has('middle') && !levels.has('switching')) {
    view.note('a middle net taken at half the link voltage')
    return a === b ? 0 : 0.5
  }
  if (levels.has('ground') || levels.has('low')) {
    view.note('one rail taken to lie on the chassis (first insulation fault), a switching net to be held at the other')
    if (levels.has('low')) view.note('low-voltage nets taken as tied to the chassis')
    return 1
  }
  return a === b && a !== 'switching' ? 0 : 1
}

const volts = (value: number): string => `${Number(value.toPrecision(4))} V`
