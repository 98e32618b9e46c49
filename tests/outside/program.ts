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

export interface Served {
  readonly url: string
  readonly pid: number
  readonly said: () => string
  /** Sends the signal and waits for the end. */
  stop(signal: NodeJS.Signals): Promise<{ readonly status: number | null; readonly seconds: number }>
}

/** Starts `lidoff serve` on a free port and waits until it says where it listens. */
export function serve(args: readonly string[], choice: RunChoice = {}): Promise<Served> {
  const child = start(['serve', '--port', '0', ...args], choice)
  let said = ''
  const ended = new Promise<number | null>((done) => child.on('close', done))
  return new Promise((done, failed) => {
    const listen = (text: Buffer): void => {
      said += text.toString()
      const url = /lidoff answers at (http:\/\/[^ /]+)/.exec(said)?.[1]
      if (!url) return
      const stop: Served['stop'] = async (signal) => {
        const begun = performance.now()
        child.kill(signal)
        return { status: await ended, seconds: (performance.now() - begun) / 1000 }
      }
      done({ url, pid: child.pid!, stop, said: () => said })
    }
    child.stderr.on('data', listen)
    child.stdout.on('data', (text: Buffer) => {
      said += text.toString()
    })
    ended.then((status) => failed(new Error(`ended with ${status}: ${said}`)))
  })
}
