import { type Book, placeToPath } from '../book.ts'
import type { Claim } from '../record.ts'
import type { Known } from './known.ts'

/** Readings taken together are as many for each thing: the first of one goes with the first of the others. */
export function checkRuns(known: Known, book: Book): void {
  const sizes = new Map<string, number>()
  for (const { claim, place, at } of book.mentions) {
    const run = runOf(claim)
    if (!run) continue
    const before = sizes.get(run.name) ?? run.size
    sizes.set(run.name, before)
    if (before === run.size) continue
    known.say(
      [...placeToPath(place), ...at],
      `${run.size} readings, where run "${run.name}" has ${before} of something else`,
      'give all that were taken together, in the same order, or name another run',
    )
  }
}

const ID = /^run:(.*)\/\d+$/

function runOf({ quantity }: Claim): { readonly name: string; readonly size: number } | undefined {
  const names = (quantity?.terms ?? []).flatMap(({ influence }) => ID.exec(influence)?.[1] ?? [])
  return names[0] === undefined ? undefined : { name: names[0], size: names.length }
}
