import { readFile } from 'node:fs/promises'
import { FAILSAFE_SCHEMA, load } from 'js-yaml'
import type { Tree } from '../../graph/record/record.ts'
import { countScenarios, type Played, play, type Scenario, scenariosFrom, TYPED } from '../../queries/scenarios.ts'
import { cautionsFor } from '../cautions.ts'
import type { Opened } from '../corpus.ts'
import { Fault } from '../errors.ts'
import { printCautions } from './cautions.ts'
import { type Call, listOf } from './command.ts'
import { TAKEN_AS_EXACT } from './conditions-text.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'
import { metricsOf, pairOf } from './metrics.ts'
import { printSideBySide, sideBySideDocument } from './side-by-side.ts'

/** One set of changes, typed on the line. */
export function playChanges(call: Call): Promise<number> {
  const [id = '', ...changes] = call.args
  const conditions = listOf(call.options, 'condition').map((pair) => pairOf(pair, '--condition power=continuous'))
  const scenario: Scenario = { id: TYPED, title: changes.join(', '), changes, conditions }
  return playAll(call, id, () => Promise.resolve({ scenarios: [scenario], metrics: metricsOf(call.options) }))
}

/** A sheet of scenarios, or those of the counts that nobody made. */
export function playScenarios(call: Call): Promise<number> {
  const [id = '', file] = call.args
  const asked = metricsOf(call.options)
  return playAll(call, id, async ({ record }) => {
    const counts = call.options.counts === true ? countScenarios(record) : []
    if (file === undefined && counts.length === 0)
      throw new Fault('USAGE', 'no scenarios', 'name a file of scenarios, or give --counts')
    const sheet = file === undefined ? null : scenariosFrom(await treeOf(call, file))
    const metrics = asked ?? (sheet && sheet.metrics.length > 0 ? sheet.metrics : undefined)
    return { scenarios: [...(sheet?.scenarios ?? []), ...counts], metrics }
  })
}

async function treeOf(call: Call, file: string): Promise<Tree> {
  const text = file === '-' ? await call.stdin() : await readFile(file, 'utf8')
  if (text.length > MOST_TEXT) throw new Fault('TOO_LARGE', `${file} is over ${MOST_TEXT} characters`, 'part it')
  try {
    return load(text, { schema: FAILSAFE_SCHEMA }) as Tree
  } catch (error) {
    throw new Fault(
      'USAGE',
      `${file} is not read as YAML: ${(error as Error).message.split('\n')[0]}`,
      'mend that line',
    )
  }
}

const MOST_TEXT = 1_000_000

async function playAll(
  call: Call,
  id: string,
  ask: (opened: Opened) => Promise<{ scenarios: readonly Scenario[]; metrics: readonly string[] | undefined }>,
): Promise<number> {
  const { terminal } = call
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(id)
    const { scenarios, metrics } = await ask(opened)
    const played = play(opened.session(), scenarios, metrics)
    const cautions = cautionsFor(metrics)
    terminal.print(strong(`${opened.title} (${opened.id}, revision ${opened.revision}); nothing is written`))
    for (const { scenario, result, also, takenAsExact } of played) {
      terminal.print(strong(`\n${scenario.title}`))
      for (const [name, value] of scenario.conditions) terminal.print(faint(`condition ${name} ${value}`))
      for (const text of takenAsExact) terminal.print(faint(`${text}: ${TAKEN_AS_EXACT}`))
      for (const path of also) terminal.print(faint(`goes along: ${path}`))
      printSideBySide(result, terminal)
    }
    printCautions(cautions, terminal)
    terminal.document({
      teardown: opened.id,
      revision: opened.revision,
      scenarios: played.map(playedDocument),
      cautions,
    })
    return 0
  })
}

const playedDocument = ({ scenario, result, also, takenAsExact }: Played) => ({
  ...scenario,
  also,
  takenAsExact,
  ...sideBySideDocument(result),
})
