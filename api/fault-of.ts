import { randomUUID } from 'node:crypto'
import { InvariantError } from '../graph/invariants.ts'
import { PatchError } from '../graph/patch-tree.ts'
import { StoreError, type StoreErrorKind } from '../graph/store/store-error.ts'
import { ConditionError } from '../queries/conditions.ts'
import { DomainError } from '../queries/physics/method.ts'
import { QuantityInputError } from '../queries/quantity-input.ts'
import { Fault, type FaultCode } from './errors.ts'

const OF_STORE: Readonly<Record<StoreErrorKind, FaultCode>> = {
  conflict: 'CONFLICT',
  'not-found': 'NOT_FOUND',
  'no-file': 'NOT_FOUND',
  'file-exists': 'REFUSED',
  'foreign-file': 'REFUSED',
  'too-new': 'REFUSED',
  corrupt: 'REFUSED',
  full: 'REFUSED',
  busy: 'UNAVAILABLE',
  closed: 'UNAVAILABLE',
  unstorable: 'REFUSED',
  'bad-request': 'PAGE',
  'bad-cursor': 'PAGE',
}

/** Any thrown thing as a fault: what others throw is given its code here and nowhere else. */
export function faultOf(error: unknown): Fault {
  if (error instanceof Fault) return error
  return ofOurs(error) ?? ofSystem(error) ?? unexpected(error)
}

/** Refusals of the layers below. */
function ofOurs(error: unknown): Fault | undefined {
  if (error instanceof StoreError) return caused(new Fault(OF_STORE[error.kind], error.message, error.mend), error)
  if (error instanceof ConditionError) return new Fault('USAGE', error.message, error.mend)
  if (error instanceof QuantityInputError) return new Fault('QUANTITY', error.message, error.mend)
  if (error instanceof PatchError || error instanceof InvariantError)
    return new Fault('CHANGE', `${error.at}: ${error.message}`, error.mend, { at: error.at })
  if (error instanceof DomainError) {
    return new Fault('DOMAIN', error.message, `${error.argument}: ${error.allowed}`, { argument: error.argument })
  }
  return undefined
}

/** Faults of the file system and the network that a person can mend. */
function ofSystem(error: unknown): Fault | undefined {
  const { code, path } = error as { code?: string; path?: string }
  const what = path ?? 'a file'
  if (code === 'ENOENT') return new Fault('NOT_FOUND', `${what} is not there`, 'look at the spelling and the folder')
  if (code === 'EACCES' || code === 'EPERM') {
    return new Fault('REFUSED', `${what} may not be read or written`, 'look at its owner and mode')
  }
  if (code === 'EISDIR') return new Fault('USAGE', `${what} is a folder`, 'name the files in it')
  if (code === 'EADDRINUSE') {
    return new Fault('REFUSED', 'that port is taken', 'choose another with --port, or 0 for a free one')
  }
  if (code === 'EADDRNOTAVAIL') return new Fault('USAGE', 'this machine has no such address', 'look at --host')
  return undefined
}

/** A fault of lidoff itself: the message stays in the log, the id is what a reader may see. */
function unexpected(error: unknown): Fault {
  const id = randomUUID()
  return caused(new Fault('INTERNAL', `an internal fault, ${id}`, 'look for this id in the log', { id }), error)
}

function caused(fault: Fault, cause: unknown): Fault {
  fault.cause = cause
  return fault
}
