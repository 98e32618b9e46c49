import { type DocumentNode, type ExecutionResult, execute, parse, validate } from 'graphql'
import { FAULTS, Fault } from '../errors.ts'
import { type RawError, showError } from '../graphql/errors.ts'
import { schema } from '../graphql/schema.ts'
import { type Call, textOf } from './command.ts'
import { withCorpus } from './database.ts'

/** Answers one document; standard output is the GraphQL answer whether or not `--json` is given. */
export async function runQuery(call: Call): Promise<number> {
  const [given = ''] = call.args
  const text = given === '-' ? await call.stdin() : given
  const variables = variablesOf(textOf(call.options, 'variables'))
  const document = parsed(text)
  if ('errors' in document) {
    write(call, document)
    return FAULTS.QUERY_SYNTAX.exit
  }
  return withCorpus(call, 'empty', async (corpus) => {
    const operation = textOf(call.options, 'operation')
    const invalid = validate(schema, document)
    const result =
      invalid.length > 0
        ? { errors: invalid }
        : await execute({
            schema,
            document,
            variableValues: variables,
            contextValue: { corpus, deadline: null },
            ...(operation && { operationName: operation }),
          })
    write(call, result)
    return 0
  })
}

function parsed(text: string): DocumentNode | { readonly errors: readonly RawError[] } {
  try {
    return parse(text)
  } catch (error) {
    return { errors: [error as RawError] }
  }
}

function write(
  { terminal }: Call,
  { data, errors }: Pick<ExecutionResult, 'data'> & { readonly errors?: readonly RawError[] | undefined },
): void {
  const log = (fault: Fault): void => terminal.say(`internal fault ${fault.facts.id}: ${String(fault.cause)}`)
  const shown = {
    ...(errors && errors.length > 0 ? { errors: errors.map((error) => showError(error, log)) } : {}),
    ...(data === undefined ? {} : { data }),
  }
  terminal.raw(`${JSON.stringify(shown, null, 2)}\n`)
}

function variablesOf(text: string | undefined): Readonly<Record<string, unknown>> {
  if (text === undefined) return {}
  try {
    const value: unknown = JSON.parse(text)
    if (typeof value === 'object' && value !== null && !Array.isArray(value))
      return value as Readonly<Record<string, unknown>>
  } catch {
    // Told below, like a value that is JSON but no object.
  }
  throw new Fault('USAGE', '--variables is not a JSON object', `such as --variables '{"id":"ferry-7-drive"}'`)
}
