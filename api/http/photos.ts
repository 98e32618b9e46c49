import { createReadStream } from 'node:fs'
import { open } from 'node:fs/promises'
import type { FastifyInstance } from 'fastify'
import type { Corpus } from '../corpus.ts'
import { Fault } from '../errors.ts'
import { fileBelow } from '../photo-file.ts'

/** Pictures by what they begin with, not by name. Anything else is handed over as a file to save, never shown. */
const SIGNATURES: readonly (readonly [string, string])[] = [
  ['ffd8ff', 'image/jpeg'],
  ['89504e470d0a1a0a', 'image/png'],
  ['47494638', 'image/gif'],
  ['52494646', 'image/webp'],
]

/** Photos of a record by their id at `/photos/TEARDOWN/PHOTO`; only files below the photo folders are ever read. */
export function servePhotos(app: FastifyInstance, corpus: Corpus, folders: readonly string[]): void {
  app.get<{ Params: { teardown: string; photo: string } }>('/photos/:teardown/:photo', async ({ params }, reply) => {
    const { record } = await corpus.open(params.teardown)
    const photo = (record.sheet.photos ?? []).find(({ id }) => id === params.photo)
    if (!photo) throw new Fault('NOT_FOUND', 'the record has no such photo')
    const file = await fileBelow(folders, photo.file)
    if (!file)
      throw new Fault('NOT_FOUND', 'the file of the photo is not in the photo folder', 'start with --photos FOLDER')
    const type = await typeOf(file)
    if (!type)
      reply.header('content-disposition', 'attachment').header('content-security-policy', "default-src 'none'; sandbox")
    return reply.type(type ?? 'application/octet-stream').send(createReadStream(file))
  })
}

async function typeOf(file: string): Promise<string | undefined> {
  const handle = await open(file, 'r')
  try {
    const { buffer } = await handle.read(Buffer.alloc(16), 0, 16, 0)
    const begins = buffer.toString('hex')
    return SIGNATURES.find(([signature]) => begins.startsWith(signature))?.[1]
  } finally {
    await handle.close()
  }
}
