import type { Edit } from '../graph/edit.ts'
import { asPath, type Path } from '../graph/quantity/quantity.ts'
import { isList, isMapping } from '../graph/record/fault.ts'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import { closest } from '../graph/record/suggest.ts'
import type { Settings } from '../graph/settings.ts'
import { editsOf, parseConditions } from './conditions.ts'
import type { Session } from './evaluate/session.ts'
import { figures, hasFigure } from './figures/registry.ts'
import { QuantityInputError } from './quantity-input.ts'
import { type SideBySide, sideBySide } from './side-by-side.ts'
import { changes, changesFrom, isTakenAsExact } from './what-if.ts'

/** Changes of a record that are looked at together; nothing is written. */
export interface Scenario {
  readonly id: string
  readonly title: string
  /** Changes as typed. */
  readonly changes: readonly string[]
  readonly conditions: readonly (readonly [string, string])[]
}

export interface ScenarioSheet {
  readonly scenarios: readonly Scenario[]
  /** Figures to look at; all when there are none. */
  readonly metrics: readonly string[]
}

export interface Played {
  readonly scenario: Scenario
  readonly result: SideBySide
  /** What went along with what was taken out. */
  readonly also: readonly string[]
  /** Changes, as typed, whose value has no width. */
  readonly takenAsExact: readonly string[]
}

/**
 * Reads a sheet of scenarios:
 * `{ metrics: [POWER_DENSITY], scenarios: [{ id: thin-film, what-if: ["film-upper/thickness=0.1 mm"], conditions: { power: continuous } }] }`.
 * @throws QuantityInputError on anything else, naming the scenario
 */
export function scenariosFrom(tree: Tree): ScenarioSheet {
  if (!isMapping(tree))
    throw wrong('a sheet of scenarios is a mapping', 'write scenarios: [ { id: …, what-if: [ … ] } ]')
  refuseOthers(tree, ['metrics', 'scenarios'], 'the sheet')
  const { scenarios, metrics } = tree
  if (!isList(scenarios) || scenarios.length === 0)
    throw wrong('no scenarios', 'write scenarios: [ { id: …, what-if: [ … ] } ]')
  const read = scenarios.map(scenarioFrom)
  const twice = read.find(({ id }, at) => read.findIndex((other) => other.id === id) !== at)
  if (twice) throw wrong(`two scenarios are called "${twice.id}"`, 'give one of them another id')
  return { scenarios: read, metrics: metricsIn(metrics) }
}

function scenarioFrom(tree: Tree, at: number): Scenario {
  const name = `scenario ${at + 1}`
  if (!isMapping(tree)) throw wrong(`${name} is not a mapping`, 'write { id: …, what-if: [ … ] }')
  refuseOthers(tree, ['id', 'title', 'what-if', 'conditions'], name)
  const { id, title, conditions } = tree
  if (typeof id !== 'string' || !/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(id))
    throw wrong(`${name} has no id`, 'small letters, digits and hyphens: id: thin-film')
  const changed = textsIn(tree['what-if'], `${id}: what-if`)
  const pairs = conditionsIn(conditions, id)
  if (changed.length + pairs.length === 0)
    throw wrong(`${id}: nothing is changed`, 'write what-if: [ "path=quantity" ], or conditions: { power: continuous }')
  return { id, title: typeof title === 'string' ? title : id, changes: changed, conditions: pairs }
}

function conditionsIn(tree: Tree | undefined, name: string): Scenario['conditions'] {
  if (tree === undefined) return []
  const mend = 'write conditions: { power: continuous, coolant-inlet: 40 °C }'
  if (!isMapping(tree)) throw wrong(`${name}: conditions are a mapping`, mend)
  return Object.entries(tree).map(([key, value]) => {
    if (typeof value !== 'string') throw wrong(`${name}: the condition "${key}" is no text`, mend)
    return [key, value] as const
  })
}

/** Figures that a sheet asks for. @throws QuantityInputError on one that is none */
function metricsIn(tree: Tree | undefined): readonly string[] {
  return textsIn(tree, 'metrics').map((typed) => {
    const id = typed.toUpperCase().replaceAll('-', '_')
    if (hasFigure(id)) return id
    const ids = figures.map((figure) => figure.id)
    throw wrong(`metrics: no figure "${typed}"`, `did you mean ${closest(id, ids) ?? ids.slice(0, 5).join(', ')}?`)
  })
}

/** Plays scenarios one by one, each against the record as it stands. @throws QuantityInputError, PatchError naming the scenario */
export function play(session: Session, scenarios: readonly Scenario[], metrics?: readonly string[]): readonly Played[] {
  return scenarios.map((scenario) => {
    const { edits, settings, takenAsExact } = named(scenario, () => editsIn(session, scenario))
    const after = named(scenario, () => session.over(edits, settings))
    return { scenario, result: sideBySide(session, after, metrics), also: after.also, takenAsExact }
  })
}

interface Asked extends Pick<Played, 'takenAsExact'> {
  readonly edits: readonly Edit[]
  readonly settings: Partial<Settings>
}

function editsIn(session: Session, scenario: Scenario): Asked {
  const circuits = session.structure.answer({ ask: 'circuits' }, session.settings).paths
  const asked = parseConditions(scenario.conditions)
  const settings = scenario.conditions.length > 0 ? asked.settings : {}
  const typed = scenario.changes.map((text) => ({ text, edits: changesFrom(session.record, text) }))
  const takenAsExact = typed.filter(({ edits }) => isTakenAsExact(edits)).map(({ text }) => text)
  return { edits: [...editsOf(asked, circuits), ...typed.flatMap(({ edits }) => edits)], settings, takenAsExact }
}

/** Id of what was typed on the line rather than written in a sheet: a fault needs no name then. */
export const TYPED = 'what-if'

function named<T>({ id }: Scenario, run: () => T): T {
  try {
    return run()
  } catch (error) {
    if (error instanceof Error && id !== TYPED) error.message = `scenario ${id}: ${error.message}`
    throw error
  }
}

/** A count that nobody made (judged or assumed) is a scenario of one more and of one less. */
export function countScenarios(record: TeardownRecord): readonly Scenario[] {
  return record.parts.entries.flatMap((entry) => {
    if (!isDoubtful(record, entry.path)) return []
    const fewer = entry.pieces.length > 1 ? ['one fewer' as const] : []
    return ['one more' as const, ...fewer].flatMap((change): Scenario[] => {
      const edits = `${entry.path}=${change}`
      return isPlayable(record, entry.path, change)
        ? [
            {
              id: `${entry.id}-${change.replace(' ', '-')}`,
              title: `${entry.path}: ${change}`,
              changes: [edits],
              conditions: [],
            },
          ]
        : []
    })
  })
}

function isDoubtful({ facts }: TeardownRecord, entry: Path): boolean {
  const count = facts.get(asPath(`${entry}/count/built`))
  return count?.taken.evidence.basis === 'judged' || count?.taken.evidence.basis === 'assumed'
}

/** One more of something whose pieces have names (phases) has no place to go: it is no scenario. */
function isPlayable(record: TeardownRecord, entry: Path, change: string): boolean {
  return changes(record, entry, change).every((edit) => 'drop' in edit || ('add' in edit && /\.\d+$/.test(edit.add)))
}

function textsIn(tree: Tree | undefined, name: string): readonly string[] {
  if (tree === undefined) return []
  const list = isList(tree) ? tree : [tree]
  return list.map((one) => {
    if (typeof one === 'string') return one
    throw wrong(`${name}: a change is one line of text`, 'write "path=quantity"')
  })
}

function refuseOthers(tree: { readonly [key: string]: Tree }, known: readonly string[], name: string): void {
  const other = Object.keys(tree).find((key) => !known.includes(key))
  if (other !== undefined) throw wrong(`${name}: unknown key "${other}"`, `known here: ${known.join(', ')}`)
}

const wrong = (what: string, mend: string): QuantityInputError => new QuantityInputError(what, mend)
