import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { commands } from '../../api/cli/commands.ts'
import { projectFolder, VERSION } from '../../api/place.ts'
import { unit } from '../api/demo-fixture.ts'
import { exampleSheet } from '../fixtures/example-sheet.ts'
import { type Ended, type RunChoice, run as runProgram } from './program.ts'

// The contract of the command line: exit 0 fine, 1 the input has errors, 2 wrong usage, 3 not found, 4 refused or in
// conflict; data on standard output, everything else on standard error (clig.dev, from memory).
let folder: string
let example: string
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lidoff-cli-'))
  example = join(folder, 'example.yaml')
  writeFileSync(example, exampleSheet)
  expect(await run(['add', '-'], { input: unit(ID) })).toMatchObject({ status: 0 })
}, 60_000)
afterAll(() => rmSync(folder, { recursive: true }))

const run = (args: readonly string[], { env = {}, ...choice }: RunChoice = {}): Promise<Ended> =>
  runProgram(args, { cwd: folder, ...choice, env: { LIDOFF_DB: join(folder, 'test.db'), ...env } })

const file = (name: string, text: string): string => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

const ID = 'bench-unit'

describe('a record that this version does not read', () => {
  it('keeps what it has and is named; everything else goes on', async () => {
    const db = join(folder, 'older.db')
    expect(await run(['add', '-', '--db', db], { input: unit('sound') })).toMatchObject({ status: 0 })
    const older = new Database(db)
    older.exec(`BEGIN; INSERT INTO teardown VALUES (77, 'older', 1, 0, 1, 'of long ago');
      INSERT INTO revision VALUES (77, 1, 0, '${'0'.repeat(64)}', '${'0'.repeat(64)}', '2020-01-01T00:00:00Z', NULL, NULL, 'id: older', '{}');
      UPDATE teardown SET stamp = 'of long ago'; COMMIT;`)
    older.close()
    const { status, out, err } = await run(['figures', 'sound', '--metric', 'POWER_DENSITY', '--db', db])
    expect(status).toBe(0)
    expect(out).toContain('POWER_DENSITY specimen: 10.0')
    expect(err).toContain('2 of the records bear figures of another version')
    expect(err).toContain(
      'older keeps the figures of another version: the stored record "older" is not read by this version',
    )
    expect(err).toContain('add its sheet again')
    expect(await run(['add', '-', '--db', db], { input: unit('older') })).toMatchObject({ status: 0 })
    expect((await run(['list', '--db', db])).err).toBe('')
  })
})

describe('several sheets at once', () => {
  it('are stored in the order named, each as it would be alone, and one that is refused leaves the others alone', async () => {
    const files = ['b-unit', 'a-unit'].map((id) => file(`${id}.yaml`, unit(id)))
    const bad = file('bad.yaml', 'schema: nothing\n')
    const [together, alone] = ['together.db', 'alone.db'].map((name) => ({ LIDOFF_DB: join(folder, name) }))
    const { status, out } = await run(['add', files[0]!, bad, files[1]!, '--json'], { env: together! })
    expect(status).toBe(1)
    const { files: added } = JSON.parse(out) as { files: { ok: boolean; stored: { id: string } | null }[] }
    expect(added.map(({ ok, stored }) => [ok, stored?.id])).toEqual([
      [true, 'b-unit'],
      [false, undefined],
      [true, 'a-unit'],
    ])
    for (const one of files) expect(await run(['add', one], { env: alone! })).toMatchObject({ status: 0 })
    for (const id of ['a-unit', 'b-unit']) {
      const asked = ['figures', id, '--json']
      expect((await run(asked, { env: together! })).out).toBe((await run(asked, { env: alone! })).out)
    }
  })
})

describe('help', () => {
  it.each(commands.map(({ name }) => name))('of %s shows an example and the exit statuses', async (name) => {
    const { status, out, err } = await run([name, '--help'])
    expect({ status, err }).toEqual({ status: 0, err: '' })
    expect(out).toMatch(/Examples:\n {2}lidoff /)
    expect(out).toMatch(/Exit status:\n {2}0 +fine\n {2}1 .+\n {2}2 .+\n {2}3 .+\n {2}4 /)
    expect(out).toContain('--json')
    expect(out).toContain('--db')
  })

  it('of a command is the same by either way of asking', async () => {
    expect((await run(['help', 'compare'])).out).toBe((await run(['compare', '--help'])).out)
  })

  it('lists every command, and the version is that of the package', async () => {
    const out = (await run(['--help'])).out.replace(/\s+/g, ' ') // long summaries go on in the next line
    for (const { name, summary } of commands) {
      expect(out).toContain(name)
      expect(out).toContain(summary)
    }
    expect((await run(['--version'])).out).toBe(`${VERSION}\n`)
    expect((await run(['version'])).out).toBe(`${VERSION}\n`)
  })

  it('examples are lines that the program takes: their flags exist', async () => {
    for (const { name, examples, options } of commands) {
      for (const example of examples) {
        const flags = [...example.replace(/'[^']*'|"[^"]*"/g, '').matchAll(/ (--[a-z-]+)/g)].map(([, flag]) => flag)
        const known = ['--json', '--db', ...options.map((option) => option.flags.split(' ')[0])]
        expect(known, `${name}: ${example}`).toEqual(expect.arrayContaining(flags))
      }
    }
  })
})

describe('wrong usage exits 2, says what is meant, and writes nothing to standard output', () => {
  it.each([
    [['figure'], /figures/],
    [['compare', '--metrc', 'X'], /--metric/],
    [['figures'], /missing required argument/],
    [['figures', ID, '--metric', 'POWER_DENSTY'], /POWER_DENSITY/],
    [['figures', ID, '--condition', 'warmth=9'], /coolant-inlet/],
    [['figures', ID, '--condition', 'coolant-inlet'], /name=value/],
    [['figures', ID, '--condition', 'coolant-inlet=5 mm'], /mm/],
    [['figures', ID, '--what-if', 'specimen/mas=9 kg'], /specimen/],
    [['figures', ID, '--what-if', 'specimen/mass=9 mm'], /kg/],
    [['compare', '--per', 'module'], /teardown/],
    [['compare', '--where', 'colour=red'], /kind/],
    [['compare', '--group', 'colour'], /known traits/],
    [['calc', 'link-riple'], /link-ripple/],
    [['calc', 'link-ripple', '--arg', 'phaseCurent=3 A'], /phaseCurrent/],
    [['calc', 'link-ripple'], /phaseCurrent/],
    [['export', 'everything'], /figures/],
    [['query', '{ __typename }', '--variables', '[1]'], /JSON object/],
    [['serve', '--port', 'x'], /port/],
    [['serve', '--host', '0.0.0.0', '--port', '0'], /token/],
    [['token', 'lend'], /revoke/],
    [[], /lidoff/],
  ])('%j', async (args, said) => {
    const { status, out, err } = await run(args)
    expect({ status, out }).toEqual({ status: 2, out: '' })
    expect(err).toMatch(said)
    expect(err).not.toMatch(/\n {4}at /)
  })

  it('under --json says the same as one document', async () => {
    const { status, out } = await run(['figures', ID, '--metric', 'POWER_DENSTY', '--json'])
    expect(status).toBe(2)
    expect(JSON.parse(out)).toMatchObject({
      error: { code: 'USAGE', message: expect.any(String), mend: expect.stringContaining('POWER_DENSITY') },
    })
  })
})

describe('what is not there exits 3', () => {
  it.each([
    ['figures', 'none'],
    ['show', 'none'],
    ['measure-next', 'none'],
    ['trace', 'none', 'bar'],
    ['trace', ID, 'none'],
    ['check', 'none.yaml'],
    ['figures', ID, '--subject', 'parts/none'],
    ['compare', '--db', 'none.db'],
  ])('%s %s', async (...args) => {
    const { status, out, err } = await run(args)
    expect({ status, out }).toEqual({ status: 3, out: '' })
    expect(err).toMatch(/^lidoff: /)
    expect(existsSync(join(folder, 'none.db'))).toBe(false)
  })
})

describe('check', () => {
  it('prints how quantities were read, and writes nothing', async () => {
    const { status, out } = await run(['check', example, '--db', join(folder, 'untouched.db')])
    expect(status).toBe(0)
    expect(out).toMatch(/specimen\/mass: .*3\.34 ± 0\.01 kg/)
    expect(existsSync(join(folder, 'untouched.db'))).toBe(false)
  })

  it('exits 1 with place and mend of every error', async () => {
    const bad = file('bad.yaml', exampleSheet.replace('mass: 3.34', 'maas: 3.34').replace('252 x 168', '252 kg x 168'))
    const { status, out } = await run(['check', bad])
    expect(status).toBe(1)
    expect(out).toMatch(/bad\.yaml:\d+:\d+ +specimen: unknown key "maas"/)
    expect(out).toMatch(/did you mean "mass"/)
    const document = JSON.parse((await run(['check', bad, '--json'])).out)
    expect(document).toMatchObject({ ok: false, files: [{ ok: false, errors: expect.any(Array) }] })
    expect(document.files[0].errors.length).toBeGreaterThanOrEqual(2)
    expect(document.files[0].errors[0]).toMatchObject({
      line: expect.any(Number),
      column: expect.any(Number),
      mend: expect.any(String),
    })
  })

  it('reads standard input', async () => {
    expect(await run(['check', '--quiet', '-'], { input: exampleSheet })).toMatchObject({ status: 0 })
  })
})

describe('add', () => {
  it('makes a revision, none for the same content, and refuses when another was expected', async () => {
    const one = file('one.yaml', unit('one'))
    expect((await run(['add', one])).out).toContain('one: stored as revision 1')
    expect((await run(['add', one])).out).toContain('revision 1 says this already')
    writeFileSync(one, unit('one', { title: 'Another title' }))
    const refused = await run(['add', '--expect', '7', one, '--json'])
    expect(refused.status).toBe(4)
    expect(JSON.parse(refused.out)).toMatchObject({ ok: false, files: [{ stored: null, error: { code: 'CONFLICT' } }] })
    expect(await run(['add', '--expect', '1', one])).toMatchObject({ status: 0 })
    expect((await run(['show', 'one', '--history'])).out).toMatch(/\b2\b/)
    expect((await run(['show', 'one', '--sheet', '--revision', '1'])).out.trimEnd()).toBe(unit('one').trimEnd())
  })

  it('stores the good files and nothing of the bad one', async () => {
    const [good, bad] = [file('good.yaml', unit('good')), file('worse.yaml', unit('worse').replace('kg', 'kilo'))]
    const { status, out } = await run(['add', bad, good, '--json'])
    expect(status).toBe(1)
    expect(JSON.parse(out).files.map(({ ok }: { ok: boolean }) => ok)).toEqual([false, true])
    const ids = JSON.parse((await run(['list', '--json'])).out).teardowns.map(({ id }: { id: string }) => id)
    expect(ids).toContain('good')
    expect(ids).not.toContain('worse')
  })

  it('keeps the database to its owner', () => {
    expect(statSync(join(folder, 'test.db')).mode & 0o777).toBe(0o600)
  })
})

describe('answers', () => {
  it.each([
    ['classes'],
    ['classes', 'film-capacitor'],
    ['list'],
    ['show', ID],
    ['figures', ID],
    ['figures', ID, '--metric', 'LINK_ENERGY'],
    ['trace', ID, 'module.u'],
    ['measure-next', ID],
    ['compare'],
    ['calc'],
    [
      'calc',
      'link-ripple',
      '--arg',
      'phaseCurrent=330 A',
      '--arg',
      'modulationIndex=0.9',
      '--arg',
      'power-factor=0.85',
    ],
    ['query', '{ metrics { id } }'],
    ['export', 'figures'],
    ['export', 'components'],
    ['verify'],
  ])('%s %s gives one JSON document under --json, and text without', async (...args) => {
    const json = await run([...args, '--json'])
    expect(json.status).toBe(0)
    expect(() => JSON.parse(json.out)).not.toThrow()
    const text = await run(args)
    expect(text.status).toBe(0)
    expect(text.out.trim()).not.toBe('')
    expect(text.out).not.toContain('\u001b')
  })

  it('figures show their working: inputs with shares that sum to one', async () => {
    const { figures } = JSON.parse((await run(['figures', ID, '--metric', 'power-density', '--json'])).out)
    const [one] = figures
    // 100 kW over 400 x 250 x 100 mm, worked by hand: ten litres.
    expect(one).toMatchObject({
      metric: 'POWER_DENSITY',
      status: 'OK',
      value: expect.closeTo(10, 9),
      unit: 'kW/L',
    })
    const shares = one.inputs.reduce(
      (sum: number, { share }: { share: number | null }) => sum + (share ?? 0),
      one.interaction ?? 0,
    )
    expect(shares).toBeCloseTo(1, 6)
  })

  it('part classes have their group and properties, and another word finds the class', async () => {
    const { classes } = JSON.parse((await run(['classes', '--json'])).out)
    expect(classes).toContainEqual(expect.objectContaining({ name: 'bus-bar', group: 'power-conductor' }))
    const one = JSON.parse((await run(['classes', 'film-capacitor', '--json'])).out)
    expect(one.name).toBe('dc-link-film-capacitor')
    expect(one.properties).toContainEqual(expect.objectContaining({ name: 'capacitance', dimension: 'capacitance' }))
    const slip = await run(['classes', 'bus-baar'])
    expect(slip).toMatchObject({ status: 3, out: '', err: expect.stringContaining('did you mean "bus-bar"?') })
  })

  it('a figure of what is not there gives its reason once and asks for nothing', async () => {
    const asked = ['figures', ID, '--metric', 'LINK_RIPPLE_CURRENT']
    const { out } = await run(asked)
    const reason = 'the closed forms are for a three-phase bridge; 1 switched output(s) are on record'
    expect(out).toContain('NOT_APPLICABLE')
    expect(out.split(reason)).toHaveLength(2)
    expect(out).not.toMatch(/measure or read|look for|phase-current/)
    const [one] = JSON.parse((await run([...asked, '--json'])).out).figures
    expect(one).toMatchObject({ status: 'NOT_APPLICABLE', missing: [{ asks: null, reason }], warnings: [] })
  })

  it('a value without a tolerance is said to be taken as exact, and one with is not', async () => {
    const said = 'taken as exact; write ± to give it a width'
    for (const [command, ...flag] of [['what-if'], ['figures', '--what-if']]) {
      const with_ = (value: string) => [command!, ID, ...flag, `specimen/mass=${value}`, '--metric', 'SPECIFIC_POWER']
      expect((await run(with_('8 kg'))).out).toContain(said)
      expect((await run(with_('8 ± 0.1 kg'))).out).not.toContain('as exact')
    }
    const { takenAsExact } = JSON.parse((await run(['figures', ID, '--what-if', 'specimen/mass=8 kg', '--json'])).out)
    expect(takenAsExact).toEqual(['specimen/mass=8 kg'])
    const { scenarios } = JSON.parse((await run(['what-if', ID, 'specimen/mass=8 ± 1 kg', '--json'])).out)
    expect(scenarios[0].takenAsExact).toEqual([])
    const range = ['sweep', ID, '--metric', 'SPECIFIC_POWER', '--over', 'specimen/mass=8..9 kg:2']
    expect((await run(range)).err).toContain('taken as exact')
  })

  it('what a measurement would leave is told for an exact value, as none is', async () => {
    const { out } = await run(['measure-next', ID])
    expect(out).toMatch(/u of \w+ \S+ [\d.]+ → [\d.]+ \S+ if exact/)
    expect(out).toContain('No measurement is exact')
  })

  it('what-if changes the answer and nothing else', async () => {
    const ask = async (more: readonly string[]) =>
      JSON.parse((await run(['figures', ID, '--metric', 'SPECIFIC_POWER', '--json', ...more])).out).figures[0].value
    const before = await ask([])
    expect(await ask(['--what-if', 'specimen/mass=20 kg'])).toBeCloseTo(before / 2, 9)
    expect(await ask([])).toBe(before)
  })

  it('shows the cautions wherever a figure of stored energy is shown', async () => {
    for (const args of [
      ['figures', ID, '--metric', 'LINK_ENERGY'],
      ['compare', '--metric', 'LINK_ENERGY'],
      ['measure-next', ID, '--metric', 'LINK_ENERGY'],
      ['show', ID],
    ]) {
      expect((await run(args)).out).toMatch(/Caution: Stored energy[\s\S]*Local codes/)
    }
    expect((await run(['export', 'figures'])).err).toMatch(/Caution: Stored energy/)
  })

  it('an empty place has nothing, and is left empty', async () => {
    const env = { LIDOFF_DB: join(folder, 'absent.db') }
    expect(await run(['list'], { env })).toMatchObject({ status: 0, out: expect.stringContaining('lidoff demo') })
    expect(JSON.parse((await run(['query', '{ teardowns { totalCount } }'], { env })).out)).toEqual({
      data: { teardowns: { totalCount: 0 } },
    })
    expect(existsSync(env.LIDOFF_DB)).toBe(false)
  })
})

describe('query', () => {
  it('exits 0 with errors in the document', async () => {
    const { status, out } = await run(['query', '{ nothing }'])
    expect(status).toBe(0)
    expect(JSON.parse(out)).toMatchObject({ errors: [{ extensions: { code: 'QUERY_INVALID' } }] })
  })

  it('exits 1 when the text could not be read', async () => {
    const { status, out } = await run(['query', '{ nothing'])
    expect(status).toBe(1)
    expect(JSON.parse(out)).toMatchObject({
      errors: [{ extensions: { code: 'QUERY_SYNTAX' }, locations: [{ line: 1 }] }],
    })
  })

  it('takes variables and standard input', async () => {
    const { out } = await run(['query', '-', '--variables', JSON.stringify({ id: ID })], {
      input: 'query($id: ID!) { teardown(id: $id) { revision } }',
    })
    expect(JSON.parse(out)).toEqual({ data: { teardown: { revision: 1 } } })
  })
})

describe('files', () => {
  it('a backup is complete and overwrites nothing', async () => {
    const copy = join(folder, 'copy.db')
    expect(await run(['backup', copy])).toMatchObject({ status: 0 })
    expect(await run(['backup', copy])).toMatchObject({ status: 4 })
    const [own, copied] = [await run(['export', 'figures']), await run(['export', 'figures', '--db', copy])]
    expect(copied.out).toBe(own.out)
    expect(await run(['verify', '--db', copy])).toMatchObject({ status: 0 })
  })

  it('an export is written whole', async () => {
    const target = join(folder, 'figures.csv')
    expect(await run(['export', 'figures', '--output', target])).toMatchObject({ status: 0, out: '' })
    expect(readFileSync(target, 'utf8')).toBe((await run(['export', 'figures'])).out)
  })

  it('a file that is not ours is refused and left alone', async () => {
    const foreign = file('foreign.db', 'not a database at all, but long enough to be looked at '.repeat(4))
    const before = readFileSync(foreign, 'utf8')
    expect((await run(['list', '--db', foreign])).status).toBe(4)
    expect(readFileSync(foreign, 'utf8')).toBe(before)
  })

  it('a token is shown once and kept as a hash', async () => {
    const { status, out } = await run(['token', 'new', 'bench'])
    expect(status).toBe(0)
    const tokens = readFileSync(join(folder, 'lidoff-tokens.json'), 'utf8')
    expect(tokens).not.toContain(out.trim())
    expect((await run(['token', 'new', 'bench'])).status).toBe(4)
    expect((await run(['token', 'list'])).out).toContain('bench')
    expect((await run(['token', 'revoke', 'bench'])).status).toBe(0)
    expect((await run(['token', 'revoke', 'bench'])).status).toBe(3)
  })
})

describe('the terminal', () => {
  it('sees no escape sequence of a sheet', async () => {
    // YAML's own escapes bring the characters in: a title that would rename the window and one that turns round.
    const hostile = file('hostile.yaml', unit('hostile').replace(/title: .*/, 'title: "a\\e]0;owned\\a b\\u202Ec"'))
    const checked = await run(['check', hostile])
    const added = await run(['add', hostile])
    for (const { out, err } of [checked, added, await run(['list']), await run(['show', 'hostile'])]) {
      for (const character of ['\u001b', '\u0007', '\u202e']) expect(out + err).not.toContain(character)
    }
  })

  it('is coloured under FORCE_COLOR and never under NO_COLOR', async () => {
    expect((await run(['list'], { env: { FORCE_COLOR: '1' } })).out).toContain('\u001b[')
    expect((await run(['list'], { env: { FORCE_COLOR: '1', NO_COLOR: '1' } })).out).not.toContain('\u001b[')
  })

  it.each([60, 80, 120])('tables fit %i columns', async (columns) => {
    const { out } = await run(['list'], { env: { COLUMNS: String(columns) } })
    for (const line of out.split('\n').slice(1)) expect(line.length).toBeLessThanOrEqual(Math.max(columns, 75))
  })

  it('a reader that leaves early is no fault', () => {
    const program = join(projectFolder(), 'api', 'run.mjs')
    const line = `"${process.execPath}" "${program}" query '{ metrics { id title definition unit method sources } }' | head -1`
    const { status, stdout, stderr } = spawnSync('bash', ['-o', 'pipefail', '-c', line], {
      cwd: folder,
      encoding: 'utf8',
    })
    expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: '{\n', stderr: '' })
  })
})
