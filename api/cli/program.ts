import { Command as Commander, CommanderError, Option as CommanderOption } from 'commander'
import { type Call, type Command, EXIT_STATUS, type Options } from './command.ts'

/** What the program needs from the process, so that a test can stand in for it. */
export interface Outside {
  readonly write: (text: string) => void
  readonly complain: (text: string) => void
  readonly width: number
  readonly call: (args: readonly string[], options: Options) => Call
}

/** Builds the command line of a list of commands. */
export function buildProgram(
  commands: readonly Command[],
  version: string,
  outside: Outside,
): {
  readonly program: Commander
  readonly status: () => number
} {
  let status = 0
  const program = new Commander('lidoff')
    .description('A parts-knowledge graph and benchmarking database for teardowns of power-electronic units.')
    .version(version, '--version', 'print the version')
    .option('--db <file>', 'database file (else LIDOFF_DB, else lidoff.db in the working folder)')
    .option('--json', 'print one JSON document on standard output')
    .option('--no-color', 'print without colour (as does NO_COLOR)')
    .helpOption('-h, --help', 'print help')
    .helpCommand('help [command]', 'print help of a command')
    .showHelpAfterError(false)
    .showSuggestionAfterError(true)
    .configureHelp({ showGlobalOptions: true, helpWidth: outside.width })
    .configureOutput({ writeOut: outside.write, writeErr: outside.complain })
    .exitOverride()
    .addHelpText(
      'after',
      () => `\nExamples:\n${commands.map(({ examples }) => `  ${examples[0]}`).join('\n')}\n\n${exits()}`,
    )
  for (const command of commands) {
    addCommand(program, command, outside, (next) => {
      status = next
    })
  }
  return { program, status: () => status }
}

function addCommand(program: Commander, command: Command, outside: Outside, ended: (status: number) => void): void {
  const added = program.command(command.name).summary(command.summary)
  added.description(command.about ? `${command.summary}\n\n${command.about}` : command.summary)
  for (const { name, about, optional, many } of command.arguments) {
    const word = `${name}${many ? '...' : ''}`
    added.argument(optional ? `[${word}]` : `<${word}>`, about)
  }
  for (const { flags, about, many } of command.options) {
    const option = new CommanderOption(flags, about)
    if (many) option.argParser((value: string, before: readonly string[] = []) => [...before, value])
    added.addOption(option)
  }
  added.addHelpText(
    'after',
    `\nExamples:\n${command.examples.map((example) => `  ${example}`).join('\n')}\n\n${exits()}`,
  )
  added.action(async () => {
    ended(await command.run(outside.call(added.args, added.optsWithGlobals<Options>())))
  })
}

/** Whether commander ended by doing what was asked (help, version) rather than by refusing. */
export function isWanted(error: unknown): error is CommanderError {
  return error instanceof CommanderError && error.exitCode === 0
}

function exits(): string {
  return `Exit status:\n${EXIT_STATUS.map(([code, about]) => `  ${code}  ${about}`).join('\n')}`
}
