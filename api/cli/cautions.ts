import type { Caution } from '../cautions.ts'
import { strong } from './emphasis.ts'
import { wrap } from './table.ts'
import type { Terminal } from './terminal.ts'

/** Cautions below an answer, each once, folded to the width of the terminal. */
export function printCautions(cautions: readonly Caution[], terminal: Terminal): void {
  for (const { title, text } of cautions) {
    terminal.print('')
    terminal.print(strong(`Caution: ${title}.`))
    for (const line of wrap(text, terminal.width)) terminal.print(line)
  }
}
