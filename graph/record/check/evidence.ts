import { type Book, placeToPath } from '../book.ts'
import { childOf, isList, isMapping, type TreePath } from '../fault.ts'
import type { Evidence, Tree } from '../record.ts'
import { didYouMean } from '../suggest.ts'
import { itemPlace, type Known } from './known.ts'

/** What a claim or relation names as its evidence: findings, instruments, photos and their regions. */
export function checkEvidence(known: Known, book: Book): void {
  for (const { claim, place, at } of book.mentions) {
    const { with: instrument, photo, restsOn } = claim.evidence
    const where = (): TreePath => [...placeToPath(place), ...at]
    if (instrument !== undefined) checkInstrument(known, instrument, where)
    if (photo !== undefined) checkPhoto(known, photo, where)
    for (const finding of restsOn) checkFinding(known, finding, where)
  }
  checkTerminals(known)
  for (const [id, net] of Object.entries(known.record.sheet.nets ?? {})) {
    for (const key of ['rides-on', 'tied-to'] as const) checkNote(known, net[key]?.evidence, () => ['nets', id, key])
  }
  const { tree } = known.record
  if (!isMapping(tree)) return
  for (const key of Object.keys(tree)) if (key !== 'materials') entries(known, childOf(tree, key), [key])
}

/** Notes behind the nets of terminals: `lv-gnd (judged; rests on split-even)`. */
function checkTerminals(known: Known): void {
  for (const [id, part] of known.parts) {
    const at = known.partPlaces.get(id) ?? ['parts']
    for (const [name, piece] of [['', part] as const, ...Object.entries(part.each ?? {})]) {
      for (const [terminal, { evidence, typed }] of Object.entries(piece.terminals ?? {})) {
        const place =
          name === '' ? at : [...itemPlace(known, [...at, 'each'], Object.keys(part.each ?? {}).indexOf(name))]
        checkNote(known, evidence, () => [
          ...place,
          ...(place.at(-1) === 'each' ? [name] : []),
          'terminals',
          typed ?? terminal,
        ])
      }
    }
  }
}

function checkNote(known: Known, evidence: Evidence | undefined, at: () => TreePath): void {
  if (!evidence) return
  for (const finding of evidence.restsOn) checkFinding(known, finding, at)
  if (evidence.with !== undefined) checkInstrument(known, evidence.with, at)
  if (evidence.photo !== undefined) checkPhoto(known, evidence.photo, at)
}

/** Evidence keys of relations, wherever they stand. Those of claims were looked at with the claims. */
function entries(known: Known, tree: Tree | undefined, at: TreePath): void {
  if (tree === undefined || typeof tree === 'string') return
  if (isList(tree)) {
    for (const [n, one] of tree.entries()) if (typeof one !== 'string') entries(known, one, [...at, n])
    return
  }
  if (!('value' in tree) && !('readings' in tree)) {
    const rests = tree['rests-on']
    for (const one of isList(rests) ? rests : [rests])
      if (typeof one === 'string') checkFinding(known, one, () => [...at, 'rests-on'])
    if (typeof tree.with === 'string') checkInstrument(known, tree.with, () => [...at, 'with'])
    if (typeof tree.photo === 'string') checkPhoto(known, tree.photo, () => [...at, 'photo'])
  }
  for (const key of Object.keys(tree)) {
    const below = tree[key]
    if (key !== 'also' && typeof below === 'object') entries(known, below, [...at, key])
  }
}

function checkFinding(known: Known, text: string, at: () => TreePath): void {
  const findings = known.ids.get('findings') ?? new Set<string>()
  const id = text.replace(/^findings\//, '')
  if (!findings.has(id)) known.say(at(), `it rests on a finding "${id}" that is not there`, didYouMean(id, findings))
}

/** In a sheet that lists instruments each is one of them; in one that lists none the name stands as a remark. */
function checkInstrument(known: Known, name: string, at: () => TreePath): void {
  const instruments = known.ids.get('instruments') ?? new Set<string>()
  if (instruments.has(name)) return
  const what = `no instrument has the id "${name}"`
  if (instruments.size > 0) known.say(at(), what, didYouMean(name, instruments))
  else
    known.warn(
      at(),
      `${what}: it adds nothing to the doubt`,
      `add instruments: { ${name}: { kind: …, uncertainty: ± … } }`,
    )
}

function checkPhoto(known: Known, text: string, at: () => TreePath): void {
  const [name = '', region] = text.replace(/^photos\//, '').split('/')
  const photos = known.record.sheet.photos ?? []
  const photo = photos.find(({ id }) => id === name)
  if (!photo) {
    const what = `no photo has the id "${name}"`
    if (photos.length > 0)
      known.say(
        at(),
        what,
        didYouMean(
          name,
          photos.map(({ id }) => id),
        ),
      )
    else known.warn(at(), what, 'list it under photos:')
  } else if (region !== undefined && !photo.regions?.some(({ id }) => id === region)) {
    known.say(
      at(),
      `photo "${name}" has no region "${region}"`,
      didYouMean(region, photo.regions?.map(({ id }) => id) ?? []),
    )
  }
}
