import { defineMethod, requirePositive } from './method.ts'
import { FIELD_SOURCE, requireTrace, TRACE_TAKES } from './microstrip.ts'
import { fieldLine, type Line } from './strip-field.ts'
import { betweenPlanes, groundedSlab, type Kernel, mirrored } from './strip-kernel.ts'
import { stripPieces } from './strip-mesh.ts'

export type CoupledLines = {
  readonly odd: number
  readonly even: number
  readonly differential: number
  readonly common: number
  readonly coupling: number
  readonly oddPermittivity: number
  readonly evenPermittivity: number
}

type Pair = { traceWidth: number; traceGap: number; traceThickness: number; bottom: number }

/** Two equal traces side by side: one is solved for, its twin carries the same charge or the opposite. */
function pairLines(pair: Pair, kernel: (permittivity: number) => Kernel, permittivity: number): CoupledLines {
  const { traceWidth, traceGap, traceThickness: thickness, bottom } = pair
  const strip = { left: traceGap / 2, right: traceGap / 2 + traceWidth, bottom, thickness, conductor: 0 }
  const mode = (sign: 1 | -1): Line => {
    const fill = { filled: mirrored(kernel(permittivity), sign), air: mirrored(kernel(1), sign) }
    return fieldLine((count) => ({ pieces: stripPieces(strip, count), fill, potentials: [1] }))
  }
  const [odd, even] = [mode(-1), mode(1)]
  return {
    odd: odd.impedance,
    even: even.impedance,
    differential: 2 * odd.impedance,
    common: even.impedance / 2,
    coupling: (even.impedance - odd.impedance) / (even.impedance + odd.impedance),
    oddPermittivity: odd.effectivePermittivity,
    evenPermittivity: even.effectivePermittivity,
  }
}

export type CoupledMicrostripInputs = {
  traceWidth: number
  traceGap: number
  heightAbovePlane: number
  permittivity: number
  traceThickness?: number
}

/**
 * Two equal traces side by side over a solid plane, by field solution: odd mode (opposite voltages) and even mode (equal
 * voltages); differential impedance is twice the odd, common-mode impedance half the even. Air above, no solder mask.
 *
 * @param traceWidth       of each [m], > 0
 * @param traceGap         between them, edge to edge [m], > 0
 * @param heightAbovePlane [m], > 0
 * @param permittivity     relative [1], ≥ 1
 * @param traceThickness   [m], ≥ 0; 0 if left out
 * @returns impedances [Ω], coupling [1], effective permittivity of each mode [1]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example coupledMicrostrip({ traceWidth: 0.2e-3, traceGap: 0.2e-3, heightAbovePlane: 0.12e-3, permittivity: 4.3 }).differential // 101.13
 */
export function coupledMicrostrip(inputs: CoupledMicrostripInputs): CoupledLines {
  const { traceWidth, traceGap, heightAbovePlane, permittivity, traceThickness = 0 } = inputs
  requireTrace('coupledMicrostrip', { traceWidth, traceGap, heightAbovePlane, traceThickness }, permittivity)
  const kernel = (filling: number) => groundedSlab({ height: heightAbovePlane, permittivity: filling })
  return pairLines({ traceWidth, traceGap, traceThickness, bottom: heightAbovePlane }, kernel, permittivity)
}

const COUPLED_GIVES = {
  odd: { unit: 'Ohm', print: 'Ohm', about: 'one trace, opposite voltages' },
  even: { unit: 'Ohm', print: 'Ohm', about: 'one trace, equal voltages' },
  differential: { unit: 'Ohm', print: 'Ohm', about: 'between the two, twice the odd' },
  common: { unit: 'Ohm', print: 'Ohm', about: 'both together against the plane, half the even' },
  coupling: { unit: '1', print: '1', about: '(even − odd)/(even + odd)' },
  oddPermittivity: { unit: '1', print: '1', about: 'effective, odd mode' },
  evenPermittivity: { unit: '1', print: '1', about: 'effective, even mode' },
} as const

export const coupledMicrostripMethod = defineMethod<CoupledMicrostripInputs, CoupledLines>({
  id: 'coupled-microstrip',
  title: 'Two equal traces side by side over a solid plane',
  takes: {
    ...TRACE_TAKES,
    traceGap: { unit: 'm', about: 'between the two, edge to edge' },
    heightAbovePlane: { unit: 'm', about: 'underside of the traces to the plane' },
  },
  gives: COUPLED_GIVES,
  valid: { permittivity: [1, 20] },
  sources: [FIELD_SOURCE],
  compute: coupledMicrostrip,
})

export type CoupledStriplineInputs = {
  traceWidth: number
  traceGap: number
  planeSpacing: number
  permittivity: number
  traceThickness?: number
  heightAbovePlane?: number
}

/**
 * Two equal traces side by side between two planes in one dielectric, by field solution: modes as
 * {@link coupledMicrostrip}.
 *
 * @param traceWidth       of each [m], > 0
 * @param traceGap         between them, edge to edge [m], > 0
 * @param planeSpacing     plane to plane [m], above trace height and thickness
 * @param permittivity     relative [1], ≥ 1
 * @param traceThickness   [m], ≥ 0; 0 if left out
 * @param heightAbovePlane underside of the traces above the lower plane [m]; centred if left out
 * @throws {DomainError} on a value out of its bounds
 *
 * @example coupledStripline({ traceWidth: 0.15e-3, traceGap: 0.15e-3, planeSpacing: 0.4e-3, permittivity: 4.3 }).differential // 98.734
 */
export function coupledStripline(inputs: CoupledStriplineInputs): CoupledLines {
  const { traceWidth, traceGap, planeSpacing, permittivity, traceThickness = 0 } = inputs
  const bottom = inputs.heightAbovePlane ?? (planeSpacing - traceThickness) / 2
  const lengths = { traceWidth, traceGap, planeSpacing, traceThickness, heightAbovePlane: bottom }
  requireTrace('coupledStripline', lengths, permittivity)
  requirePositive('coupledStripline', 'planeSpacing less trace', planeSpacing - bottom - traceThickness)
  const kernel = (filling: number) => betweenPlanes({ height: planeSpacing, permittivity: filling })
  return pairLines({ traceWidth, traceGap, traceThickness, bottom }, kernel, permittivity)
}

export const coupledStriplineMethod = defineMethod<CoupledStriplineInputs, CoupledLines>({
  id: 'coupled-stripline',
  title: 'Two equal traces side by side between two planes',
  takes: {
    ...TRACE_TAKES,
    traceGap: { unit: 'm', about: 'between the two, edge to edge' },
    planeSpacing: { unit: 'm', about: 'plane to plane' },
    heightAbovePlane: { unit: 'm', optional: true, about: 'underside above the lower plane; centred if left out' },
  },
  gives: COUPLED_GIVES,
  valid: { permittivity: [1, 20] },
  sources: [FIELD_SOURCE],
  compute: coupledStripline,
})

export const coupledTraceMethods = [coupledMicrostripMethod, coupledStriplineMethod] as const
