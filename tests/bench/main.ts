import { readFileSync } from 'node:fs'
import { openStructure } from '../../graph/build.ts'
import { parseQuantity } from '../../graph/quantity/parse.ts'
import { recordFromTree } from '../../graph/record/from-tree.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import { materialise } from '../../queries/corpus/materialise.ts'
import { openSession } from '../../queries/evaluate/session.ts'
import { figures } from '../../queries/figures/registry.ts'
import { inductanceAccuracy } from '../queries/physics/inductance-accuracy.ts'
import { corpusRows } from './corpus.ts'
import { filamentRows, heatRows } from './solvers.ts'
import { printRows, type Row, timed } from './timed.ts'
import { costOfUncertainty } from './uncertainty.ts'

const RICHEST = 'seeds/ferry-7-drive.yaml'

/** Times and memory of the paths a person waits for. Nothing is asserted: numbers depend on the machine. */
async function main(): Promise<void> {
  const text = readFileSync(RICHEST, 'utf8')
  const read = readSheet(text, RICHEST)
  if (!('record' in read)) throw new Error(`${RICHEST} is not read`)
  const { record } = read
  const rows: Row[] = [
    timed('read 1,000 quantity texts', 20, () => {
      for (let k = 0; k < 1000; k++)
        parseQuantity(`${10 + k / 7} ± 0.2 mm (measured; with caliper)`, { dimension: 'length' })
    }),
    timed(`read a sheet (${record.facts.size} values)`, 20, () => readSheet(text, RICHEST)),
    timed('read its tree again, texts known', 20, () => recordFromTree(record.tree)),
    timed('build its graph', 20, () => openStructure(record)),
    timed('all figures, cold, with uncertainty', 3, () => openSession(record).evaluateAll()),
    timed('everything the corpus keeps of it', 3, () => materialise(record)),
    ...slowest(record),
    ...filamentRows(),
    ...heatRows(),
    ...(await corpusRows(record)),
  ]
  printRows(rows)
  process.stdout.write('\nwhat uncertainty costs, figure by figure\n')
  console.table(costOfUncertainty(record))
  process.stdout.write(
    '\nmutual inductance of parallel bars against a second method, worst over a box of sizes and distances\n',
  )
  console.table(inductanceAccuracy({ pairs: 40, seed: 7 }))
}

/** The figures that cost most, each cold on a session of its own. */
function slowest(record: Parameters<typeof openSession>[0]): readonly Row[] {
  return figures
    .map((figure) => timed(`  ${figure.id}`, 2, () => openSession(record).evaluateAll([figure.id])))
    .toSorted((a, b) => b.median - a.median)
    .slice(0, 6)
}

await main()
