import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { TeardownWhere } from '../../../graph/store/question.ts'
import { derived, figure, filled, opened, part, write } from './corpus-fixture.ts'

const summary = (title: string, differs = {}) => ({
  title,
  kind: 'traction-inverter',
  maker: null,
  model: null,
  text: title,
  ...differs,
})
const trait = (id: string, value: string, subject = 'specimen') => ({
  id,
  value,
  subject: asPath(subject),
  basis: 'judged' as const,
})

const units = {
  ferry: {
    summary: summary('Fore drive', { maker: 'Whinfield Works', text: 'Fore drive, salt on the lid' }),
    parts: [
      part('parts/cap', { type: 'WX-28', nets: ['dc-plus'] }),
      part('parts/module', { class: 'half-bridge-module', group: 'semiconductor' }),
    ],
    figures: [
      figure('POWER_DENSITY', 11.1),
      figure('POWER_DENSITY', 7, { conditions: 'continuous' }),
      figure('LINK_ENERGY', null),
    ],
    traits: [trait('cooling-sides', 'both', 'parts/module'), trait('coolant-order', 'series')],
    instruments: [{ key: 'balance 0417', path: asPath('instruments/balance') }],
  },
  tractor: {
    summary: summary('Aft drive', { kind: 'combined', maker: 'WHINFIELD  works' }),
    parts: [part('parts/cap', { type: 'WX-28', material: 'copper' })],
    figures: [figure('POWER_DENSITY', 5.9)],
    traits: [trait('cooling-sides', 'one')],
  },
  sweeper: {
    summary: summary('Brush drive', { kind: 'dc-dc-converter' }),
    parts: [],
    figures: [figure('POWER_DENSITY', null, { status: 'NOT_APPLICABLE' })],
  },
}

describe('records by filter', () => {
  it.each<[TeardownWhere, readonly string[]]>([
    [{}, ['ferry', 'sweeper', 'tractor']],
    [{ id: ['tractor', 'ferry', 'none'] }, ['ferry', 'tractor']],
    [{ id: [] }, []],
    [{ kind: ['combined', 'dc-dc-converter'] }, ['sweeper', 'tractor']],
    [{ maker: ['whinfield works'] }, ['ferry', 'tractor']],
    [{ text: 'sal lid' }, ['ferry']],
    [{ text: '  ' }, ['ferry', 'sweeper', 'tractor']],
    [{ text: '*' }, []],
    [{ class: ['half-bridge-module'] }, ['ferry']],
    [{ class: ['passive'] }, ['ferry', 'tractor']],
    [{ component: { partType: 'WX-28', net: 'dc-plus' } }, ['ferry']],
    [{ component: { material: 'copper' } }, ['tractor']],
    [{ trait: [{ id: 'cooling-sides' }] }, ['ferry', 'tractor']],
    [
      {
        trait: [
          { id: 'cooling-sides', value: 'both' },
          { id: 'coolant-order', value: 'series' },
        ],
      },
      ['ferry'],
    ],
    [{ trait: [{ id: 'cooling-sides', value: 'series' }] }, []],
    [{ figure: [{ metric: 'POWER_DENSITY' }] }, ['ferry', 'tractor']],
    [{ figure: [{ metric: 'POWER_DENSITY', min: 5.9, max: 7 }] }, ['tractor']],
    [{ figure: [{ metric: 'POWER_DENSITY', conditions: 'continuous', max: 7 }] }, ['ferry']],
    [{ figure: [{ metric: 'POWER_DENSITY', status: ['NOT_APPLICABLE'] }] }, ['sweeper']],
    [{ figure: [{ metric: 'LINK_ENERGY' }] }, []],
    [{ figure: [{ metric: 'LINK_ENERGY', status: ['MISSING'], subject: 'specimen' }] }, ['ferry']],
    [{ instrument: 'balance 0417' }, ['ferry']],
  ])('%j', async (where, expected) => {
    const store = await filled(units)
    const page = await store.teardowns(where, { by: 'id' }, { first: 10 })
    expect(page.items.map(({ node }) => node.id)).toEqual(expected)
    expect(await store.countTeardowns(where)).toBe(expected.length)
  })

  it('tells what is needed in a list, and rows by id in the order asked', async () => {
    const store = await filled(units)
    const rows = await store.teardownRows(['sweeper', 'none', 'ferry'])
    expect(rows.map(({ id }) => id)).toEqual(['sweeper', 'ferry'])
    expect(rows[1]).toMatchObject({
      title: 'Fore drive',
      kind: 'traction-inverter',
      maker: 'Whinfield Works',
      model: null,
      revision: 1,
    })
  })
})

describe('figures', () => {
  it('come metric by metric, records as added, with the reason where there is no value', async () => {
    const store = await filled(units)
    const rows = await store.figures({ metrics: ['LINK_ENERGY', 'POWER_DENSITY'] })
    expect(rows.map(({ teardown, metric, status, value }) => [teardown, metric, status, value])).toEqual([
      ['ferry', 'LINK_ENERGY', 'MISSING', null],
      ['ferry', 'POWER_DENSITY', 'OK', 11.1],
      ['tractor', 'POWER_DENSITY', 'OK', 5.9],
      ['sweeper', 'POWER_DENSITY', 'NOT_APPLICABLE', null],
    ])
    expect(rows[0]).toMatchObject({
      reason: 'measure the volume',
      subject: 'specimen',
      conditions: 'default',
      revision: 1,
    })
  })

  it('are limited to the records, conditions, subjects and statuses asked for', async () => {
    const store = await filled(units)
    const ids = async (differs: object) =>
      (await store.figures({ metrics: ['POWER_DENSITY'], ...differs })).map(({ teardown }) => teardown)
    expect(await ids({ where: { kind: ['combined'] } })).toEqual(['tractor'])
    expect(await ids({ conditions: 'continuous' })).toEqual(['ferry'])
    expect(await ids({ status: ['OK'] })).toEqual(['ferry', 'tractor'])
    expect(await ids({ subject: 'parts/cap' })).toEqual([])
  })

  it('give their working and components by key, null where there is none', async () => {
    const store = await filled(units)
    const key = { teardown: 'ferry', metric: 'POWER_DENSITY', subject: 'specimen', conditions: 'default' }
    const [there, none] = await store.figureDetails([key, { ...key, subject: 'parts/cap' }])
    expect(there).toEqual({
      ...key,
      components: { 'own tolerance': 11.1 / 10 },
      body: '{"metric":"POWER_DENSITY","value":11.1}',
    })
    expect(none).toBeNull()
  })
})

describe('where else something is used', () => {
  it('counts records and parts, most used first', async () => {
    const store = await filled(units)
    expect(await store.tally('type')).toEqual([{ value: 'WX-28', teardowns: 2, parts: 2 }])
    expect(await store.tally('class')).toEqual([
      { value: 'film-capacitor', teardowns: 2, parts: 2 },
      { value: 'half-bridge-module', teardowns: 1, parts: 1 },
    ])
    expect(await store.tally('instrument')).toEqual([{ value: 'balance 0417', teardowns: 1, parts: null }])
    expect((await store.tally('kind')).map(({ value }) => value)).toEqual([
      'combined',
      'dc-dc-converter',
      'traction-inverter',
    ])
    expect(await store.traitTally('cooling-sides')).toHaveLength(2)
  })
})

describe('traits, checks and passages of records', () => {
  it('come in the order asked', async () => {
    const store = await opened()
    const check = (what: string) => ({
      id: 'mass-closes',
      path: 'specimen',
      severity: 'warning' as const,
      what,
      mend: 'weigh again',
    })
    const passage = (name: string, stage: number | null) => ({
      path: asPath(`coolant/${name}`),
      stage,
      upstream: [asPath('coolant/wall')],
    })
    await store.commit(
      write('ferry', {
        derived: derived({
          checks: [check('first'), check('second')],
          passages: [passage('b', 1), passage('a', null), passage('c', 0)],
        }),
      }),
    )
    await store.commit(
      write('tractor', { derived: derived({ traits: [trait('cooling-sides', 'one')], checks: [check('third')] }) }),
    )
    expect((await store.checksOf(['tractor', 'ferry'])).map(({ teardown, what }) => [teardown, what])).toEqual([
      ['tractor', 'third'],
      ['ferry', 'first'],
      ['ferry', 'second'],
    ])
    expect(await store.traitsOf(['ferry', 'tractor'])).toEqual([
      { teardown: 'tractor', ...trait('cooling-sides', 'one') },
    ])
    expect((await store.passagesOf('ferry')).map(({ path, stage }) => [path, stage])).toEqual([
      ['coolant/c', 0],
      ['coolant/b', 1],
      ['coolant/a', null],
    ])
  })
})
