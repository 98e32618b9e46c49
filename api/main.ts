import type { Call, Options } from './cli/command.ts'
import { commands } from './cli/commands.ts'
import { plainText } from './cli/plain-text.ts'
import { buildProgram, isWanted } from './cli/program.ts'
import { openTerminal } from './cli/terminal.ts'
import { FAULTS, Fault, faultDocument } from './errors.ts'
import { faultOf } from './fault-of.ts'
import { VERSION } from './place.ts'

const USAGE = FAULTS.USAGE.exit

/** Runs one command line and answers its exit status. */
export async function main(argv: readonly string[]): Promise<number> {
  const asksJson = argv.includes('--json')
  let complaint = ''
  const { program, status } = buildProgram(commands, VERSION, {
    write: (text) => void process.stdout.write(text),
    complain: (text) => {
      complaint += text
    },
    width: process.stdout.columns ?? 100,
    call: callWith,
  })
  try {
    await program.parseAsync(argv, { from: 'user' })
    return status()
  } catch (error) {
    if (isWanted(error)) return 0
    const fault = complaint ? usage(complaint) : faultOf(error)
    return report(fault, asksJson)
  }
}

function callWith(args: readonly string[], options: Options): Call {
  const { stdout, stderr, env } = process
  return {
    args,
    options,
    env,
    terminal: openTerminal({ stdout, stderr, env, json: options.json === true, colour: options.color !== false }),
    now: () => new Date(),
    stdin: readStdin,
  }
}

/** What commander says of a wrong line, as one of our refusals: first line, then what mends it. */
function usage(complaint: string): Fault {
  const [what, ...rest] = complaint.trim().split('\n')
  if (what?.startsWith('Usage:')) return new Fault('USAGE', 'no command given', complaint.trim())
  const mend = rest.length > 0 ? rest.join(' ').replace(/^\(|\)$/g, '') : '"lidoff --help" lists commands and flags'
  return new Fault('USAGE', (what ?? '').replace(/^error: /, ''), mend)
}

function report(fault: Fault, json: boolean): number {
  if (json) process.stdout.write(`${JSON.stringify({ error: faultDocument(fault) }, null, 2)}\n`)
  process.stderr.write(plainText(`lidoff: ${fault.message}\n${fault.mend ? `        ${fault.mend}\n` : ''}`))
  if (fault.code === 'INTERNAL') process.stderr.write(plainText(`${stackOf(fault.cause)}\n`))
  return fault.code === 'USAGE' ? USAGE : FAULTS[fault.code].exit
}

function stackOf(cause: unknown): string {
  return cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)
}

async function readStdin(): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer)
  return Buffer.concat(chunks).toString('utf8')
}

/** A reader that went away (`| head -1`) is no fault of ours: end without a word. */
function endQuietlyWhenNobodyReads(error: NodeJS.ErrnoException): void {
  if (error.code === 'EPIPE') process.exit(0)
  throw error
}

process.stdout.on('error', endQuietlyWhenNobodyReads)
process.stderr.on('error', endQuietlyWhenNobodyReads)
process.exitCode = await main(process.argv.slice(2))
