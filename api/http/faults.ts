import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { StoreError, type StoreErrorKind } from '../../graph/store/store-error.ts'
import { FAULTS, Fault, type FaultCode, faultDocument } from '../errors.ts'
import { faultOf } from '../fault-of.ts'

/** Refusals that fastify makes itself, before a handler runs. */
const BY_STATUS: Readonly<Record<number, FaultCode>> = {
  400: 'USAGE',
  404: 'NOT_FOUND',
  405: 'METHOD',
  413: 'TOO_LARGE',
  414: 'TOO_LARGE',
  415: 'MEDIA_TYPE',
}

/** Any error of a request as a fault; the server's own refusals keep their status. */
export function requestFault(error: unknown): Fault {
  const { statusCode, validation, message } = error as Partial<FastifyError>
  const status = validation ? 400 : statusCode
  const code = error instanceof Fault || status === undefined ? undefined : BY_STATUS[status]
  return code ? new Fault(code, message ?? FAULTS[code].about) : withoutPlaces(faultOf(error))
}

/** What the store and the file system say names files of this machine: that is for the log, not for a reader. */
function withoutPlaces(fault: Fault): Fault {
  const { cause } = fault
  if (!(cause instanceof StoreError) || OF_CALLER.has(cause.kind)) return fault
  const told = new Fault(fault.code, 'the database does not answer as it should', 'look into the log of the server')
  told.cause = cause
  return told
}

/** Refusals of the store that are about what was asked, and name nothing but that. */
const OF_CALLER: ReadonlySet<StoreErrorKind> = new Set(['conflict', 'not-found', 'bad-request', 'bad-cursor'])

/** Every error leaves as one JSON object; a fault of ours shows an id, and the log holds the rest under the same id. */
export function answerFaults(app: FastifyInstance): void {
  app.setErrorHandler((error, request, reply) => sendFault(requestFault(error), request, reply))
  app.setNotFoundHandler((request, reply) =>
    sendFault(new Fault('NOT_FOUND', 'there is no such page', 'GET / lists what there is'), request, reply),
  )
}

function sendFault(fault: Fault, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  if (fault.cause) request.log.error({ err: fault.cause, id: fault.facts.id }, fault.message)
  return reply
    .code(FAULTS[fault.code].http)
    .type('application/json; charset=utf-8')
    .send({ error: faultDocument(fault) })
}
