import { realpath, stat } from 'node:fs/promises'
import { join, sep } from 'node:path'

/** The file of that name in the first folder that has it; undefined for anything that lies outside of them. */
export async function fileBelow(folders: readonly string[], name: string): Promise<string | undefined> {
  for (const folder of folders) {
    const file = await below(folder, name)
    if (file) return file
  }
  return undefined
}

/** The real file behind a name, when it lies in the folder after all links are followed. */
async function below(folder: string, name: string): Promise<string | undefined> {
  if (name.includes('\0') || name.includes('\\')) return undefined
  try {
    const root = await realpath(folder)
    const file = await realpath(join(root, name))
    return file.startsWith(root + sep) && (await stat(file)).isFile() ? file : undefined
  } catch {
    return undefined
  }
}
