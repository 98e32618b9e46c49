import type { GraphQLFormattedError } from 'graphql'
import { Fault, type FaultCode, faultDocument } from '../errors.ts'
import { faultOf } from '../fault-of.ts'

/** An error as the engines raise it: the plain one, the one of compiled queries, and what a resolver threw inside either. */
export interface RawError {
  readonly name?: string
  readonly message: string
  readonly locations?: readonly { readonly line: number; readonly column: number }[] | undefined
  readonly path?: readonly (string | number)[] | undefined
  readonly originalError?: unknown
}

/** One error as a reader sees it: message, place, and under `extensions` the code and what mends it. */
export interface ShownError extends GraphQLFormattedError {
  readonly extensions: { readonly code: FaultCode; readonly [fact: string]: unknown }
}

/** @param asFault tells what a thrown thing is; the server knows the refusals of its HTTP layer as well. */
export function showError(error: RawError, log: (fault: Fault) => void, asFault = faultOf): ShownError {
  const place = {
    ...(error.locations ? { locations: error.locations.map(({ line, column }) => ({ line, column })) } : {}),
    ...(error.path ? { path: [...error.path] } : {}),
  }
  const cause = causeOf(error)
  const fault = isGraphqlOwn(cause) ? graphqlFault(cause) : asFault(cause)
  if (fault.code === 'INTERNAL') log(fault)
  const { message, ...extensions } = faultDocument(fault)
  return { message, ...place, extensions }
}

/** What was thrown first, however often it was wrapped. */
function causeOf(error: RawError): RawError {
  let cause = error
  while (!(cause instanceof Fault) && cause.originalError) cause = cause.originalError as RawError
  return cause
}

/** Refused by graphql itself: the text, a name or a variable. */
function isGraphqlOwn({ name }: RawError): boolean {
  return name === 'GraphQLError'
}

function graphqlFault({ message }: RawError): Fault {
  if (!message.startsWith('Syntax Error')) return new Fault('QUERY_INVALID', message)
  return new Fault(message.includes('tokens. Parsing aborted') ? 'QUERY_COSTLY' : 'QUERY_SYNTAX', message)
}
