import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fileBelow } from '../../../api/photo-file.ts'
import { store, unit } from '../demo-fixture.ts'
import { type RunningServer, startServer } from '../server-fixture.ts'

// First bytes of the formats: PNG (ISO/IEC 15948), JPEG (ITU-T T.81): published signatures.
const PNG = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')
const SECRET = 'what lies outside of the folder'

let folder: string
let server: RunningServer
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lidoff-photos-'))
  const photos = join(folder, 'photos')
  mkdirSync(join(photos, 'inside'), { recursive: true })
  mkdirSync(join(folder, 'photos-beside'))
  writeFileSync(join(photos, 'inside', 'good.png'), PNG)
  writeFileSync(join(photos, 'named.jpg'), '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')
  writeFileSync(join(folder, 'secret.png'), SECRET)
  writeFileSync(join(folder, 'photos-beside', 'secret.png'), SECRET)
  symlinkSync(join(folder, 'secret.png'), join(photos, 'link.png'))
  const files = ['inside/good.png', 'named.jpg', 'link.png', 'none.png', 'inside']
  server = await startServer({
    flags: { photos },
    fill: (corpus) =>
      store(corpus, unit('unit-a', { photos: files.map((file, at) => ({ id: `p${at}`, file, shows: ['module'] })) })),
  })
})
afterAll(async () => {
  await server.stop()
  rmSync(folder, { recursive: true })
})

describe('photos', () => {
  it('are given by what is in them', async () => {
    const answer = await fetch(`${server.url}/photos/unit-a/p0`)
    expect(answer.headers.get('content-type')).toBe('image/png')
    expect(Buffer.from(await answer.arrayBuffer())).toEqual(PNG)
  })

  it('are handed over to be saved when they are no picture, whatever their name', async () => {
    const answer = await fetch(`${server.url}/photos/unit-a/p1`)
    expect(answer.headers.get('content-disposition')).toBe('attachment')
    expect(answer.headers.get('content-type')).toBe('application/octet-stream')
    expect(answer.headers.get('content-security-policy')).toContain('sandbox')
    await answer.text()
  })

  it.each(['p2', 'p3', 'p4'])('%s: no link out of the folder, nothing that is not there, no folder', async (id) => {
    const answer = await fetch(`${server.url}/photos/unit-a/${id}`)
    expect(answer.status).toBe(404)
    expect(await answer.text()).not.toContain(SECRET)
  })

  it.each([
    '/photos/unit-a/none',
    '/photos/none/p0',
    '/photos/unit-a/..%2f..%2fsecret.png',
    '/photos/../secret.png',
    '/photos/unit-a/p0%00',
  ])('%s is not there', async (path) => {
    expect((await fetch(`${server.url}${path}`)).status).toBe(404)
  })

  it('are named by the API where they are given', async () => {
    const query = encodeURIComponent('{ teardown(id: "unit-a") { photos { id url shows } } }')
    const { data } = (await (await fetch(`${server.url}/graphql?query=${query}`)).json()) as {
      data: { teardown: { photos: readonly { url: string }[] } }
    }
    const given = await fetch(`${server.url}${data.teardown.photos[0]!.url}`)
    expect(given.status).toBe(200)
    await given.arrayBuffer()
  })
})

describe('fileBelow', () => {
  // Names as the OWASP cheat sheets on file upload and path traversal list them (from memory).
  it.each([
    '../secret.png',
    '../photos-beside/secret.png',
    'inside/../../secret.png',
    '%2e%2e/secret.png',
    '..\\secret.png',
    '..\u2215secret.png',
    'link.png',
    'inside',
    '.',
    '',
    'inside/good.png\0.jpg',
    'C:\\secret.png',
  ])('finds nothing under %j', async (name) => {
    expect(await fileBelow([join(folder, 'photos')], name)).toBeUndefined()
  })

  it('finds nothing under an absolute name, and what lies in a later folder', async () => {
    const photos = join(folder, 'photos')
    expect(await fileBelow([photos], join(folder, 'secret.png'))).toBeUndefined()
    expect(await fileBelow([join(folder, 'none'), photos], 'inside/good.png')).toMatch(/good\.png$/)
  })
})
