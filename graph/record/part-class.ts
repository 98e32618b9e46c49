import { assemblyClasses } from './classes/assembly.ts'
import { boardClasses } from './classes/board.ts'
import { boardPartClasses } from './classes/board-part.ts'
import { capacitorClasses } from './classes/capacitor.ts'
import type { PartClass } from './classes/class.ts'
import { conductorClasses } from './classes/conductor.ts'
import { coolantClasses } from './classes/coolant.ts'
import { housingClasses } from './classes/housing.ts'
import { insulationClasses } from './classes/insulation.ts'
import { joiningClasses } from './classes/joining.ts'
import { labelClasses } from './classes/label.ts'
import { magneticClasses } from './classes/magnetic.ts'
import { semiconductorClasses } from './classes/semiconductor.ts'
import { sensingClasses } from './classes/sensing.ts'
import { thermalClasses } from './classes/thermal.ts'
import { wiringClasses } from './classes/wiring.ts'

/** Every class a part can have: groups first, each followed by its own. */
export const PART_CLASSES: readonly PartClass[] = [
  ...assemblyClasses,
  ...housingClasses,
  ...coolantClasses,
  ...thermalClasses,
  ...conductorClasses,
  ...semiconductorClasses,
  ...capacitorClasses,
  ...magneticClasses,
  ...sensingClasses,
  ...boardClasses,
  ...boardPartClasses,
  ...insulationClasses,
  ...joiningClasses,
  ...wiringClasses,
  ...labelClasses,
]

const byName = new Map(PART_CLASSES.map((one) => [one.class, one]))
const byAlias = new Map(PART_CLASSES.flatMap((one) => one.aliases.map((alias) => [alias, one] as const)))

/** The class of that name; an alias gives the class it stands for. Undefined: there is none. */
export function partClassOf(name: string): PartClass | undefined {
  return byName.get(name) ?? byAlias.get(name)
}

/** Names that a class can be asked by, aliases left out. */
export const CLASS_NAMES: readonly string[] = PART_CLASSES.map((one) => one.class)

/** Names to suggest from, aliases among them. */
export function allClassNames(): readonly string[] {
  return [...CLASS_NAMES, ...byAlias.keys()]
}

/** Whether a class is, or belongs to the group, asked for. */
export function isOfClass(name: string, asked: string): boolean {
  const found = partClassOf(name)
  return found !== undefined && (found.class === asked || found.group === asked)
}
