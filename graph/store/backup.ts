import { chmod, link, open, readdir, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { OWNER_ONLY } from './connection.ts'
import { integrityOf } from './integrity.ts'
import type { Backup } from './store.ts'
import { Corrupt, FileExists } from './store-error.ts'

/**
 * A copy made page by page between other work, while writing goes on. It gets its name only when it is whole, checked
 * and on the disk; what is there under that name is never overwritten.
 */
export async function backUp(
  database: Database.Database,
  to: string,
  progress?: (done: number) => void,
): Promise<Backup> {
  await refuseExisting(to)
  await clearLeft(to)
  const temporary = `${to}.${process.pid}.${process.hrtime.bigint()}.part`
  try {
    await (await open(temporary, 'wx', OWNER_ONLY)).close()
    await database.backup(temporary, {
      progress: ({ totalPages, remainingPages }) => {
        progress?.(totalPages === 0 ? 1 : 1 - remainingPages / totalPages)
        return PAGES_AT_ONCE
      },
    })
    await chmod(temporary, OWNER_ONLY)
    const revisions = settle(temporary)
    const { pages, references } = await integrityOf(temporary, 'full')
    const found = [...pages, ...references]
    if (found.length > 0) {
      throw new Corrupt(
        to,
        `the copy is damaged and was not kept: ${found.join('; ')}`,
        'check the database and the disk',
      )
    }
    await sync(temporary)
    await nameIt(temporary, to)
    await sync(dirname(to))
    return { file: to, bytes: (await stat(to)).size, revisions }
  } finally {
    for (const left of ['', '-wal', '-shm', '-journal']) await rm(temporary + left, { force: true })
  }
}

const PAGES_AT_ONCE = 100

/** One file that needs no other beside it, whatever opens it first. */
function settle(file: string): number {
  const copy = new Database(file)
  try {
    copy.pragma('journal_mode = DELETE')
    return Number(copy.prepare('SELECT count(*) FROM revision').pluck().get())
  } finally {
    copy.close()
  }
}

/** Removes what a process that was killed has left of an earlier attempt at the same copy. */
async function clearLeft(to: string): Promise<void> {
  const start = `${basename(to)}.`
  for (const name of await readdir(dirname(to))) {
    const [, pid] = name.slice(start.length).match(/^(\d+)\.\d+\.part(?:-wal|-shm|-journal)?$/) ?? []
    if (name.startsWith(start) && pid !== undefined && !isRunning(Number(pid)))
      await rm(join(dirname(to), name), { force: true })
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

async function refuseExisting(to: string): Promise<void> {
  const there = await stat(to).then(
    () => true,
    () => false,
  )
  if (there) throw fileExists(to)
}

function fileExists(to: string): FileExists {
  return new FileExists(to, 'there is a file of that name; it was not touched', 'choose another name')
}

/** A second name fails when the name is taken, where renaming would overwrite; not every file system has them. */
async function nameIt(temporary: string, to: string): Promise<void> {
  try {
    await link(temporary, to)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'EEXIST') throw fileExists(to)
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'ENOSYS' && code !== 'EMLINK') throw error
    await refuseExisting(to)
    await rename(temporary, to)
  }
}

async function sync(path: string): Promise<void> {
  const handle = await open(path, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
