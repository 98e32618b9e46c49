import type { Lack } from '../../graph/lack.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { Claim, Evidence, Fact, TeardownRecord } from '../../graph/record/record.ts'
import type { DerivedCheck, DerivedTrait } from '../../graph/store/derived.ts'
import type { Conditions } from '../../queries/conditions.ts'
import type { Input, WeakShare as WeakShares } from '../../queries/evaluate/result.ts'
import type { Figure as FigureKind } from '../../queries/figures/figure.ts'
import type { Suggestion as Suggested } from '../../queries/measure-next.ts'
import type { FigureAnswer } from '../answers.ts'
import type { Caution as CautionText } from '../cautions.ts'
import { builder } from './builder.ts'
import type { TeardownNode } from './teardown-node.ts'

/** Something of one record. */
export interface TeardownAt {
  readonly teardown: TeardownNode
}

/** Something in one record, by its canonical path. */
export interface At extends TeardownAt {
  readonly path: Path
}

/** A component or assembly: one entry of the parts list with all its pieces. */
export interface PartAt extends At {
  readonly class: string
  /** Whether it holds no other part. */
  readonly leaf: boolean
}

export interface TerminalAt extends At {
  readonly name: string
  readonly piece: Path
  readonly net: Path
  readonly evidence: Evidence
}

export interface FactAt extends At {
  readonly fact: Fact
}

export interface FindingAt extends At {
  readonly entry: FindingEntry
}

export interface PhotoAt {
  readonly teardown: TeardownNode
  readonly photo: NonNullable<TeardownRecord['sheet']['photos']>[number]
}

/** A finding as the sheet has it. */
type FindingEntry = NonNullable<TeardownRecord['sheet']['findings']>[number]

export interface ConnectionOf<T> {
  readonly edges: readonly { readonly cursor: string; readonly node: T }[]
  readonly hasNext: boolean
  readonly hasPrevious: boolean
  readonly total: number
}

export const Metric = builder.objectRef<FigureKind>('Metric')
export const Teardown = builder.objectRef<TeardownNode>('Teardown')
export const Assembly = builder.objectRef<PartAt>('Assembly')
export const Component = builder.objectRef<PartAt>('Component')
export const Piece = builder.objectRef<At>('Piece')
export const Count = builder.objectRef<PartAt>('Count')
export const Property = builder.objectRef<FactAt>('Property')
export const ClaimRef = builder.objectRef<FactAt & { readonly claim: Claim }>('Claim')
export const Terminal = builder.objectRef<TerminalAt>('Terminal')
export const Net = builder.objectRef<At>('Net')
export const Loop = builder.objectRef<At>('Loop')
export const Passage = builder.objectRef<At>('Passage')
export const CoolantPosition = builder.objectRef<At & { readonly part: Path }>('CoolantPosition')
export const HeatPath = builder.objectRef<At>('HeatPath')
export const HeatLayer = builder.objectRef<At>('HeatLayer')
export const HeatEnd = builder.objectRef<At>('HeatEnd')
export const Finding = builder.objectRef<FindingAt>('Finding')
export const Rival = builder.objectRef<NonNullable<FindingEntry['rivals']>[number]>('Rival')
export const Photo = builder.objectRef<PhotoAt>('Photo')
export const Figure = builder.objectRef<FigureAnswer>('Figure')
export const FigureInput = builder.objectRef<Input>('FigureInput')
export const WeakShare = builder.objectRef<WeakShares>('WeakShare')
export const Narrowing = builder.objectRef<NonNullable<Suggested['narrows']>>('Narrowing')
export const MissingInput = builder.objectRef<Lack>('MissingInput')
export const ConditionsUsed = builder.objectRef<Conditions>('ConditionsUsed')
export const NumericCondition = builder.objectRef<{ readonly name: string; readonly value: string }>('NumericCondition')
export const Trait = builder.objectRef<DerivedTrait>('Trait')
export const Check = builder.objectRef<DerivedCheck>('Check')
export const Caution = builder.objectRef<CautionText>('Caution')
export const Suggestion = builder.objectRef<Suggested>('Suggestion')
export const PageInfo = builder.objectRef<ConnectionOf<unknown>>('PageInfo')
