import type { TreePath } from '../fault.ts'
import { allClassNames, CLASS_NAMES, isOfClass, partClassOf } from '../part-class.ts'
import { didYouMean } from '../suggest.ts'
import { cycleIn } from './cycle.ts'
import { entryRef, itemPlace, type Known, netRef, partRef, thingRef } from './known.ts'
import { repeatedIds } from './repeated.ts'

/** Steps, findings, photos, census, observations, boundaries: what they name is there. */
export function checkLog(known: Known): void {
  for (const section of ['steps', 'findings', 'photos', 'census', 'observed', 'boundaries'] as const)
    repeatedIds(known, known.record.sheet[section] ?? [], [section])
  checkSteps(known)
  checkFindings(known)
  checkPhotos(known)
  checkCensus(known)
  for (const [n, { metric, subject }] of (known.record.sheet.observed ?? []).entries()) {
    if (!/^[A-Z][A-Z0-9]*(?:_[A-Z0-9]+)*$/.test(metric))
      known.say(
        ['observed', n, 'metric'],
        `"${metric}" is no id of a figure`,
        'capital letters and underscores: PRESSURE_DROP',
      )
    thingRef(known, subject, ['observed', n, 'subject'])
  }
  for (const [n, boundary] of (known.record.sheet.boundaries ?? []).entries()) {
    if (boundary.without && boundary.within)
      known.say(['boundaries', n, 'within'], 'a boundary by what is in and by what is out', 'keep one of the two')
    for (const key of ['without', 'within'] as const) parts(known, boundary[key], ['boundaries', n, key])
  }
}

function parts(known: Known, names: readonly string[] | undefined, at: TreePath): void {
  for (const [n, name] of (names ?? []).entries()) partRef(known, name, itemPlace(known, at, n))
}

function things(known: Known, names: readonly string[] | undefined, at: TreePath): void {
  for (const [n, name] of (names ?? []).entries()) thingRef(known, name, itemPlace(known, at, n))
}

function checkSteps(known: Known): void {
  const steps = known.record.sheet.steps ?? []
  const next = new Map<string, readonly string[]>()
  for (const [n, step] of steps.entries()) {
    const at: TreePath = ['steps', n]
    parts(known, step['takes-off'], [...at, 'takes-off'])
    parts(known, step.cuts, [...at, 'cuts'])
    things(known, step.loses, [...at, 'loses'])
    for (const [m, other] of (step.after ?? []).entries())
      entryRef(known, 'steps', other, itemPlace(known, [...at, 'after'], m))
    for (const name of Object.keys(step.undo ?? {})) {
      const found = partRef(known, name, [...at, 'undo', name])
      if (found && !isOfClass(found.entry.class, 'joining'))
        known.warn(
          [...at, 'undo', name],
          `"${name}" is a ${found.entry.class}: what is undone is of group joining`,
          'give the fastener a part of its own',
        )
    }
    const dead = step['proved-dead']
    for (const [m, net] of (dead?.across ?? []).entries())
      netRef(known, net, itemPlace(known, [...at, 'proved-dead', 'across'], m))
    const before = steps[n - 1]?.id
    next.set(step.id, step.after ?? (before === undefined ? [] : [before]))
  }
  const cycle = cycleIn(next)
  if (cycle)
    known.say(
      ['steps', steps.findIndex(({ id }) => id === cycle[0])],
      `steps that wait for each other: ${cycle.join(' → ')}`,
      'a step comes after what truly blocks it',
    )
}

function checkFindings(known: Known): void {
  const findings = known.record.sheet.findings ?? []
  for (const [n, finding] of findings.entries()) {
    const at: TreePath = ['findings', n]
    things(known, finding.about, [...at, 'about'])
    if (finding.question === undefined && finding.observation === undefined && finding.reading === undefined)
      known.say(at, 'a finding that says nothing', 'add observation:, reading: or question:')
  }
  const cycle = cycleIn(
    new Map(
      findings.map((finding) => [finding.id, (finding['rests-on'] ?? []).map((one) => one.replace(/^findings\//, ''))]),
    ),
  )
  if (cycle)
    known.say(
      ['findings', findings.findIndex(({ id }) => id === cycle[0])],
      `findings that rest on each other: ${cycle.join(' → ')}`,
      'one of them has to rest on what was seen',
    )
}

function checkPhotos(known: Known): void {
  for (const [n, photo] of (known.record.sheet.photos ?? []).entries()) {
    const at: TreePath = ['photos', n]
    things(known, photo.shows, [...at, 'shows'])
    repeatedIds(known, photo.regions ?? [], [...at, 'regions'])
    for (const [m, region] of (photo.regions ?? []).entries())
      thingRef(known, region.part, [...at, 'regions', m, 'part'])
    if (/^(?:[/~]|[a-z]+:|.*\.\.(?:\/|$))/i.test(photo.file))
      known.say(
        [...at, 'file'],
        `"${photo.file}" leads out of the folder of photos`,
        'name a file below it: photos/0031.jpg',
      )
  }
}

function checkCensus(known: Known): void {
  for (const [n, census] of (known.record.sheet.census ?? []).entries()) {
    const at: TreePath = ['census', n]
    const found = partClassOf(census.of)
    if (!found) known.say([...at, 'of'], `unknown class "${census.of}"`, didYouMean(census.of, allClassNames()))
    else if (!CLASS_NAMES.includes(census.of))
      known.say([...at, 'of'], `"${census.of}" is another word for ${found.class}`, `write ${found.class}`)
    if (census.across && census.across.length !== 2)
      known.say([...at, 'across'], 'two nets are expected here', 'write across: [dc-plus, dc-minus]')
    for (const [m, net] of (census.across ?? []).entries()) netRef(known, net, itemPlace(known, [...at, 'across'], m))
    if (census.in !== undefined) partRef(known, census.in, [...at, 'in'])
  }
}
