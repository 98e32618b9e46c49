import { coolantTree, ductPassage, splitFlow } from './coolant-network.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

export type ParallelTubesInputs = {
  diameters: readonly number[]
  lengths: readonly number[]
  roughnesses?: readonly number[]
  minorLosses?: readonly number[]
  feedDiameter?: number
  feedLength?: number
  feedMinorLoss?: number
  feedRoughness?: number
  flow: number
  density: number
  viscosity: number
}

export type ParallelTubes = {
  readonly flows: readonly number[]
  readonly shares: readonly number[]
  readonly branchDrop: number
  readonly feedDrop: number
  readonly pressureDrop: number
}

/**
 * How a flow divides among circular tubes in parallel, with a common feed tube before them if one is given: every branch
 * has one pressure drop, friction by one curve for all regimes, loss factors on the velocity in each tube.
 *
 * @param diameters   and lengths of the branches [m], lists of one length
 * @param roughnesses of the branches [m] and their minorLosses [1]; 0 if left out
 * @param feedDiameter and feedLength [m] of the common tube; both or neither
 * @throws {DomainError} on lists of unequal length or half a feed tube, and as {@link splitFlow}
 *
 * @example parallelTubes({ diameters: [8e-3, 8e-3], lengths: [0.3, 0.3], flow: 1e-4, density: 1000, viscosity: 1e-3 }).shares // [0.5, 0.5]
 */
export function parallelTubes(inputs: ParallelTubesInputs): ParallelTubes {
  const { diameters, lengths, feedDiameter, feedLength, flow, density, viscosity } = inputs
  requirePositive('parallelTubes', 'flow', flow)
  const { roughnesses = diameters.map(() => 0), minorLosses = diameters.map(() => 0) } = inputs
  for (const [name, list] of Object.entries({ lengths, roughnesses, minorLosses })) {
    if (list.length !== diameters.length)
      throw new DomainError('parallelTubes', name, list.length, `${diameters.length} numbers`)
  }
  if ((feedDiameter === undefined) !== (feedLength === undefined)) {
    throw new DomainError('parallelTubes', 'feedLength', feedLength, 'given together with feedDiameter')
  }
  const fluid = { density, viscosity, shape: 'circular' } as const
  const branches = diameters.map((diameter, i) =>
    ductPassage({
      id: `${i}`,
      ...fluid,
      diameter,
      length: lengths[i]!,
      roughness: roughnesses[i]!,
      minorLoss: minorLosses[i]!,
    }),
  )
  const feed =
    feedDiameter === undefined || feedLength === undefined
      ? []
      : [
          ductPassage({
            id: 'feed',
            ...fluid,
            diameter: feedDiameter,
            length: feedLength,
            minorLoss: inputs.feedMinorLoss ?? 0,
            roughness: inputs.feedRoughness ?? 0,
          }),
        ]
  const split = splitFlow({ tree: coolantTree([...feed, branches]), flow })
  const flows = branches.map(({ id }) => split.flows[id]!)
  const feedDrop = split.drops.feed ?? 0
  return {
    flows,
    shares: flows.map((one) => one / flow),
    branchDrop: split.pressureDrop - feedDrop,
    feedDrop,
    pressureDrop: split.pressureDrop,
  }
}

export const parallelTubesMethod = defineMethod<ParallelTubesInputs, ParallelTubes>({
  id: 'parallel-tubes',
  title: 'Split of a coolant flow among tubes in parallel',
  takes: {
    diameters: { unit: 'm', list: true, about: 'inner diameter of each branch' },
    lengths: { unit: 'm', list: true, about: 'length of each branch' },
    roughnesses: { unit: 'm', list: true, optional: true, about: 'sand roughness of each branch; 0 if left out' },
    minorLosses: { unit: '1', list: true, optional: true, about: 'sum of loss factors of each branch; 0 if left out' },
    feedDiameter: { unit: 'm', optional: true, about: 'inner diameter of a common tube before the branches' },
    feedLength: { unit: 'm', optional: true, about: 'length of the common tube' },
    feedMinorLoss: { unit: '1', optional: true, about: 'sum of loss factors of the common tube' },
    feedRoughness: { unit: 'm', optional: true, about: 'sand roughness of the common tube' },
    flow: { unit: 'm3/s', about: 'total volume flow' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
  },
  gives: {
    flows: { unit: 'm3/s', print: 'L/min', about: 'flow in each branch' },
    shares: { unit: '1', print: '%', about: 'share of each branch' },
    branchDrop: { unit: 'Pa', print: 'kPa', about: 'drop across the branches' },
    feedDrop: { unit: 'Pa', print: 'kPa', about: 'drop of the common tube; 0 without one' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'total drop' },
  },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: ['S. W. Churchill, Chem. Eng. 84 (1977) 91-92 (from memory), for friction; one drop across all branches'],
  compute: parallelTubes,
})

export const parallelDuctMethods = [parallelTubesMethod] as const
