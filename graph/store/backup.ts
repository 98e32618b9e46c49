import { link, open, readdir, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { OWNER_ONLY } from './connection.ts'
import { copyInto, integrityOf } from './integrity.ts'
import type { Backup } from './store.ts'
import { Corrupt, FileExists } from './store-error.ts'

/**
 * A copy of the database at one moment, made while writing goes on. It gets its name only when it is whole, checked
 * and on the disk; what is there under that name is never overwritten.
 */
export async function backUp(file: string, to: string, progress?: (done: number) => void): Promise<Backup> {
  await refuseExisting(to)
  await clearLeft(to)
  const temporary = `${to}.${process.pid}.${process.hrtime.bigint()}.part`
  const watching = progress && watch(file, temporary, progress)
  try {
    await (await open(temporary, 'wx', OWNER_ONLY)).close()
    const revisions = await copyInto(file, temporary)
    await assertSound(temporary, to)
    await sync(temporary)
    await nameIt(temporary, to)
    await sync(dirname(to))
    progress?.(1)
    return { file: to, bytes: (await stat(to)).size, revisions }
  } finally {
    clearInterval(watching)
    for (const left of ['', '-wal', '-shm', '-journal']) await rm(temporary + left, { force: true })
  }
}

const WATCH_MS = 100

/** How much is done shows in how much is written; the last tenth is left to checking. */
function watch(file: string, temporary: string, progress: (done: number) => void) {
  return setInterval(async () => {
    const sizes = await Promise.all([stat(file), stat(temporary)]).catch(() => null)
    if (sizes && sizes[0].size > 0) progress(Math.min(0.9, (0.9 * sizes[1].size) / sizes[0].size))
  }, WATCH_MS)
}

async function assertSound(copy: string, to: string): Promise<void> {
  const { pages, references } = await integrityOf(copy, 'full')
  const found = [...pages, ...references]
  if (found.length === 0) return
  throw new Corrupt(to, `the copy is damaged and was not kept: ${found.join('; ')}`, 'check the database and the disk')
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
