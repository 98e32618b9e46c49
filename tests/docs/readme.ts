import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const root = process.cwd()

/**
 * Runs what a README shows: a ```yaml block headed `# file: NAME` is written to that file, and every `$ command` of a
 * ```console block is run, in one folder, in order; what follows a command is replaced by what it printed.
 */
export function replayed(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-readme-'))
  try {
    prepare(folder)
    return text.replace(/^```(yaml|console)\n([\s\S]*?)^```$/gm, (whole, kind: string, body: string) =>
      kind === 'yaml' ? written(folder, body, whole) : `\`\`\`console\n${session(folder, body)}\`\`\``,
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** A folder in which `lidoff` is this checkout's, with the demo sheets beside it. */
function prepare(folder: string): void {
  const bin = join(folder, '.bin')
  mkdirSync(bin)
  writeFileSync(join(bin, 'lidoff'), `#!/bin/sh\nexec node ${join(root, 'api/run.mjs')} "$@"\n`, { mode: 0o755 })
  symlinkSync(join(root, 'seeds'), join(folder, 'seeds'))
}

function written(folder: string, body: string, whole: string): string {
  const file = /^# file: (\S+)/m.exec(body)?.[1]
  if (file) writeFileSync(join(folder, file), body)
  return whole
}

function session(folder: string, body: string): string {
  const commands = body.split('\n').filter((line) => line.startsWith('$ '))
  return commands.map((line) => `${line}\n${run(folder, line.slice(2))}`).join('')
}

/** Dates change from day to day, and only they. */
function run(folder: string, command: string): string {
  const env = {
    ...process.env,
    PATH: `${join(folder, '.bin')}:${process.env.PATH}`,
    NO_COLOR: '1',
    COLUMNS: '110',
    LIDOFF_DB: '',
  }
  const output = execFileSync('bash', ['-c', `${command} 2>&1 || true`], { cwd: folder, env, encoding: 'utf8' })
  return output
    .replace(/\b20\d\d-\d\d-\d\d( \d\d:\d\d|T[\d:.]+Z)?/g, '2026-11-25$1')
    .replace(/ \d\d:\d\d$/gm, ' 09:00')
    .replaceAll(`${folder}/`, '')
}
