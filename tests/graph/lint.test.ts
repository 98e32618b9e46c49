import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const AROUND = 'what is read around it is not logged'
const NO_QUERIES = 'graph knows nothing of queries or api'
const NO_API = 'queries knows nothing of api'
const PURE = 'pure SI functions'

const FORBIDDEN = [
  ['queries/figures', '../../graph/values.ts', AROUND],
  ['queries/figures', '../../graph/record/record.ts', AROUND],
  ['queries/figures/heat', '../../../graph/answers/heat.ts', AROUND],
  ['queries/figures', '../../graph/build/nets.ts', AROUND],
  ['queries/figures', '../../graph/structure.ts', AROUND],
  ['queries/figures', '../../graph/store/store.ts', AROUND],
  ['queries/traits', '../../graph/build.ts', AROUND],
  ['queries/checks', '../../graph/sheet/read.ts', AROUND],
  ['graph', '../queries/figures/figure.ts', NO_QUERIES],
  ['graph/answers', '../../api/errors.ts', NO_QUERIES],
  ['queries', '../api/errors.ts', NO_API],
  ['queries/figures', '../../api/errors.ts', NO_API],
  ['queries/physics', '../figures/figure.ts', PURE],
  ['queries/physics', '../../graph/view.ts', PURE],
] as const

const ALLOWED = [
  ['queries/figures', '../../graph/view.ts'],
  ['queries/figures', '../physics/loop.ts'],
  ['queries/physics', './method.ts'],
  ['queries/evaluate', '../../graph/values.ts'],
  ['graph/answers', '../record/record.ts'],
  ['api', '../queries/evaluate/session.ts'],
] as const

const folder = mkdtempSync(join(tmpdir(), 'lint-'))
afterAll(() => rmSync(folder, { recursive: true }))

/** The rules of this project over a file of one import each, in a folder of their own. */
function lint(imports: readonly (readonly [within: string, from: string, ...rest: readonly string[]])[]) {
  const files = imports.map(([within, from], n) => {
    const file = `${within}/probe-${n}.ts`
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(join(folder, file), `import { one } from '${from}'\n\nexport const two = one\n`)
    return file
  })
  cpSync(join(ROOT, '.biome.json'), join(folder, '.biome.json'))
  const biome = join(ROOT, 'node_modules/.bin/biome')
  const options = ['--vcs-enabled=false', '--colors=off', '--max-diagnostics=none']
  const { status, stdout, stderr } = spawnSync(biome, ['lint', ...options, ...files], { cwd: folder, encoding: 'utf8' })
  const said = `${stdout}${stderr}`.split(/(?=^\S+probe-\d+\.ts:)/m)
  return {
    status,
    about: files.map((file) =>
      said
        .filter((one) => one.startsWith(`${file}:`))
        .join('')
        .replaceAll(/\s+/g, ' '),
    ),
  }
}

describe('what may import what', () => {
  const refused = lint(FORBIDDEN)
  it.each(FORBIDDEN.map((one, n) => [...one, n] as const))('%s may not import %s', (_, __, why, n) => {
    expect(refused.about[n]).toContain(why)
    expect(refused.status).toBe(1)
  })

  it('and what is allowed passes', () => {
    expect(lint(ALLOWED)).toEqual({ status: 0, about: ALLOWED.map(() => '') })
  })
})
