import { asPath } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineTrait } from './trait.ts'

/** Switches of the bridges: two for each commutation loop. */
export function switchCount(view: View): number {
  return 2 * view.find({ ask: 'loops' }).paths.length
}

export function driverCount(view: View): number {
  const entries = view.find({ ask: 'parts', class: 'isolated-gate-driver' }).paths
  return entries.reduce((sum, entry) => sum + view.find({ ask: 'pieces', of: entry }).paths.length, 0)
}

const driverPerSwitch = defineTrait({
  id: 'driver-per-switch',
  title: 'One isolated driver per switch',
  definition: 'Whether as many isolated gate drivers are on record as the bridges have switches.',
  values: ['yes', 'no', 'no driver recorded'],
  compute(view) {
    const switches = switchCount(view)
    if (switches === 0) return null
    const drivers = driverCount(view)
    return drivers === 0 ? 'no driver recorded' : drivers === switches ? 'yes' : 'no'
  },
})

const semiconductor = defineTrait({
  id: 'semiconductor',
  title: 'Semiconductor of the switches',
  definition: 'Kind of transistor die on record: insulated-gate bipolar, silicon or silicon-carbide field-effect.',
  values: ['IGBT', 'silicon', 'silicon carbide', 'gallium nitride', 'mixed'],
  compute(view) {
    const dies = view.find({ ask: 'parts', class: 'power-die' }).paths
    const kinds = new Set(dies.flatMap((die) => kindOf(view.mayWord(asPath(`${die}/kind`)))))
    if (kinds.size === 0) return null
    return kinds.size === 1 ? [...kinds][0]! : 'mixed'
  },
})

/** Diodes are no transistors and do not decide. */
function kindOf(word: string | undefined): readonly string[] {
  if (word === undefined || /diode/i.test(word)) return []
  if (/igbt|insulated-gate/i.test(word)) return ['IGBT']
  if (/carbide|\bsic\b/i.test(word)) return ['silicon carbide']
  if (/nitride|\bgan\b/i.test(word)) return ['gallium nitride']
  return /silicon|mosfet|field-effect/i.test(word) ? ['silicon'] : []
}

export const bridgeTraits = [driverPerSwitch, semiconductor] as const
