import { corpusPart } from './corpus.ts'
import { printMethods } from './methods.ts'
import { readingPart } from './reading.ts'
import { recordsPart } from './records.ts'
import { filamentPart, heatPart } from './solvers.ts'
import { memory } from './timed.ts'

/** Parts by name, in the order they run. */
const PARTS: Readonly<Record<string, () => void | Promise<void>>> = {
  reading: readingPart,
  filaments: filamentPart,
  heat: heatPart,
  store: corpusPart,
  records: recordsPart,
  methods: printMethods,
}

/**
 * Times and memory of the paths a person waits for, and how far methods are off. Nothing is asserted: times depend on the
 * machine. `npm run bench -- store methods` runs these parts only.
 */
async function main(): Promise<void> {
  const wanted = process.argv.slice(2)
  const unknown = wanted.filter((name) => !(name in PARTS))
  if (unknown.length > 0) {
    process.stderr.write(`no part ${unknown.join(', ')}; there are ${Object.keys(PARTS).join(', ')}\n`)
    process.exitCode = 2
    return
  }
  for (const [name, run] of Object.entries(PARTS)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue
    process.stdout.write(`\n== ${name}\n`)
    const start = performance.now()
    await run()
    process.stdout.write(`${name}: ${((performance.now() - start) / 1000).toFixed(1)} s, ${memory()}\n`)
  }
}

await main()
