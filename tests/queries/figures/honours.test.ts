import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { Lacking } from '../../../graph/lack.ts'
import type { Settings } from '../../../graph/settings.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { openSession } from '../../../queries/evaluate/session.ts'
import { evidenceFigures } from '../../../queries/figures/evidence.ts'
import { figures } from '../../../queries/figures/registry.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const seeds = new URL('../../../seeds/', import.meta.url)
const files = readdirSync(seeds).filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml')

/** Settings that a figure reads anywhere in the demo corpus, on its way to a value or to a lack. */
function settingsRead(): ReadonlyMap<string, ReadonlySet<keyof Settings>> {
  const read = new Map(figures.map(({ id }) => [id, new Set<keyof Settings>()]))
  for (const file of files) {
    const sheet = readSheet(readFileSync(new URL(file, seeds), 'utf8'), file)
    if (!('record' in sheet)) throw new Error(`${file} is not read`)
    const session = openSession(sheet.record)
    for (const figure of figures) {
      for (const subject of session.subjects(figure).paths) {
        const { trail } = session.viewer.record((view) => {
          try {
            return figure.compute(view, subject)
          } catch (error) {
            if (error instanceof Lacking || error instanceof DomainError) return null
            throw error
          }
        })
        for (const one of trail.reads.values()) if (one.kind === 'setting') read.get(figure.id)!.add(one.name)
      }
    }
  }
  return read
}

// The share of evidence runs every other figure apart, so that their settings are not in its own log.
const apart = new Set(evidenceFigures(figures).map(({ id }): string => id))

describe('settings that a figure says it honours', () => {
  const read = settingsRead()

  it.each(figures.filter(({ id }) => !apart.has(id)).map(({ id, honours }) => ({ id, honours })))(
    '$id reads $honours and no other',
    ({ id, honours }) => expect([...read.get(id)!].sort()).toEqual([...honours].sort()),
  )
})
