import { defineCheck, type Finding } from './check.ts'

const unreached = defineCheck({
  id: 'passage-nothing-enters',
  title: 'A coolant passage that nothing enters',
  severity: 'warning',
  run: (view) =>
    view
      .find({ ask: 'passages' })
      .paths.filter((passage) => view.find({ ask: 'entered', passage }).paths.length === 0)
      .map(
        (passage): Finding => ({
          path: passage,
          what: 'stands in no sequence: no coolant is said to enter it',
          mend: 'put it into the sequence between inlet and outlet, or say in a finding that it is blind',
        }),
      ),
})

const idle = defineCheck({
  id: 'passage-without-heat',
  title: 'A coolant passage that cools nothing',
  severity: 'question',
  run: (view) =>
    view
      .find({ ask: 'passages' })
      .paths.filter((passage) => view.find({ ask: 'heated-by', passage }).paths.length === 0)
      .map(
        (passage): Finding => ({
          path: passage,
          what: 'no part of the record sends its heat into it',
          mend: 'name the faces it cools under cools:, and the heat paths that end there',
        }),
      ),
})

export const coolantChecks = [unreached, idle] as const
