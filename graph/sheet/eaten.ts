import { placeAt, type TextTrouble } from './gate.ts'

/** Keys whose words are copied from a part, and further ones whose words may well hold a number sign. */
const COPIED: ReadonlySet<string> = new Set(['marking', 'serial', 'date-code'])
const KEYS = [...COPIED, 'grade', 'model', 'maker', 'title', 'file', 'place', 'role', 'note', 'drive', 'thread']
const EATEN = new RegExp(`(?:^|[{,\\s-])(${KEYS.join('|')}): {1,40}([^\\s"'#[{|>,][^"'#\\n,}\\]]{0,200})#(.)?`, 'gm')
const MOST = 20

/**
 * A blank and a number sign end an unquoted value, and what follows is lost without a word. `AB #12` is told as an error;
 * where a blank follows the sign it may well be a remark: behind words copied from a part that is warned about.
 */
export function eatenComments(text: string): {
  readonly errors: readonly TextTrouble[]
  readonly warnings: readonly TextTrouble[]
} {
  const errors: TextTrouble[] = []
  const warnings: TextTrouble[] = []
  for (const found of text.matchAll(EATEN)) {
    const [whole, key = '', before = '', after] = found
    const words = before.trimEnd()
    const lineStart = text.lastIndexOf('\n', found.index) + 1
    if (words.length === before.length || text.slice(lineStart, found.index).includes(' #')) continue
    const at = placeAt(text, found.index + whole.length - 1 - (after?.length ?? 0))
    const what = `" #" ends the unquoted text "${words}": what follows is read as a remark`
    const remark = after === undefined || /\s/.test(after)
    if (!remark) errors.push({ ...at, what, mend: `quote it: "${words} #${after}…"` })
    else if (COPIED.has(key)) warnings.push({ ...at, what, mend: 'quote the text if the sign belongs to it' })
    if (errors.length + warnings.length >= MOST) break
  }
  return { errors, warnings }
}
