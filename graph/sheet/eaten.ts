import { placeAt, type TextTrouble } from './gate.ts'

/** Keys whose words are copied from a part and may well hold a number sign. */
const KEYS = 'marking|serial|date-code|grade|model|maker|title|file|place|role|note|drive|thread'
const EATEN = new RegExp(`(?:^|[{,\\s-])(?:${KEYS}):[ \\t]+([^\\s"'#[{|>,][^"'#\\n,}\\]]*?)[ \\t]+#(.)?`, 'gm')

/**
 * A blank and a number sign end an unquoted value, and what follows is lost without a word. `AB #12` is told as an error;
 * where a blank follows the sign it may well be a remark, and is only warned about.
 */
export function eatenComments(text: string): {
  readonly errors: readonly TextTrouble[]
  readonly warnings: readonly TextTrouble[]
} {
  const errors: TextTrouble[] = []
  const warnings: TextTrouble[] = []
  for (const found of text.matchAll(EATEN)) {
    const lineStart = text.lastIndexOf('\n', found.index) + 1
    if (text.slice(lineStart, found.index).includes(' #')) continue
    const at = placeAt(text, found.index + found[0].length - 1 - (found[2]?.length ?? 0))
    const remark = found[2] === undefined || /\s/.test(found[2])
    const what = `" #" ends the unquoted text "${found[1]}": what follows is read as a remark`
    if (remark) warnings.push({ ...at, what, mend: 'quote the text if the sign belongs to it' })
    else errors.push({ ...at, what, mend: `quote it: "${found[1]} #${found[2]}…"` })
  }
  return { errors, warnings }
}
