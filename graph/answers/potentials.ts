import { eachPiece } from '../build/nets.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { answerOf, type Context, nodeOf } from './context.ts'

/** Potential that the sheet gives a net itself, as one word; none when it only rides on another. */
export function potentialOf({ graph }: Context, net: Path): Found {
  const own = nodeOf(graph, net, 'net')?.potential ?? null
  return answerOf(own === null ? [] : [asPath(own)])
}

const CHASSIS = asPath('nets/chassis')

/** Potential of a net: its own, else that of the net it rides on or is tied to; the chassis is at that of the chassis. */
export function settledPotential(graph: Context['graph'], net: string, seen: readonly string[] = []): string | null {
  const node = nodeOf(graph, net, 'net')
  if (!node || seen.includes(net)) return null
  if (node.potential !== null) return node.potential
  const below = node.rides ?? node.tied
  if (below !== null) return settledPotential(graph, below, [...seen, net])
  return net === CHASSIS ? 'chassis' : null
}

/** The net that a net rides on, or is tied to. */
export function besideOf(context: Context, net: Path, how: 'rides-on' | 'tied-to'): Found {
  const node = nodeOf(context.graph, net, 'net')
  const other = (how === 'rides-on' ? node?.rides : node?.tied) ?? null
  const said = context.record.sheet.nets?.[net.replace('nets/', '')]?.[how]
  return answerOf(other === null ? [] : [other], said ? [said.evidence] : [])
}

/** Voltages that the sheet states between two nets, whichever was typed first. */
export function voltageBetween({ record }: Context, nets: readonly [Path, Path]): Found {
  const wanted = nets.toSorted().join()
  return answerOf(
    (record.sheet.voltages ?? [])
      .filter(
        ({ between }) =>
          between
            .map((net) => `nets/${net}`)
            .toSorted()
            .join() === wanted,
      )
      .map(({ id }) => asPath(`voltages/${id}`)),
  )
}

/** Ports of the specimen that a net belongs to. */
export function portsOn({ record }: Context, net: Path): Found {
  const ports = Object.entries(record.sheet.specimen.ports ?? {})
  return answerOf(
    ports
      .filter(([, { nets }]) => (nets ?? []).some((one) => `nets/${one}` === net))
      .map(([id]) => asPath(`specimen/ports/${id}`)),
  )
}

/** Terminals for which the sheet says why no net is named, as `<piece>/terminals/<name>`. */
export function openTerminals({ record }: Context): Found {
  const paths = eachPiece(record).flatMap(({ piece, part, own }) =>
    Object.entries({ ...part.terminals, ...own?.terminals }).flatMap(([name, { net, nothing }]) =>
      net === undefined && nothing === 'not-looked-for' ? [asPath(`${piece.path}/terminals/${name}`)] : [],
    ),
  )
  return answerOf(paths)
}
