import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import manifest from '../package.json' with { type: 'json' }

export const VERSION = manifest.version

/** Folder of the project: the nearest above this file that holds the demo sheets, whether run from source or bundled. */
export function projectFolder(): string {
  for (let at = dirname(fileURLToPath(import.meta.url)); at !== dirname(at); at = dirname(at)) {
    if (existsSync(join(at, 'package.json')) && existsSync(join(at, 'api'))) return at
  }
  throw new Error('the project folder is not above the program: was it moved without its files?')
}
