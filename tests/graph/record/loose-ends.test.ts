import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { part, sheetTree } from '../../fixtures/record.ts'

const parts = [
  part('module', 'half-bridge-module', { terminals: { 'dc-plus': 'p', 'dc-minus': 'n', ac: 'ph' } }),
  part('slab', 'heat-spreader', { faces: { wet: {} } }),
  part('bar', 'bus-bar', { net: 'p' }),
]
const nets = { p: { potential: 'hv-positive' }, n: { potential: 'hv-negative' }, ph: { potential: 'hv-switching' } }
const steps = [{ id: 'dead', 'proved-dead': { across: ['p', 'n'], reading: '0.1 V (measured)' } }]
const warnings = (sections: Record<string, Tree>) => {
  const read = recordFromTree(sheetTree({ parts, nets, steps, ...sections }))
  if ('faults' in read) throw new Error(read.faults.map(({ what }) => what).join())
  return read.warnings.map(({ what, mend, path }) => `${path}: ${what}; ${mend}`)
}
const way = (from: string, to: string) => ({ from, to, resistance: '1 K/W (judged)' })

describe('what is written and leads nowhere', () => {
  it('heat that ends in a part with a face is asked to end on the face', () => {
    const said = warnings({ heat: [way('module', 'slab')] })
    expect(said).toHaveLength(1)
    expect(said[0]).toMatch(/^heat\/module~slab\/to: "slab" is a part.*slab\/wet$/)
    expect(warnings({ heat: [way('module', 'slab'), way('slab/wet', 'ambient')] })).toHaveLength(1)
    expect(warnings({ heat: [way('module', 'bar')] }).join()).toContain('add a path from bar')
  })

  it('a face, a sink, and a part from which a path goes on are fine', () => {
    expect(warnings({ heat: [way('module', 'slab/wet')] })).toEqual([])
    expect(warnings({ heat: [way('module', 'frame')] })).toEqual([])
    expect(warnings({ heat: [way('module', 'slab'), way('slab', 'slab/wet')] })).toEqual([])
  })

  it('what a loop includes beside its nets is not computed with, and that is said', () => {
    const loops = (more: Record<string, Tree>) => warnings({ loops: { module: { because: 'seen', ...more } } })
    expect(loops({ include: ['bar'] }).join()).toMatch(/^loops\/module\/include: .*computed from the nets alone/)
    expect(loops({ 'leave-out': ['bar'] })).toEqual([])
  })
})
