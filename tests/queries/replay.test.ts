import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openStructure } from '../../graph/build.ts'
import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import { recordFromTree } from '../../graph/record/from-tree.ts'
import type { Read } from '../../graph/trail.ts'
import { openSession, type Request, type Session } from '../../queries/evaluate/session.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { DEMO_UNITS, demoSession } from './demo-session.ts'

interface Logged {
  readonly what: string
  readonly log: readonly Read[]
}

/** What every figure of a unit read, of every subject, its list of subjects among it. */
function logsOf(session: Session, order = (all: readonly Request[]) => all): readonly Logged[] {
  return order(session.requests()).map(({ figure, subject }) => {
    const { trail } = session.viewer.record((view) => {
      figure.subjects(view)
      return view.figure(figure.id, subject)
    })
    return { what: `${figure.id} ${subject}`, log: [...trail.reads.values()] }
  })
}

/** The same record read again from a copy of its tree: nothing of the first is in it. */
function again({ record, settings }: Session): Session {
  const read = recordFromTree(JSON.parse(JSON.stringify(record.tree)))
  if ('record' in read) return openSession(read.record, { settings })
  throw new Error(read.faults.map(({ what }) => what).join('\n'))
}

const logs = new Map<string, readonly Logged[]>()
function demoLogs(unit: string): readonly Logged[] {
  const known = logs.get(unit) ?? logsOf(demoSession(unit))
  logs.set(unit, known)
  return known
}

const fresh = (log: readonly Read[]): readonly Read[] => JSON.parse(JSON.stringify(log))

describe('replaying what figures read', () => {
  it.each(DEMO_UNITS)('%s: on an equal record nothing has changed', (unit) => {
    const equal = again(demoSession(unit))
    const all = demoLogs(unit)
    expect(all.length).toBeGreaterThan(20)
    expect(all.filter(({ log }) => equal.stale(fresh(log))).map(({ what }) => what)).toEqual([])
    expect(all.every(({ log }) => log.length > 0)).toBe(true)
  })

  it('the order in which figures were asked does not change what they read', () => {
    const unit = 'tractor-3-drive'
    const texts = (all: readonly Logged[]) =>
      all.map(({ what, log }) => [what, log.map((read) => JSON.stringify(read)).sort()])
    const backwards = logsOf(again(demoSession(unit)), (requests) => requests.toReversed())
    expect(texts(backwards.toReversed())).toEqual(texts(demoLogs(unit)))
  })

  it('a value changed makes stale just the figures that read it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...DEMO_UNITS), fc.nat(), (unit, n) => {
        const session = demoSession(unit)
        const numbers = [...session.record.facts].filter(
          ([, fact]) => fact.taken.quantity && !fact.taken.quantity.bound,
        )
        const [path, fact] = numbers[n % numbers.length]!
        const { quantity } = fact.taken
        const edited = session.over([{ set: path, to: { ...quantity!, value: quantity!.value * 1.5 + 1 } }])
        for (const { what, log } of demoLogs(unit)) {
          const readIt = log.some((read) => read.kind === 'value' && session.values.slot(read.path).home === path)
          const stands = log.some((read) => read.kind === 'value' && standsAt(read.path, path))
          // A value of a piece that varies on its own has a home of its own, and reads the same statement.
          expect([what, edited.stale(log)]).toEqual([what, readIt || stands])
        }
      }),
      { numRuns: 60 },
    )
  })

  function standsAt(read: Path, path: Path): boolean {
    return read !== path && read.replaceAll(/\.[^/]*/g, '') === path
  }

  it('a piece taken out makes stale every figure that lists it', () => {
    for (const unit of DEMO_UNITS) {
      const session = demoSession(unit)
      const repeated = session.record.parts.entries.find(({ pieces, parent }) => !parent && pieces.length > 2)!
      const piece = `${repeated.path}.${repeated.pieces.at(-1)}`
      const edited = session.over([{ drop: asPath(piece) }])
      const listing = demoLogs(unit).filter(({ log }) =>
        log.some(({ kind, seen }) => kind === 'query' && seen.split(' ').includes(piece)),
      )
      expect(listing.length).toBeGreaterThan(0)
      expect(listing.filter(({ log }) => !edited.stale(log)).map(({ what }) => what)).toEqual([])
    }
  })
})

describe('a capacitor put on the link and taken off again', () => {
  const SPECIMEN = asPath('specimen')
  const capacitance = figureById('LINK_CAPACITANCE')
  const linked = DEMO_UNITS.filter((unit) => demoSession(unit).evaluate(capacitance, SPECIMEN).status === 'OK')

  it('there are such units', () => {
    expect(linked.length).toBeGreaterThan(3)
  })

  it.each(linked)('%s: stale with it, the same bytes without', (unit) => {
    const session = demoSession(unit)
    const stored = session.evaluate(capacitance, SPECIMEN)
    const [plus, minus] = openStructure(session.record)
      .answer({ ask: 'rails' }, { counts: 'BUILT' })
      .paths.map((net) => net.replace('nets/', ''))
    const entry = {
      id: 'one-more-can',
      class: 'dc-link-film-capacitor',
      capacitance: '10 µF (measured)',
      terminals: { plus: plus!, minus: minus! },
    }
    const added = session.over([{ add: asPath('parts'), entry }])
    expect(added.stale(stored.log)).toBe(true)
    expect(added.evaluate(capacitance, SPECIMEN).atTaken).toBeCloseTo(stored.atTaken! + 10, 6)
    const dropped = added.over([{ drop: asPath('parts/one-more-can') }])
    expect(dropped.stale(stored.log)).toBe(false)
    expect(JSON.stringify(dropped.evaluate(capacitance, SPECIMEN))).toBe(JSON.stringify(stored))
  })
})
