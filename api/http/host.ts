import type { FastifyInstance } from 'fastify'
import { isLoopback, type ServerConfig } from '../config.ts'
import { Fault } from '../errors.ts'

/**
 * A page elsewhere can give its own name the address of this machine and then read from here; its Host header gives
 * it away. Answered are loopback names, the address that is listened on, and names that were allowed by the user.
 */
export function guardHost(app: FastifyInstance, config: ServerConfig): void {
  const allowed = new Set([config.host.value, ...config.allowHosts.value].map((name) => name.toLowerCase()))
  const everywhere = config.host.value === '0.0.0.0' || config.host.value === '::'
  app.addHook('onRequest', async (request) => {
    const name = hostName(request.headers.host ?? '')
    if (isLoopback(name) || allowed.has(name) || (everywhere && isAddress(name))) return
    throw new Fault(
      'HOST',
      'this server does not answer for the name in the Host header',
      'start with --allow-host NAME to allow it',
    )
  })
}

/** Name without port, in small letters; brackets of an IPv6 address stay off. */
export function hostName(host: string): string {
  const bracketed = /^\[([0-9a-f:.]+)\](:\d+)?$/i.exec(host)
  if (bracketed) return bracketed[1]!.toLowerCase()
  return host.replace(/:\d+$/, '').toLowerCase()
}

/** A literal address cannot be rebound to another machine. */
function isAddress(name: string): boolean {
  return /^\d{1,3}(\.\d{1,3}){3}$/.test(name) || name.includes(':')
}
