import { spawnSync } from 'node:child_process'
import { accessSync, constants, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { describe } from 'vitest'

/**
 * ngspice, a general-purpose circuit simulator that follows the Berkeley SPICE netlist (Debian package `ngspice`). It
 * shares nothing with the product: netlists are written by the tests, and it solves them in its own way.
 */
const SIMULATOR = 'ngspice'

function found(program: string): boolean {
  return (process.env.PATH ?? '').split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK)
      return true
    } catch {
      return false
    }
  })
}

/** As `describe`; skipped where there is no simulator, which the last lines of the run then say. */
export const describeSimulated = describe.skipIf(!found(SIMULATOR))

export interface Simulation {
  /** Elements and models, one a line. */
  readonly circuit: readonly string[]
  /** Analyses and measurements, in order. */
  readonly commands: readonly string[]
  /** What to read once they have run: expressions of the last analysis that give one real number. */
  readonly read: readonly string[]
}

// Its usual 10⁻³ would hide what these comparisons look for; tolerances of currents and voltages follow.
const OPTIONS = ['option reltol=1e-9', 'option abstol=1e-11', 'option vntol=1e-9', 'option gmin=1e-18']

/** Runs a circuit and gives what was to be read, in that order. @throws on a complaint of the simulator */
export function simulate({ circuit, commands, read }: Simulation): readonly number[] {
  const readings = read.flatMap((expression, i) => [`let reading${i} = ${expression}`, `print reading${i}`])
  const control = ['set numdgt=15', ...OPTIONS, ...commands, ...readings, 'quit']
  const out = run(['* written by a test', ...circuit, '.control', ...control, '.endc', '.end', ''].join('\n'))
  return read.map((expression, i) => {
    const value = Number(new RegExp(`^reading${i} = (\\S+)$`, 'm').exec(out)?.[1] ?? Number.NaN)
    if (!Number.isFinite(value)) throw new Error(`no number for ${expression}\n${out}`)
    return value
  })
}

function run(deck: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-circuit-'))
  try {
    const file = join(folder, 'deck.cir')
    writeFileSync(file, deck)
    const { stdout, stderr, status, error } = spawnSync(SIMULATOR, ['-b', file], {
      cwd: folder,
      encoding: 'utf8',
      timeout: 60_000,
      maxBuffer: 1e8,
    })
    if (error) throw error
    if (status !== 0 || /\b(error|singular|failed|aborted)\b/i.test(`${stdout}${stderr}`))
      throw new Error(`the simulator ends with ${status}\n${stdout}\n${stderr}`)
    return stdout
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** Names for a netlist, one for each thing asked for: `n1`, `n2`, …; node 0 is the common reference. */
export function nodeNames(reference?: string): (id: string) => string {
  const names = new Map<string, string>(reference === undefined ? [] : [[reference, '0']])
  return (id) => {
    if (!names.has(id)) names.set(id, `n${names.size + 1}`)
    return names.get(id)!
  }
}
