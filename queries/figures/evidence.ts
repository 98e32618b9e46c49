import { asPath } from '../../graph/quantity/quantity.ts'
import { defineFigure, type Figure, SPECIMEN } from './figure.ts'

/** Figures about the evidence behind the others: made from their list, so that the two cannot part. */
export const evidenceFigures = (others: readonly Figure[]) => [evidenceShare(others)] as const

const evidenceShare = (others: readonly Figure[]) =>
  defineFigure({
    id: 'EVIDENCE_SHARE',
    title: 'Share of inputs measured or marked',
    definition:
      'Of the distinct recorded values that the computable figures stand on, the share that was measured on this specimen or read off a marking.',
    unit: '%',
    subject: 'specimen',
    honours: ['power', 'volume', 'voltage', 'counts', 'boundary'],
    exact: true,
    method: 'count of value paths by basis',
    sources: ['common practice'],
    subjects: () => SPECIMEN,
    compute(view) {
      const asked = others.flatMap((figure) =>
        figure.subjects(view).paths.map((subject) => ({ id: figure.id, subject })),
      )
      const values = view.evidence(asked)
      if (values.length === 0)
        return view.fail('no figure can be computed yet: see what to measure', 'refused', asPath('specimen'))
      return values.filter(({ basis }) => basis === 'measured' || basis === 'marked').length / values.length
    },
  })
