import { openStructure } from '../../graph/build.ts'
import { parseQuantity } from '../../graph/quantity/parse.ts'
import { recordFromTree } from '../../graph/record/from-tree.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import { demoRecord, RICHEST, sheetText } from './demo.ts'
import { printRows, timed } from './timed.ts'

/** From a text to a graph. */
export function readingPart(): void {
  const text = sheetText(RICHEST)
  const record = demoRecord(RICHEST)
  printRows([
    timed('read 1,000 quantity texts', 10, () => {
      for (let k = 0; k < 1000; k++)
        parseQuantity(`${10 + k / 7} ± 0.2 mm (measured; with caliper)`, { dimension: 'length' })
    }),
    timed(`read the sheet of ${RICHEST} (${record.facts.size} values)`, 10, () => readSheet(text, 'sheet.yaml')),
    timed('read its tree again, texts known', 10, () => recordFromTree(record.tree)),
    timed('build its graph', 10, () => openStructure(record)),
  ])
}
