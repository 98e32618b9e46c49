import { Busy, Closed, Corrupt, ForeignFile, Full, NoFile, StoreError, Unstorable } from './store-error.ts'

/** What the driver throws, told as one of our refusals; anything else is passed on as it is. */
export function told(file: string, error: unknown): unknown {
  if (error instanceof StoreError || !(error instanceof Error)) return error
  if (/connection is not open/i.test(error.message))
    return new Closed(file, 'the store is closed', 'open it again', error)
  const code = 'code' in error && typeof error.code === 'string' ? error.code : ''
  if (code.startsWith('SQLITE_FULL') || code === 'ENOSPC') {
    return new Full(file, 'there is no room to write; nothing was changed', 'free space on the disk and repeat', error)
  }
  if (code.startsWith('SQLITE_NOTADB')) {
    return new ForeignFile(file, 'this is not a database', 'name a database of this program, or a new file', error)
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code.startsWith('SQLITE_READONLY')) {
    const mend = 'look whether the folder is there and may be written to'
    return new NoFile(file, `the file cannot be opened for writing: ${error.message}`, mend, error)
  }
  if (code.startsWith('SQLITE_IOERR')) {
    return new Corrupt(file, `the disk reports a fault: ${error.message}`, 'check the disk; restore a backup', error)
  }
  if (code.startsWith('SQLITE_CORRUPT')) {
    return new Corrupt(file, `the file is damaged: ${error.message}`, 'restore a backup; keep the damaged file', error)
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return new Busy(file, 'another process is writing; nothing was changed', 'repeat when it has finished', error)
  }
  if (code.startsWith('SQLITE_CONSTRAINT')) {
    return new Unstorable(
      file,
      `a row breaks a rule of the tables: ${error.message}`,
      'nothing was changed; mend what computed the row',
      error,
    )
  }
  return error
}
