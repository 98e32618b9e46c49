import { z } from 'zod'
import { isList } from './fault.ts'
import { quantity, share, word } from './field.ts'
import { identified } from './identified.ts'
import { slugOf } from './ids.ts'
import { passage } from './passage.ts'
import { evidenceShape, factsOf, hints, id, kindOf, piece, section, text } from './piece.ts'
import type { Tree } from './record.ts'

export const FLUIDS = ['water', 'ethylene-glycol-water', 'propylene-glycol-water', 'air', 'oil'] as const

/** Order of the passages: levels alternate one after the other, side by side, one after the other. */
export type Sequence = string | readonly Sequence[]

const DEEPEST = 8

const sequence = piece<readonly Sequence[]>(
  {
    hint: 'tree',
    is: 'Passages by id between inlet and outlet; nested lists run side by side, lists in those one after the other.',
  },
  (tree, say) => {
    if (isList(tree)) return checkDepth(tree, 1) ? (tree as readonly Sequence[]) : deep()
    say(`${kindOf(tree)} where the order of passages is expected`, 'write sequence: [inlet, lower, outlet]')
    return []
    function deep(): readonly Sequence[] {
      say(
        `the order of passages holds lists ${DEEPEST} deep and more, or something that is no passage`,
        'lists of passages, side by side and one after the other',
      )
      return []
    }
  },
)

function checkDepth(tree: Tree, depth: number): boolean {
  if (typeof tree === 'string') return true
  return isList(tree) && depth <= DEEPEST && tree.every((one) => checkDepth(one, depth + 1))
}

const doubt = identified(
  section({ id: id.optional(), flow: text('From and to: wall to lower.u.'), ...evidenceShape }),
  ({ flow }) =>
    flow
      .split(/\s+to\s+/)
      .map(slugOf)
      .join('~'),
)

/** One coolant circuit. */
export const circuit = section({
  id: id.optional(),
  title: text().optional(),
  ...factsOf({
    fluid: word('What flows.', FLUIDS),
    'glycol-by-volume': share('Of the mixture, by volume.'),
    'glycol-by-mass': share('Of the mixture, by mass.'),
    flow: quantity('flow', 'Volume per time; the free-air figure of a fan is not the flow.'),
    inlet: quantity('temperature', 'Of the coolant entering.'),
    outlet: quantity('temperature', 'Of the coolant leaving.'),
    pressure: quantity('pressure', 'Absolute.'),
  }),
  fan: section(
    factsOf({
      'free-flow': quantity('flow', 'In free air.'),
      'shut-off-pressure': quantity('pressure', 'At no flow.'),
      'rotational-speed': quantity('rotational-speed'),
    }),
  ).optional(),
  passages: z.array(passage).optional(),
  sequence: sequence.optional(),
  doubts: z.array(doubt).optional(),
  ...evidenceShape,
})

export type Circuit = z.infer<typeof circuit>

/** One circuit, or several with ids; always a list once read. The only one has no id: its values lie at `coolant`. */
export const coolant: z.ZodType<readonly Circuit[], unknown> = z
  .unknown()
  .transform((input, context): readonly Circuit[] => {
    const list = Array.isArray(input)
    const all = list ? input : [input]
    return all.flatMap((one, n) => {
      const read = circuit.safeParse(one)
      const at = list ? [n] : []
      if (!read.success) {
        for (const issue of read.error.issues)
          context.issues.push({ ...issue, input: one, path: [...at, ...issue.path] } as never)
        return []
      }
      if (list && all.length > 1 && read.data.id === undefined) {
        context.issues.push({
          code: 'custom',
          input: one,
          message: 'one of several circuits without an id',
          path: at,
          params: { mend: 'give each circuit an id' },
        })
      }
      if (list) return [read.data]
      const { id: _id, ...only } = read.data
      return [only]
    })
  })
hints.set(coolant, { hint: 'circuits', of: circuit })
