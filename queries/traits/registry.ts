import { bridgeTraits } from './bridge.ts'
import { computedTraits } from './computed.ts'
import { coolingTraits } from './cooling.ts'
import { electricalTraits } from './electrical.ts'
import type { Trait } from './trait.ts'

/** Every trait, in the order in which they are listed to a person. */
export const traits: readonly Trait[] = [...coolingTraits, ...bridgeTraits, ...electricalTraits, ...computedTraits]
