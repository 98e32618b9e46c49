import { defineMethod, requirePositive } from './method.ts'
import { ETA0, FIELD_SOURCE, LINE_GIVES, requireTrace, TRACE_TAKES } from './microstrip.ts'
import { fieldLine, LIGHT, type Line, lineOf } from './strip-field.ts'
import { betweenPlanes, mirrored } from './strip-kernel.ts'
import { stripPieces } from './strip-mesh.ts'

export type StriplineInputs = {
  traceWidth: number
  planeSpacing: number
  permittivity: number
  traceThickness?: number
  heightAbovePlane?: number
}

/** Arithmetic-geometric mean, which gives the complete elliptic integral K(k) = π/(2 M(1, k′)). */
function agm(a: number, b: number): number {
  let [x, y] = [a, b]
  while (Math.abs(x - y) > 1e-15 * x) [x, y] = [(x + y) / 2, Math.sqrt(x * y)]
  return x
}

/** Ratio K(k)/K(k′) from both moduli, so that neither loses its small end. */
export const ellipticRatio = (k: number, complement: number): number => agm(1, k) / agm(1, complement)

/**
 * Trace between two planes in one dielectric. Centred and without thickness: exact, by conformal map,
 * Z = (η₀/4√ε_r) K(k)/K(k′), k = sech(πw/2b). Else by field solution of the rectangular section. Without loss.
 *
 * @param traceWidth       [m], > 0
 * @param planeSpacing     plane to plane [m], above trace height and thickness
 * @param permittivity     relative [1], ≥ 1
 * @param traceThickness   [m], ≥ 0; 0 if left out
 * @param heightAbovePlane underside of the trace above the lower plane [m]; centred if left out
 * @returns impedance [Ω], effective permittivity [1], inductance [H/m], capacitance [F/m], delay [s/m]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example stripline({ traceWidth: 0.2e-3, planeSpacing: 0.4e-3, permittivity: 4.3 }).impedance // 48.433
 */
export function stripline(inputs: StriplineInputs): Line {
  const { traceWidth, planeSpacing, permittivity, traceThickness = 0 } = inputs
  const bottom = inputs.heightAbovePlane ?? (planeSpacing - traceThickness) / 2
  requireTrace('stripline', { traceWidth, planeSpacing, traceThickness, heightAbovePlane: bottom }, permittivity)
  requirePositive('stripline', 'planeSpacing less trace', planeSpacing - bottom - traceThickness)
  if (traceThickness === 0 && Math.abs(bottom - planeSpacing / 2) < 1e-9 * planeSpacing) {
    const angle = (Math.PI * traceWidth) / (2 * planeSpacing)
    const inAir = 4 / (ETA0 * LIGHT * ellipticRatio(1 / Math.cosh(angle), Math.tanh(angle)))
    return lineOf(permittivity * inAir, inAir)
  }
  const fill = {
    filled: mirrored(betweenPlanes({ height: planeSpacing, permittivity }), 1),
    air: mirrored(betweenPlanes({ height: planeSpacing, permittivity: 1 }), 1),
  }
  const strip = { left: -traceWidth / 2, right: traceWidth / 2, bottom, thickness: traceThickness, conductor: 0 }
  const half = (count: number) => stripPieces(strip, count).filter(({ x }) => x > 0)
  return fieldLine((count) => ({ pieces: half(count), fill, potentials: [1] }), 0.5)
}

export const striplineMethod = defineMethod<StriplineInputs, Line>({
  id: 'stripline',
  title: 'Trace between two planes',
  takes: {
    ...TRACE_TAKES,
    planeSpacing: { unit: 'm', about: 'plane to plane' },
    heightAbovePlane: { unit: 'm', optional: true, about: 'underside above the lower plane; centred if left out' },
  },
  gives: LINE_GIVES,
  valid: { permittivity: [1, 20] },
  sources: [
    'S. B. Cohn, IRE Trans. MTT-2 (1954): exact for a centred strip without thickness (from memory)',
    FIELD_SOURCE,
  ],
  compute: stripline,
})

export const striplineMethods = [striplineMethod] as const
