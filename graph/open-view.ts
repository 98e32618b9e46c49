import { allOf, type Lack, Lacking } from './lack.ts'
import type { Basis } from './quantity/basis.ts'
import type { Path } from './quantity/quantity.ts'
import { type Found, queryKey, questions } from './query.ts'
import { queryWords } from './query-words.ts'
import type { Settings } from './settings.ts'
import { isTouched, openTrack, type Track, trailOf } from './trail.ts'
import type { Draw, Slot, Values } from './values.ts'
import type { Answer, FigureCompute, View, Viewer } from './view.ts'

interface Memo {
  readonly track: Track
  readonly outcome: { readonly value: unknown } | { readonly lack: Lack }
}

/** Opens a view on values and answers. It is synchronous and holds one draw at a time. */
export function openView(values: Values, answer: Answer, settings: Settings, compute: FigureCompute): Viewer {
  const nominal = new Map<string, Map<Path, Memo>>()
  let draw: Draw = null
  let track: Track | null = null
  const founds = questions<{ readonly key: string; readonly found: Found }>()
  const running: string[] = []
  const choices = new Map<string, { readonly chosen: unknown; readonly track: Track }>()

  const logValue = (slot: Slot): void => {
    if (!track) return
    track.reads.set(`v:${slot.path}`, { kind: 'value', path: slot.path, seen: slot.seen })
    if (slot.word !== undefined) track.words.add(slot.index)
    if (!slot.quantity) return
    track.slots.add(slot.index)
    for (const term of slot.terms) track.influences.add(term.influence)
  }

  const numberAt = (path: Path): number | Lack => {
    const slot = values.slot(path)
    logValue(slot)
    if (slot.nothing) return { path, why: slot.nothing }
    return slot.quantity ? values.read(slot, draw) : { path, why: 'not-a-number' }
  }

  const memoised = <T>(id: string, subject: Path, run: () => T): T => {
    const base = nominal.get(id)?.get(subject)
    if (draw === null) return atNominal(id, subject, base, run)
    // A model that only a draw asks for (the other way of two) is remembered under a key of its own.
    const memo = base ?? onlyDrawn(id, subject)
    if (base && !isTouched(base.track, draw.moved)) return unwrap(base.outcome)
    draw.solved ??= new Map()
    const known = draw.solved.get(memo) as Memo['outcome'] | undefined
    if (known) return unwrap(known)
    const outcome = attempt(run)
    draw.solved.set(memo, outcome)
    return unwrap(outcome)
  }

  const strays = new Map<string, Memo>()
  const onlyDrawn = (id: string, subject: Path): Memo => {
    const key = `${id} ${subject}`
    const known = strays.get(key) ?? { track: openTrack(), outcome: { value: undefined } }
    strays.set(key, known)
    return known
  }

  const atNominal = <T>(id: string, subject: Path, base: Memo | undefined, run: () => T): T => {
    const memo = base ?? computed(id, subject, run)
    track?.used.add(memo.track)
    return unwrap(memo.outcome)
  }

  const computed = <T>(id: string, subject: Path, run: () => T): Memo => {
    const key = `${id} ${subject}`
    if (running.includes(key)) throw new Error(`${[...running, key].join(' → ')}: a figure that depends on itself`)
    const outer = track
    const own = openTrack()
    track = own
    running.push(key)
    try {
      const memo = { track: own, outcome: attempt(run) }
      const bySubject = nominal.get(id) ?? new Map<Path, Memo>()
      nominal.set(id, bySubject.set(subject, memo))
      return memo
    } finally {
      running.pop()
      track = outer
    }
  }

  const figureKeys = new Map<string, string>()
  const figureOf = (id: string, subject: Path): ReturnType<FigureCompute> => {
    const key = figureKeys.get(id) ?? `figure ${id}`
    figureKeys.set(id, key)
    return memoised(key, subject, () => compute(view, id, subject))
  }

  const view: View = {
    need(paths) {
      const result: Record<string, number> = {}
      let lacks: Lack[] | undefined
      for (const name in paths) {
        const found = numberAt(paths[name])
        if (typeof found === 'number') result[name] = found
        else lacks = [...(lacks ?? []), found]
      }
      if (lacks) throw new Lacking(allOf(lacks))
      return result as never
    },
    may(path) {
      const found = numberAt(path)
      return typeof found === 'number' ? found : undefined
    },
    word(path) {
      const word = view.mayWord(path)
      if (word === undefined) throw new Lacking({ path, why: values.slot(path).nothing ?? 'no-such-key' })
      return word
    },
    mayWord(path) {
      const slot = values.slot(path)
      logValue(slot)
      return slot.word
    },
    all<T extends readonly unknown[]>(...reads: { readonly [I in keyof T]: () => T[I] }): T {
      return view.each(reads as readonly (() => unknown)[], (read) => read()) as never
    },
    each(items, read) {
      let lacks: Lack[] | undefined
      const results = items.map((item) => {
        try {
          return read(item)
        } catch (error) {
          lacks = [...(lacks ?? []), lackOf(error)]
          return undefined
        }
      })
      if (lacks) throw new Lacking(allOf(lacks))
      return results as never
    },
    first(ways) {
      const lacks: Lack[] = []
      for (const { name, read } of ways) {
        try {
          return { way: name, value: read() }
        } catch (error) {
          lacks.push(lackOf(error))
        }
      }
      throw new Lacking(lacks.length === 1 ? lacks[0]! : { anyOf: lacks })
    },
    find(query) {
      const { key, found } = founds.get(query, (asked) => ({ key: queryKey(asked), found: answer(asked, settings) }))
      if (track) {
        track.reads.set(`q:${key}`, { kind: 'query', query, seen: seenOf(found) })
        track.founds.set(key, found)
      }
      if (found.fallen)
        view.fail(
          `${queryWords(query)}: rests on ${found.fallen.join(', ')}, which was refuted`,
          'refused',
          found.fallen[0],
        )
      return found
    },
    some(query) {
      const found = view.find(query)
      if (found.paths.length > 0) return found
      throw new Lacking({ query, why: found.census === 'complete' ? 'none-found' : 'census-open' })
    },
    setting(name) {
      track?.reads.set(`s:${name}`, { kind: 'setting', name, seen: settings[name] })
      return settings[name]
    },
    model: (model, subject) => memoised(model.id, subject, () => model.compute(view, subject)),
    figure(id, subject) {
      track?.figures.add(`${id} ${subject}`)
      const found = figureOf(id, subject)
      if (typeof found === 'number') return found
      return view.fail(`${id} of ${subject} is known only between bounds`)
    },
    evidence(figures) {
      const homes = new Map<Path, Basis>()
      for (const { id, subject } of figures) {
        const asking = track
        const own = openTrack()
        track = own
        const done = attempt(() => figureOf(id, subject))
        track = asking
        const apart = trailOf(own)
        for (const [key, read] of apart.reads) asking?.reads.set(key, read) // what is read makes it stale, what is noted is theirs
        if ('lack' in done) continue
        for (const index of apart.slots) {
          const slot = values.slotAt(index)
          homes.set(slot.home, slot.quantity!.basis)
        }
      }
      return [...homes].map(([path, basis]) => ({ path, basis }))
    },
    doubt(path, shape, about) {
      const slot = values.doubt(path, shape, about)
      logValue(slot)
      return values.read(slot, draw)
    },
    choice(key, choose) {
      let known = choices.get(key)
      if (!known) {
        const [asking, under] = [track, draw]
        const apart = openTrack()
        track = apart
        draw = null
        try {
          known = { chosen: choose(), track: apart }
        } finally {
          track = asking
          draw = under
        }
        choices.set(key, known)
      }
      // What the choice stands on is named and watched, but not perturbed.
      track?.still.add(known.track)
      return known.chosen as never
    },
    note: (text) => void track?.notes.add(text),
    quietly(read) {
      if (!track) return read()
      const asking = track
      const own = openTrack()
      asking.quiet.add(own)
      track = own
      try {
        return read()
      } finally {
        track = asking
      }
    },
    beyond: (text) => void track?.beyond.add(text),
    fail(reason, kind = 'refused', at) {
      throw new Lacking({ reason, kind, ...(at && { at }) })
    },
  }

  return {
    view,
    record(run) {
      const outer = track
      const own = openTrack()
      track = own
      try {
        const outcome = attempt(() => run(view))
        return { trail: trailOf(own), ...outcome }
      } finally {
        track = outer
      }
    },
    under(next, run) {
      const outer = track
      track = null
      draw = next
      try {
        return run(view)
      } catch (error) {
        if (error instanceof Lacking) return undefined
        throw error
      } finally {
        track = outer
        draw = null
      }
    },
  }
}

function attempt<T>(run: () => T): { readonly value: T } | { readonly lack: Lack } {
  try {
    return { value: run() }
  } catch (error) {
    return { lack: lackOf(error) }
  }
}

function lackOf(error: unknown): Lack {
  if (error instanceof Lacking) return error.lack
  throw error
}

function unwrap<T>(outcome: Memo['outcome']): T {
  if ('lack' in outcome) throw new Lacking(outcome.lack)
  return outcome.value as T
}

/** Fingerprint of an answer: a part that was added to it changes it. */
export function seenOf(found: Found): string {
  const fallen = found.fallen ? ` without ${found.fallen.join(' ')}` : ''
  const on = found.restsOn.length > 0 ? ` on ${found.restsOn.join(' ')}` : ''
  return `${found.census} ${found.basis} ${found.paths.join(' ')}${on}${fallen}`
}
