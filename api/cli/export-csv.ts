import { renameSync, rmSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { resolve } from 'node:path'
import { NAMED_CONDITIONS } from '../../queries/corpus/materialise.ts'
import { cautionsFor } from '../cautions.ts'
import { Fault } from '../errors.ts'
import { csvOf, type Table, tables } from '../export/tables.ts'
import { type Call, textOf } from './command.ts'
import { withCorpus } from './database.ts'

/** Writes a table. Under `--json` it is one document with the rows as objects. */
export async function exportCsv(call: Call): Promise<number> {
  const table = tableNamed(call.args[0] ?? '')
  const conditions = conditionsNamed(textOf(call.options, 'conditions'))
  const output = textOf(call.options, 'output')
  return withCorpus(call, 'refuse', async ({ store }) => {
    const { terminal } = call
    const cautions = table.name === 'figures' ? cautionsFor() : []
    if (terminal.json) {
      const names = Object.keys(table.columns)
      const rows = []
      for await (const cells of table.rows(store, { conditions }))
        rows.push(Object.fromEntries(names.map((name, at) => [name, cells[at]])))
      terminal.document({ table: table.name, columns: table.columns, rows, cautions })
    } else if (output === undefined) for await (const line of csvOf(table, store, { conditions })) terminal.raw(line)
    else await writeWhole(resolve(output), csvOf(table, store, { conditions }))
    if (output !== undefined && !terminal.json) terminal.say(`${table.name} written to ${output}`)
    for (const { title, text } of cautions) terminal.say(`Caution: ${title}. ${text}`)
    return 0
  })
}

/** The file is complete or not there: it gets its name when the last line is on the disk. */
async function writeWhole(file: string, lines: AsyncIterable<string>): Promise<void> {
  const draft = `${file}.${process.pid}.new`
  const handle = await open(draft, 'w')
  try {
    for await (const line of lines) await handle.write(line)
    await handle.sync()
    renameSync(draft, file)
  } catch (error) {
    rmSync(draft, { force: true })
    throw error
  } finally {
    await handle.close()
  }
}

function tableNamed(name: string): Table {
  const found = tables.find((table) => table.name === name)
  if (found) return found
  throw new Fault('USAGE', `no table "${name}"`, `one of: ${tables.map((table) => table.name).join(', ')}`)
}

function conditionsNamed(name: string | undefined): string | undefined {
  const names = Object.keys(NAMED_CONDITIONS)
  if (name === undefined || names.includes(name)) return name
  throw new Fault('USAGE', `no stored set of conditions "${name}"`, `one of: ${names.join(', ')}`)
}
