import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { databaseFile, isLoopback, requireSafeBind, serverConfig } from '../../api/config.ts'

describe('settings', () => {
  it('takes the flag before the environment, and that before the default, and says which', () => {
    expect(databaseFile({ db: 'a.db' }, { LIDOFF_DB: 'b.db' })).toEqual({ value: resolve('a.db'), origin: 'flag' })
    expect(databaseFile({}, { LIDOFF_DB: 'b.db' })).toEqual({ value: resolve('b.db'), origin: 'environment LIDOFF_DB' })
    expect(databaseFile({}, {})).toEqual({ value: resolve('lidoff.db'), origin: 'default' })
    expect(databaseFile({}, { LIDOFF_DB: '' }).origin).toBe('default')
  })

  it.each(['-1', '65536', '80x', '', '1e3', ' 80'])('refuses "%s" as a port', (port) => {
    expect(() => serverConfig({ port }, {})).toThrow(/not a port/)
  })

  it('reads names of hosts from flags and from the environment', () => {
    expect(serverConfig({ allowHost: ['bench.test', 'b'] }, {}).allowHosts.value).toEqual(['bench.test', 'b'])
    expect(serverConfig({}, { LIDOFF_ALLOW_HOST: 'a,b' }).allowHosts.value).toEqual(['a', 'b'])
  })
})

describe('binding', () => {
  // RFC 1122 3.2.1.3: 127.0.0.0/8 is loopback; RFC 4291 2.5.3: ::1 is.
  it.each(['127.0.0.1', '127.9.9.9', '::1', '[::1]', 'localhost'])('%s is loopback', (host) => {
    expect(isLoopback(host)).toBe(true)
  })

  it.each([
    '0.0.0.0',
    '::',
    '192.0.2.7',
    'localhost.',
    '127.0.0.1.evil.test',
    '127.1',
    '0x7f.0.0.1',
    '::ffff:127.0.0.1',
    '',
  ])('%s is not, and is refused without tokens', (host) => {
    expect(isLoopback(host)).toBe(false)
    expect(() => requireSafeBind(serverConfig({ host }, {}), 0)).toThrow(/token/)
    expect(() => requireSafeBind(serverConfig({ host }, {}), 1)).not.toThrow()
  })
})
