import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { known } from '../figures/heat/reading.ts'
import { type Metal, metalOfPart } from '../figures/metal/geometry.ts'
import { jointsOfNet, placeOf } from '../figures/metal/network.ts'
import { capacitorsOn, railPorts, railsSubject, shorted } from '../figures/metal/rails.ts'
import { jointTaps, type Tap } from '../figures/metal/taps.ts'
import { minus, norm } from '../physics/bar.ts'
import { defineCheck, type Finding } from './check.ts'

type Pair = readonly [Path, Path]

/** Pairs of rails between which half bridges stand, each once. */
function railPairs(view: View): readonly Pair[] {
  const all = view.find({ ask: 'loops' }).paths.map((loop) => view.find({ ask: 'loop-rails', loop }).paths)
  return [...new Map(all.map((pair) => [pair.join(), [pair[0]!, pair[1]!] as const])).values()]
}

const overlap = defineCheck({
  id: 'metals-overlap',
  title: 'Metal of two nets in the same place',
  severity: 'error',
  run: (view) =>
    railPairs(view).flatMap((pair) =>
      (known(view, () => shorted(view, [...pair, ...capacitorsOn(view, pair).inner])) ?? []).map(
        ({ parts, depth }): Finding => ({
          path: parts[1],
          what: `stands ${(1e3 * depth).toFixed(2)} mm in ${parts[0]}, which is of another net: as recorded, a short circuit`,
          mend: 'measure coordinates, sizes and gap again; were all typed in one unit of measure?',
        }),
      ),
    ),
})

/** Terminals further than this from the metal of their net were not placed by eye: something is wrong [m]. */
const FAR = 10e-3

const offTheMetal = defineCheck({
  id: 'terminal-off-its-metal',
  title: 'A terminal or joint far from the metal that it should touch',
  severity: 'question',
  run: (view) =>
    railPairs(view).flatMap((pair) => {
      const taps = known(view, () => tapsOn(view, pair)) ?? []
      return [...new Map(taps.map((tap) => [tap.id, tap])).values()].flatMap((tap): readonly Finding[] => {
        const place = known(view, () => placeOf(view, tap))
        if (!place || place.distance <= FAR) return []
        return [
          {
            path: tap.id.split(' ')[0]!,
            what: `lies ${(1e3 * place.distance).toFixed(0)} mm from ${place.part}; figures take the current to enter at its nearest point`,
            mend: 'measure both places again; a run typed in inches or metres beside others in millimetres looks like this',
          },
        ]
      })
    }),
})

function tapsOn(view: View, pair: Pair): readonly Tap[] {
  const { capacitors, bridges } = railPorts(view, railsSubject(pair))
  const terminals = [...capacitors, ...bridges].flatMap(({ plus, minus: other }) => [...plus, ...other])
  const joints = pair.flatMap((net) => jointsOfNet(view, net).flatMap((joint) => jointTaps(view, joint, net)))
  return [...terminals, ...joints]
}

/** Bars of a power unit are this long: common practice [m]. */
const USUAL_LENGTH = [8e-3, 3] as const

const SLIPS = [
  { factor: 1e-3, what: 'typed in metres, meant in millimetres' },
  { factor: 1 / 25.4, what: 'typed in inches, meant in millimetres' },
  { factor: 25.4, what: 'typed in millimetres, meant in inches' },
  { factor: 1e3, what: 'typed in millimetres, meant in metres' },
] as const

const runLength = defineCheck({
  id: 'bar-length-slip',
  title: 'A bar so short or long that its unit of measure may be wrong',
  severity: 'warning',
  run(view) {
    const parts = view.find({ ask: 'nets' }).paths.flatMap((net) => view.find({ ask: 'metal-of', net }).paths)
    return [...new Set(parts)].flatMap((part): readonly Finding[] => {
      if (view.find({ ask: 'shape-of', part }).paths.length === 0) return []
      const metal = known(view, () => view.model(metalOfPart, part))
      if (!metal) return []
      const length = lengthOf(metal)
      if (length >= USUAL_LENGTH[0] && length <= USUAL_LENGTH[1]) return []
      const slip = SLIPS.find(({ factor }) => length * factor >= USUAL_LENGTH[0] && length * factor <= USUAL_LENGTH[1])
      return [
        {
          path: part,
          what: `is ${millimetres(length)} long; ${millimetres(USUAL_LENGTH[0])} … ${millimetres(USUAL_LENGTH[1])} is usual (common practice)`,
          mend: slip ? `${slip.what}? ${millimetres(length * slip.factor)} would be usual` : 'measure it again',
        },
      ]
    })
  },
})

const millimetres = (length: number): string => `${Number((1e3 * length).toPrecision(3))} mm`

function lengthOf(metal: Metal): number {
  if (metal.shape === 'plate') return Math.max(...metal.size)
  return metal.stretches.reduce((sum, { start, end }) => sum + norm(minus(end, start)), 0)
}

export const metalChecks = [overlap, offTheMetal, runLength] as const
