import { deflateRawSync, inflateRawSync } from 'node:zlib'

/** Little is gained by trying harder, and a record has a thousand workings. */
const LEVEL = 3

/** A text deflated (RFC 1951). */
export function packed(text: string): Uint8Array {
  return deflateRawSync(text, { level: LEVEL })
}

export function unpacked(bytes: Uint8Array): string {
  return inflateRawSync(bytes).toString('utf8')
}
