#!/usr/bin/env node
// Starts a TypeScript entry point in a checkout: bundles it into .build when a source is newer, then runs the bundle.
// Node 20 does not run TypeScript, and a type-checker's emit takes seconds where this takes a tenth of one.
import { existsSync, readdirSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const sources = ['api', 'graph', 'queries', 'tests']
const flag = process.argv.indexOf('--entry')
const entry = flag === 2 ? process.argv.splice(flag, 2)[1] : 'api/main.ts'
const folder = join(root, '.build', entry.replace(/\.ts$/, '').replaceAll('/', '-'))
const output = join(folder, `${basename(entry, '.ts')}.js`)

const newest = (path) =>
  readdirSync(path, { withFileTypes: true, recursive: true })
    .filter((file) => file.name.endsWith('.ts'))
    .reduce((latest, file) => Math.max(latest, statSync(join(file.parentPath ?? file.path, file.name)).mtimeMs), 0)

const changed = Math.max(
  ...sources.filter((name) => existsSync(join(root, name))).map((name) => newest(join(root, name))),
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
    logLevel: 'error',
  })
}
process.argv[1] = output
await import(pathToFileURL(output).href)
