#!/usr/bin/env node
// Starts a TypeScript entry point in a checkout: bundles it into .build when a source is newer, then runs the bundle.
// Node 20 does not run TypeScript, and a type-checker's emit takes seconds where this takes a tenth of one.
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const sources = ['api', 'graph', 'queries', 'tests']
const flag = process.argv.indexOf('--entry')
const entry = flag === 2 ? process.argv.splice(flag, 2)[1] : 'api/main.ts'
const folder = join(root, '.build', entry.replace(/\.ts$/, '').replaceAll('/', '-'))
const output = join(folder, `${basename(entry, '.ts')}.js`)

const sourcesIn = (name) =>
  readdirSync(join(root, name), { withFileTypes: true, recursive: true })
    .filter((file) => file.name.endsWith('.ts'))
    .map((file) => join(file.parentPath ?? file.path, file.name))
    .sort()
const newest = (name) => sourcesIn(name).reduce((latest, file) => Math.max(latest, statSync(file).mtimeMs), 0)

/** What figures are computed with: records whose figures were computed with anything else are computed anew. */
const computedWith = () => {
  const hash = createHash('sha256')
  for (const file of [...['graph', 'queries'].flatMap(sourcesIn), join(root, 'package-lock.json')])
    hash.update(file.slice(root.length)).update(readFileSync(file))
  return hash.digest('hex').slice(0, 12)
}

const changed = Math.max(
  ...sources.filter((name) => existsSync(join(root, name))).map(newest),
  statSync(join(root, 'package.json')).mtimeMs,
)
if (!existsSync(output) || statSync(output).mtimeMs < changed) {
  const { build } = await import('esbuild')
  await build({
    absWorkingDir: root,
    entryPoints: [join(root, entry), join(root, 'api/deriving-thread.ts')],
    entryNames: '[name]',
    outdir: folder,
    bundle: true,
    splitting: true,
    packages: 'external',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    sourcemap: true,
    define: { 'globalThis.COMPUTED_WITH': JSON.stringify(computedWith()) },
    logLevel: 'error',
  })
}
process.argv[1] = output
await import(pathToFileURL(output).href)
