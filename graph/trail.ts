import type { Path } from './quantity/quantity.ts'
import type { Found, Query } from './query.ts'
import type { Settings } from './settings.ts'

/** One thing that was read, with a fingerprint of what came back. */
export type Read = { readonly seen: string } & (
  | { readonly kind: 'value'; readonly path: Path }
  | { readonly kind: 'query'; readonly query: Query }
  | { readonly kind: 'setting'; readonly name: keyof Settings }
)

/** All that one computation touched, its models and figures included. */
export interface Trail {
  readonly reads: ReadonlyMap<string, Read>
  readonly slots: ReadonlySet<number>
  /** Slots that hold a word. */
  readonly words: ReadonlySet<number>
  readonly influences: ReadonlySet<number>
  readonly notes: ReadonlySet<string>
  readonly beyond: ReadonlySet<string>
  readonly founds: ReadonlyMap<string, Found>
  readonly figures: ReadonlySet<string>
}

/**
 * What one computation touched itself, and the tracks of what it used. A model that many things use is kept once and
 * named by each of them: everything is put together only when somebody asks for it.
 */
export interface Track {
  readonly reads: Map<string, Read>
  readonly slots: Set<number>
  readonly words: Set<number>
  readonly influences: Set<number>
  readonly notes: Set<string>
  readonly beyond: Set<string>
  readonly founds: Map<string, Found>
  readonly figures: Set<string>
  readonly used: Set<Track>
  /** Used, but kept still under every draw: named and watched, not perturbed. */
  readonly still: Set<Track>
  /** Used, but with nothing to say here: what was noted concerns those who ask for it themselves. */
  readonly quiet: Set<Track>
  /** Influences of it and of all it used, a bit each; made when it is first asked for. */
  bits?: Uint32Array
}

export function openTrack(): Track {
  return {
    reads: new Map(),
    slots: new Set(),
    words: new Set(),
    influences: new Set(),
    notes: new Set(),
    beyond: new Set(),
    founds: new Map(),
    figures: new Set(),
    used: new Set(),
    still: new Set(),
    quiet: new Set(),
  }
}

/** Everything on a track and below it; notes only where one way at least leads to them that is not quiet. */
export function trailOf(track: Track): Trail {
  const all = openTrack()
  const heard = new Set<Track>()
  const seen = new Set<Track>()
  const hear = (one: Track): void => {
    if (heard.has(one)) return
    heard.add(one)
    for (const note of one.notes) all.notes.add(note)
    for (const below of one.used) hear(below)
    for (const below of one.still) hear(below)
  }
  const visit = (one: Track): void => {
    if (seen.has(one)) return
    seen.add(one)
    for (const [key, read] of one.reads) all.reads.set(key, read)
    for (const slot of one.slots) all.slots.add(slot)
    for (const slot of one.words) all.words.add(slot)
    for (const text of one.beyond) all.beyond.add(text)
    for (const [key, found] of one.founds) all.founds.set(key, found)
    for (const key of one.figures) all.figures.add(key)
    for (const below of one.used) visit(below)
    for (const below of one.still) visit(below)
    for (const below of one.quiet) visit(below)
  }
  hear(track)
  visit(track)
  return { ...all, influences: influencesOf(track) }
}

/** Whether any of these influences reaches what was computed on a finished track. */
export function isTouched(track: Track, moved: ReadonlySet<number> | 'all'): boolean {
  track.bits ??= bitsOf(track)
  const { bits } = track
  if (moved === 'all') return bits.length > 0
  for (const index of moved) if ((bits[index >>> 5] ?? 0) & (1 << (index & 31))) return true
  return false
}

function influencesOf(track: Track): ReadonlySet<number> {
  const found = new Set<number>()
  bitsOf(track).forEach((word, at) => {
    for (let bit = 0; bit < 32; bit++) if (word & (1 << bit)) found.add(at * 32 + bit)
  })
  return found
}

function bitsOf({ bits, influences, used, quiet }: Track): Uint32Array {
  if (bits) return bits
  const below = [...used, ...quiet].map((one) => {
    one.bits ??= bitsOf(one)
    return one.bits
  })
  const own = Math.max(-1, ...influences) + 1
  const words = Math.max(Math.ceil(own / 32), ...below.map((one) => one.length), 0)
  const union = new Uint32Array(words)
  for (const index of influences) union[index >>> 5]! |= 1 << (index & 31)
  for (const one of below) for (let at = 0; at < one.length; at++) union[at]! |= one[at]!
  return union
}
