import type { Draw } from '../../graph/values.ts'
import { type Problem, signsOf } from './propagate.ts'
import type { Session } from './session.ts'

/** One draw object per influence and sign, shared by all figures of the call. */
function singles(): Problem['single'] {
  const known = new Map<string, NonNullable<Draw>>()
  return (influence, sign) => {
    const key = `${sign}${influence.index}`
    const draw = known.get(key) ?? {
      moved: new Set([influence.index]),
      deviation: (index: number) => (index === influence.index ? sign * influence.u : 0),
    }
    known.set(key, draw)
    return draw
  }
}

/** Draws that every figure of a call is evaluated under, so that a model they share is solved once for each. */
export type Draws = Pick<Problem, 'single' | 'signs' | 'part'>

function signVectors({ values }: Session): Problem['signs'] {
  const signs = new Map<number, readonly number[]>()
  const made = new Map<string, NonNullable<Draw>>()
  const deviation = (n: number, sign: number, index: number): number => {
    const { id, u } = values.influence(index)
    const own = signs.get(index) ?? signsOf(id)
    signs.set(index, own)
    return sign * own[n]! * u
  }
  return (n, sign) => {
    const draw = made.get(`${n} ${sign}`) ?? { moved: 'all', deviation: (index: number) => deviation(n, sign, index) }
    made.set(`${n} ${sign}`, draw)
    return draw
  }
}

/** One influence moved in what is read from one home only. */
function parts(): Problem['part'] {
  const made = new Map<string, NonNullable<Draw>>()
  return ({ index, u }, only, sign) => {
    const key = `${sign} ${index} ${only}`
    const draw = made.get(key) ?? { moved: new Set([index]), deviation: () => sign * u, only }
    made.set(key, draw)
    return draw
  }
}

export function drawsFor(session: Session): Draws {
  return { single: singles(), signs: signVectors(session), part: parts() }
}
