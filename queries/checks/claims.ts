import { defineCheck, type Finding } from './check.ts'

const disagreeing = defineCheck({
  id: 'claims-disagree',
  title: 'Claims of one property disagree beyond their uncertainties',
  severity: 'warning',
  run: (view) =>
    view.find({ ask: 'disputed' }).paths.map(
      (path): Finding => ({
        path,
        what: 'its claims differ by more than twice the uncertainty of their difference (metrological compatibility, JCGM 200 2.47)',
        mend: 'measure again, or take one and say why with take: and because:',
      }),
    ),
})

const restingOnRefuted = defineCheck({
  id: 'rests-on-refuted',
  title: 'A value rests on a finding that was refuted',
  severity: 'warning',
  run: (view) =>
    view.find({ ask: 'rests-on-refuted' }).paths.map(
      (path): Finding => ({
        path,
        what: 'rests on a finding whose status is refuted',
        mend: 'state the value on other grounds, or take it out',
      }),
    ),
})

export const claimChecks = [disagreeing, restingOnRefuted] as const
