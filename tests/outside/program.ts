import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { projectFolder } from '../../api/place.ts'

export interface Ended {
  readonly status: number | null
  readonly out: string
  readonly err: string
}

export interface RunChoice {
  readonly input?: string
  readonly env?: Readonly<Record<string, string>>
  readonly cwd?: string
}

const PROGRAM = join(projectFolder(), 'api', 'run.mjs')

/** Starts the program as its users do: a process of its own. */
export function start(args: readonly string[], { env = {}, cwd }: RunChoice = {}) {
  const { LIDOFF_DB: _, NO_COLOR: __, FORCE_COLOR: ___, ...rest } = process.env
  return spawn(process.execPath, [PROGRAM, ...args], { env: { ...rest, ...env }, ...(cwd && { cwd }) })
}

/** Runs it to its end. */
export function run(args: readonly string[], choice: RunChoice = {}): Promise<Ended> {
  return new Promise((done, failed) => {
    const child = start(args, choice)
    let out = ''
    let err = ''
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text
    })
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text
    })
    child.on('error', failed)
    child.on('close', (status) => done({ status, out, err }))
    child.stdin.end(choice.input ?? '')
  })
}
