import { type Quantity, standardUncertainty } from '../../graph/quantity/quantity.ts'
import type { Claim, Fact, TeardownRecord } from '../../graph/record/record.ts'
import { type Customary, customary } from '../customary.ts'
import { ClaimRef, type FactAt, Property } from './refs.ts'
import { recordOf } from './teardown-node.ts'
import { BasisEnum } from './words.ts'

Property.implement({
  description: 'One property with the claim that is taken; the others are kept beside it.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Canonical path of the value.' }),
    text: t.string({ description: 'As it was written.', resolve: ({ fact }) => fact.taken.text }),
    value: t.float({
      nullable: true,
      description: 'In `unit`; null for a word, a bound or nothing.',
      resolve: (one) => shown(one.fact)?.value,
    }),
    unit: t.string({
      nullable: true,
      description: 'Customary symbol of its unit of measure.',
      resolve: (one) => shown(one.fact)?.unit,
    }),
    ucum: t.string({ nullable: true, description: 'UCUM code of it.', resolve: (one) => shown(one.fact)?.ucum }),
    word: t.string({ nullable: true, description: 'When it is a word.', resolve: ({ fact }) => fact.taken.word }),
    nothing: t.string({
      nullable: true,
      description: 'Which of the four kinds of nothing, when it is one.',
      resolve: ({ fact }) => fact.taken.nothing,
    }),
    basis: t.field({
      type: BasisEnum,
      description: 'How it is known.',
      resolve: ({ fact }) => fact.taken.evidence.basis,
    }),
    restsOn: t.stringList({
      description: 'Findings it stands or falls with.',
      resolve: ({ fact }) => fact.taken.evidence.restsOn,
    }),
    because: t.string({
      nullable: true,
      description: 'Why this claim is taken, when the sheet chose it.',
      resolve: ({ fact }) => fact.because,
    }),
    claims: t.field({
      type: [ClaimRef],
      description: 'Everything claimed about it, in the order of the sheet.',
      extensions: { many: 2 },
      resolve: (one) => one.fact.claims.map((claim) => ({ ...one, claim })),
    }),
  }),
})

function shown({ dimension, taken }: Fact): Customary | undefined {
  return taken.quantity && !taken.quantity.bound ? customary(taken.quantity.value, dimension) : undefined
}

/** What a claim says in numbers: a value with its standard uncertainty, or the bound that is no value. */
function numbersOf({ teardown, fact }: FactAt, { quantity }: Claim): ClaimNumbers {
  if (!quantity) return NO_NUMBERS
  const { influences } = recordOf(teardown).record
  const { value, unit, uncertainty } = customary(quantity.value, fact.dimension, uncertaintyOf(quantity, influences))
  return quantity.bound
    ? { ...NO_NUMBERS, unit, bound: value, side: quantity.bound === '<' ? 'below' : 'above' }
    : { ...NO_NUMBERS, unit, value, uncertainty }
}

interface ClaimNumbers {
  readonly value: number | null
  readonly uncertainty: number | null
  readonly bound: number | null
  readonly side: 'below' | 'above' | null
  readonly unit: string | null
}

const NO_NUMBERS: ClaimNumbers = { value: null, uncertainty: null, bound: null, side: null, unit: null }

/** Its causes taken as independent (JCGM 100:2008 5.1.2); null when it is exact. */
function uncertaintyOf({ value, terms }: Quantity, influences: TeardownRecord['influences']): number | null {
  const parts = terms.map(({ influence, mode, weight }) => {
    const u = weight * standardUncertainty(influences.get(influence)!.shape)
    return mode === 'scale' ? u * value : u
  })
  return parts.length > 0 ? Math.hypot(...parts) : null
}

ClaimRef.implement({
  description: 'One statement about one property.',
  fields: (t) => ({
    text: t.string({ description: 'As it was written.', resolve: ({ claim }) => claim.text }),
    value: t.float({
      nullable: true,
      description: 'In `unit`; null for a word, a bound or nothing.',
      resolve: (one) => numbersOf(one, one.claim).value,
    }),
    uncertainty: t.float({
      nullable: true,
      description: 'Standard uncertainty, in `unit`; null when it is exact.',
      resolve: (one) => numbersOf(one, one.claim).uncertainty,
    }),
    bound: t.float({
      nullable: true,
      description: 'A bound that is no value, in `unit`.',
      resolve: (one) => numbersOf(one, one.claim).bound,
    }),
    side: t.string({
      nullable: true,
      description: '`above` or `below` the bound.',
      resolve: (one) => numbersOf(one, one.claim).side,
    }),
    unit: t.string({
      nullable: true,
      description: 'Customary symbol of its unit of measure.',
      resolve: (one) => numbersOf(one, one.claim).unit,
    }),
    nothing: t.string({
      nullable: true,
      description: 'Which of the four kinds of nothing, when it is one.',
      resolve: ({ claim }) => claim.nothing,
    }),
    basis: t.field({ type: BasisEnum, description: 'How it is known.', resolve: ({ claim }) => claim.evidence.basis }),
    taken: t.boolean({
      description: 'Whether figures use this one.',
      resolve: ({ claim, fact }) => claim.id === fact.taken.id,
    }),
    of: t.string({
      nullable: true,
      description: 'The piece it was observed on, when it was one of several.',
      resolve: ({ claim }) => claim.of,
    }),
    with: t.string({ nullable: true, description: 'Instrument.', resolve: ({ claim }) => claim.evidence.with }),
    by: t.string({ nullable: true, description: 'Who.', resolve: ({ claim }) => claim.evidence.by }),
    on: t.string({ nullable: true, description: 'When.', resolve: ({ claim }) => claim.evidence.on }),
    photo: t.string({ nullable: true, description: 'Photo and region.', resolve: ({ claim }) => claim.evidence.photo }),
    from: t.string({ nullable: true, description: 'Document and page.', resolve: ({ claim }) => claim.evidence.from }),
  }),
})
