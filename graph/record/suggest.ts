import { distance } from 'fastest-levenshtein'

/** The known word nearest to a mistyped one; undefined when none is near enough to be what was meant. */
export function closest(word: string, known: Iterable<string>): string | undefined {
  const folded = fold(word)
  let best: string | undefined
  let least = Number.POSITIVE_INFINITY
  for (const candidate of known) {
    if (Math.abs(candidate.length - word.length) > 4 && !parts(candidate, folded)) continue
    const letters = swapped(folded, fold(candidate)) ? 1 : distance(folded, fold(candidate))
    const far = letters > 0 && parts(candidate, folded) ? 0.5 : letters
    if (far < least) [best, least] = [candidate, far]
  }
  const allowed = word.length < 3 ? 0 : Math.max(1, Math.floor(word.length / 3))
  return best !== undefined && least <= allowed ? best : undefined
}

/** `did you mean "x"? Known here: a, b, c`: long lists are cut, those that share a word with what was typed come first. */
export function didYouMean(word: string, known: Iterable<string>, most = 40): string {
  const all = [...known]
  const near = word.length > 80 ? undefined : closest(word, all)
  const asked = near === undefined ? '' : `did you mean "${near}"? `
  if (all.length === 0) return `${asked}Nothing is known here`
  const sorted = all.toSorted()
  const kin = all.length <= most ? [] : sorted.filter((one) => kindred(word, one))
  const shown = [...kin, ...sorted.filter((one) => !kin.includes(one))].slice(0, most)
  const more = all.length > most ? ` and ${all.length - most} more` : ''
  return `${asked}Known here: ${shown.join(', ')}${more}`
}

/** One case, one kind of joint between words. */
function fold(word: string): string {
  return word.toLowerCase().replaceAll(/[_ .]/g, '-')
}

/** Two neighbouring letters in the wrong order: the slip of a fast hand. */
function swapped(typed: string, meant: string): boolean {
  if (typed.length !== meant.length || typed === meant) return false
  const at = [...typed].findIndex((letter, n) => letter !== meant[n])
  return typed[at] === meant[at + 1] && typed[at + 1] === meant[at] && typed.slice(at + 2) === meant.slice(at + 2)
}

/** Whether two names share a word of four letters or more, e.g. `discrete-switch` and `discrete-power-device`. */
function kindred(typed: string, candidate: string): boolean {
  const words = new Set(candidate.split('-'))
  return fold(typed.slice(0, 80))
    .split('-')
    .some((one) => one.length > 3 && words.has(one))
}

/** Same words in another order or with one left out, e.g. `film-capacitor` for `dc-link-film-capacitor`. */
function parts(candidate: string, folded: string): boolean {
  if (!folded.includes('-')) return false
  const words = new Set(candidate.split('-'))
  const asked = folded.split('-')
  return asked.length >= 2 && asked.every((one) => words.has(one))
}
