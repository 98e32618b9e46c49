import { randomUUID } from 'node:crypto'
import { DomainError } from '../queries/physics/method.ts'
import { Fault } from './errors.ts'

/** Any thrown thing as a fault: what others throw is given its code here and nowhere else. */
export function faultOf(error: unknown): Fault {
  if (error instanceof Fault) return error
  if (error instanceof DomainError) {
    return new Fault('DOMAIN', error.message, `${error.argument}: ${error.allowed}`, { argument: error.argument })
  }
  return fromSystem(error) ?? unexpected(error)
}

/** Faults of the file system that a person can mend. */
function fromSystem(error: unknown): Fault | undefined {
  const { code, path } = error as { code?: string; path?: string }
  const what = path ?? 'a file'
  if (code === 'ENOENT') return new Fault('NOT_FOUND', `${what} is not there`, 'look at the spelling and the folder')
  if (code === 'EACCES' || code === 'EPERM')
    return new Fault('REFUSED', `${what} may not be read or written`, 'look at its owner and mode')
  if (code === 'EISDIR') return new Fault('USAGE', `${what} is a folder`, 'name the files in it')
  if (code === 'EADDRINUSE')
    return new Fault('REFUSED', 'that port is taken', 'choose another with --port, or 0 for a free one')
  if (code === 'EADDRNOTAVAIL') return new Fault('USAGE', 'this machine has no such address', 'look at --host')
  return undefined
}

/** A fault of lidoff itself: the message stays in the log, the id is what a reader may see. */
function unexpected(error: unknown): Fault {
  const id = randomUUID()
  const fault = new Fault('INTERNAL', `an internal fault, ${id}`, 'look for this id in the log', { id })
  fault.cause = error
  return fault
}
