import { DomainError, defineMethod, requirePositive } from './method.ts'
import { MU0, type RingInputs, ringDimensions } from './ring-core.ts'

const SATURATION_CAUTION =
  'Saturation lets a common-mode core vanish for the filter: its currents then find other ways.'

export type RingFluxInputs = RingInputs & {
  permeability: number
  current: number
  saturationFluxDensity: number
  turns?: number
}

export type RingFlux = {
  readonly meanFluxDensity: number
  readonly innerFluxDensity: number
  readonly outerFluxDensity: number
  readonly saturationCurrent: number
  readonly onsetCurrent: number
  readonly fullCurrent: number
}

/**
 * Flux density of a closed ring under a net current, µ₀ µ_r N I/l: on the effective path, at the inner rim (highest) and
 * at the outer rim (lowest); and the net current at which each reaches saturation. The permeability is taken as
 * constant up to there. Net current is the sum through the hole: go and return through it cancel.
 *
 * @param permeability          relative [1], ≥ 1
 * @param current               net, peak [A]
 * @param saturationFluxDensity at the core's temperature [T], > 0
 * @param turns                 > 0; 1 if left out
 * @returns flux densities [T]; saturation current by the effective path, onset at the inner rim, whole section [A]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example ringFlux({ outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3, permeability: 5000, current: 2,
 *   saturationFluxDensity: 0.4 }).onsetCurrent // 5.000
 */
export function ringFlux(inputs: RingFluxInputs): RingFlux {
  const { permeability, current, saturationFluxDensity, turns = 1, ...ring } = inputs
  if (!(permeability >= 1)) throw new DomainError('ringFlux', 'permeability', permeability, '≥ 1')
  if (!Number.isFinite(current)) throw new DomainError('ringFlux', 'current', current, 'a finite number')
  requirePositive('ringFlux', 'saturationFluxDensity', saturationFluxDensity)
  requirePositive('ringFlux', 'turns', turns)
  const { effectiveLength } = ringDimensions(ring)
  const paths = [effectiveLength, Math.PI * ring.innerDiameter, Math.PI * ring.outerDiameter] as const
  const density = (path: number): number => (MU0 * permeability * turns * current) / path
  const saturates = (path: number): number => (saturationFluxDensity * path) / (MU0 * permeability * turns)
  return {
    meanFluxDensity: density(paths[0]),
    innerFluxDensity: density(paths[1]),
    outerFluxDensity: density(paths[2]),
    saturationCurrent: saturates(paths[0]),
    onsetCurrent: saturates(paths[1]),
    fullCurrent: saturates(paths[2]),
  }
}

export const ringFluxMethod = defineMethod<RingFluxInputs, RingFlux>({
  id: 'ring-flux',
  title: 'Flux density and saturation current of a closed ring core',
  takes: {
    outerDiameter: { unit: 'm', about: 'of the bare core' },
    innerDiameter: { unit: 'm', about: 'of the bare core' },
    height: { unit: 'm', about: 'of the bare core, along its axis' },
    stackingFactor: { unit: '1', optional: true, about: 'share of metal in a tape-wound core; 1 if left out' },
    permeability: { unit: '1', about: 'relative' },
    current: { unit: 'A', about: 'net current through the hole, peak' },
    saturationFluxDensity: { unit: 'T', about: 'at the temperature of the core' },
    turns: { unit: '1', optional: true, about: '1 if left out' },
  },
  gives: {
    meanFluxDensity: { unit: 'T', print: 'T', about: 'on the effective path' },
    innerFluxDensity: { unit: 'T', print: 'T', about: 'at the inner rim' },
    outerFluxDensity: { unit: 'T', print: 'T', about: 'at the outer rim' },
    saturationCurrent: { unit: 'A', print: 'A', about: 'net current that saturates the effective path' },
    onsetCurrent: { unit: 'A', print: 'A', about: 'net current at which the inner rim saturates' },
    fullCurrent: { unit: 'A', print: 'A', about: 'net current at which the whole section is saturated' },
  },
  caution: SATURATION_CAUTION,
  sources: ["Ampère's law on circles round the hole; IEC 60205 for the effective path (from memory)"],
  compute: ringFlux,
})

export type GappedCoreInputs = {
  area: number
  pathLength: number
  gap: number
  permeability: number
  turns?: number
  current?: number
}

export type GappedCore = {
  readonly inductance: number
  readonly fluxDensity: number
  readonly effectivePermeability: number
  readonly sensitivity: number
}

/**
 * Core with an air gap, as round a sensor: L = µ₀ N² A/((l − g)/µ_r + g), B = µ₀ N I/((l − g)/µ_r + g). The magnetic
 * path includes the gap. Fringing is not in it: the true inductance is higher, the more so the wider the gap beside the
 * section, and the field at a sensor in the middle of the gap hardly differs.
 *
 * @param area         of the section [m²], > 0
 * @param pathLength   whole length of the path, gap included [m], > gap
 * @param gap          sum of all gaps in the path [m], ≥ 0
 * @param permeability relative, of the core [1], ≥ 1
 * @param turns        > 0; 1 if left out
 * @param current      [A]; 0 if left out
 * @returns inductance [H], flux density [T], permeability of an ungapped ring that behaves alike [1], flux density per
 *   current [T/A]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example gappedCore({ area: 120e-6, pathLength: 0.1, gap: 1e-3, permeability: 2300, current: 200 }).fluxDensity // 0.24096
 */
export function gappedCore(inputs: GappedCoreInputs): GappedCore {
  const { area, pathLength, gap, permeability, turns = 1, current = 0 } = inputs
  for (const [name, value] of Object.entries({ area, pathLength, turns })) requirePositive('gappedCore', name, value)
  if (!(gap >= 0 && gap < pathLength)) throw new DomainError('gappedCore', 'gap', gap, '0 … below pathLength')
  if (!(permeability >= 1)) throw new DomainError('gappedCore', 'permeability', permeability, '≥ 1')
  const airLength = (pathLength - gap) / permeability + gap
  const sensitivity = (MU0 * turns) / airLength
  return {
    inductance: (MU0 * turns ** 2 * area) / airLength,
    fluxDensity: sensitivity * current,
    effectivePermeability: pathLength / airLength,
    sensitivity,
  }
}

export const gappedCoreMethod = defineMethod<GappedCoreInputs, GappedCore & { readonly gapShare: number }>({
  id: 'gapped-core',
  title: 'Inductance and flux density of a core with an air gap',
  takes: {
    area: { unit: 'm2', about: 'of the section' },
    pathLength: { unit: 'm', about: 'whole magnetic path, gap included' },
    gap: { unit: 'm', about: 'sum of all gaps in the path' },
    permeability: { unit: '1', about: 'relative, of the core material' },
    turns: { unit: '1', optional: true, about: '1 if left out' },
    current: { unit: 'A', optional: true, about: 'net; 0 if left out' },
  },
  gives: {
    inductance: { unit: 'H', print: 'uH', about: 'without fringing: a lower bound' },
    fluxDensity: { unit: 'T', print: 'mT', about: 'in core and gap' },
    effectivePermeability: { unit: '1', print: '1', about: 'of an ungapped core that behaves alike' },
    sensitivity: { unit: 'T/A', print: 'mT/A', about: 'flux density per current' },
    gapShare: { unit: '1', print: '1', about: 'gap over the side of a square of that section' },
  },
  // Without fringing: at a tenth of the side the true inductance is some 20 % higher (common practice).
  valid: { gapShare: [0, 0.1] },
  caution: SATURATION_CAUTION,
  sources: ['reluctances in series (textbook), no fringing'],
  compute: (inputs) => ({ ...gappedCore(inputs), gapShare: inputs.gap / Math.sqrt(inputs.area) }),
})

export const ringFluxMethods = [ringFluxMethod, gappedCoreMethod] as const
