import { NOTHINGS, type Nothing } from '../quantity/basis.ts'
import type { PartClass } from './classes/class.ts'
import { isMapping } from './fault.ts'
import { place } from './field.ts'
import { evidenceFrom, NOTE_KEYS, noteOf } from './note.ts'
import { kindOf, piece, type Say } from './piece.ts'
import type { Evidence, Tree } from './record.ts'
import { readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'
import { readWord } from './word.ts'

/** One terminal: the net it is on (a star stands for the name of the piece), or why none is named. */
export interface Terminal {
  readonly net?: string
  readonly nothing?: Nothing
  /** Offset from the piece. */
  readonly at?: Stated
  readonly evidence: Evidence
  /** The key as typed, when it named several pins. */
  readonly typed?: string
}

export type Terminals = Readonly<Record<string, Terminal>>

const PLACE = place('Offset from the piece: x / y / z.')
const LONG_KEYS = ['net', 'at', 'note', ...NOTE_KEYS]
const MOST_PINS = 3000

/** The terminals a part of this class may have. */
export function terminalsOf(partClass: PartClass) {
  return piece<Terminals>({ hint: 'terminals', words: partClass.terminals.names }, (tree, say) => {
    const terminals: Record<string, Terminal> = {}
    if (!isMapping(tree)) {
      say(`${kindOf(tree)} where terminals are expected`, 'write terminals: { plus: dc-plus, minus: dc-minus }')
      return terminals
    }
    let pins = 0
    for (const key of Object.keys(tree)) {
      const names = namesIn(key, partClass, say)
      pins += names.length
      if (pins > MOST_PINS) {
        say(`more than ${MOST_PINS} terminals`, 'check the ranges of pins', [key], { key: true })
        break
      }
      const terminal = readTerminal(tree[key] as Tree, key, say)
      for (const name of names) {
        if (Object.hasOwn(terminals, name))
          say(`terminal "${name}" stands here twice`, 'leave one of them out', [key], { key: true })
        terminals[name] = name === key ? terminal : { ...terminal, typed: key }
      }
    }
    return terminals
  })
}

function namesIn(key: string, { class: of, terminals }: PartClass, say: Say): readonly string[] {
  if (terminals.names.includes(key) || terminals.pattern?.test(key)) return [key]
  if (terminals.pins && /^[0-9 .]+$/.test(key.trim())) return pinsIn(key, say)
  if (terminals.names.length === 0 && !terminals.pins && !terminals.pattern) {
    say(`a ${of} has no terminals`, 'leave them out, or choose another class', [key], { key: true })
  } else {
    const numbers = terminals.pins ? '; pins by number: 1 12 44..47' : ''
    say(`a ${of} has no terminal "${key}"`, `${didYouMean(key, terminals.names)}${numbers}`, [key], { key: true })
  }
  return []
}

/** `1 12 31 44..47` → each pin. */
function pinsIn(key: string, say: Say): readonly string[] {
  const pins: string[] = []
  for (const word of key.trim().split(/ +/)) {
    const range = /^(\d{1,5})(?:\.\.(\d{1,5}))?$/.exec(word)
    const first = Number(range?.[1])
    const last = Number(range?.[2] ?? range?.[1])
    if (!range || last < first || last - first > MOST_PINS) {
      say(`"${word}" is no pin and no range of pins`, 'write 1 12 31 44..47', [key], { key: true })
      return pins
    }
    for (let pin = first; pin <= last; pin++) pins.push(String(pin))
  }
  return pins
}

function readTerminal(tree: Tree, key: string, say: Say): Terminal {
  if (typeof tree === 'string') return onNet(tree, undefined)
  if (!isMapping(tree)) {
    say(`${kindOf(tree)} where a net is expected`, 'write a net, or { net: …, at: … }', [key])
    return onNet('', undefined)
  }
  for (const other of Object.keys(tree)) {
    if (!LONG_KEYS.includes(other))
      say(`unknown key "${other}"`, didYouMean(other, LONG_KEYS), [key, other], { key: true })
  }
  const { note, faults } = noteOf(tree)
  for (const fault of faults) say(fault.what, fault.mend, [key, fault.key])
  if (typeof tree.net !== 'string')
    say('a terminal without a net', 'write net: …, or one of: not looked for, absent, not applicable, unreadable', [
      key,
    ])
  const at = tree.at === undefined ? undefined : readStated(tree.at, PLACE)
  return { ...onNet(typeof tree.net === 'string' ? tree.net : '', evidenceFrom(note, 'judged')), ...(at && { at }) }
}

function onNet(text: string, evidence: Evidence | undefined): Terminal {
  const { word, nothing, note } = readWord(text)
  const how = evidence ?? evidenceFrom(note, 'judged')
  if (nothing && NOTHINGS.includes(nothing)) return { nothing, evidence: how }
  return { net: word, evidence: how }
}
