import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Runs a call with a folder of its own, removed when it ends, fails, or the process is told to stop. */
export async function withScratch<T>(call: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-bench-'))
  const remove = (): void => rmSync(folder, { recursive: true, force: true })
  const stop = (): void => process.exit(130)
  process.once('exit', remove)
  process.once('SIGINT', stop)
  process.once('SIGTERM', stop)
  try {
    return await call(folder)
  } finally {
    process.off('exit', remove)
    process.off('SIGINT', stop)
    process.off('SIGTERM', stop)
    remove()
  }
}
