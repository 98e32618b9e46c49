import { createHash } from 'node:crypto'

/** SHA-256 of fields of any text: each goes in with its length before it, so that no two lists run together. */
function digest(fields: readonly (string | number | null)[]): string {
  const hash = createHash('sha256')
  for (const field of fields) {
    const bytes = Buffer.from(field === null ? '' : String(field))
    hash.update(field === null ? '-;' : `${bytes.length};`).update(bytes)
  }
  return hash.digest('hex')
}

export interface RevisionContent {
  readonly sheet: string | null
  readonly body: string | null
}

/** Hash of what a revision holds: its text as typed and its body. */
export function contentHash({ sheet, body }: RevisionContent): string {
  return digest([sheet, body])
}

export interface RevisionLine {
  readonly id: string
  readonly revision: number
  readonly hash: string
  readonly at: string
  readonly by: string | null
  readonly note: string | null
}

/** Seal of a line of the history; covers all lines before it through the seal of the last. Nothing is before the first. */
export function sealOf(before: string | null, { id, revision, hash, at, by, note }: RevisionLine): string {
  return digest([before, id, revision, hash, at, by, note])
}
