import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type ORingInputs = {
  cordDiameter: number
  grooveDepth: number
  grooveWidth: number
  gap?: number
  ringDiameter?: number
  grooveInnerDiameter?: number
}

export type ORing = {
  /** Cord diameter less the height left for it, over cord diameter. */
  readonly squeeze: number
  /** Section of the cord over that of the groove closed by the cover. */
  readonly fill: number
  /** Growth of the inner diameter; absent unless both diameters are given. */
  readonly stretch?: number
  readonly stretchedCord: number
}

/**
 * O-ring in a rectangular groove under a flat cover: squeeze (d − h)/d with h = depth + gap, fill (π/4)d²/(w h), stretch
 * of the inner diameter. A stretched cord keeps its volume, so its diameter falls by 1/√(1 + stretch); squeeze and fill
 * use the stretched cord.
 *
 * @param cordDiameter        of the free ring [m], > 0
 * @param grooveDepth         and grooveWidth [m], > 0
 * @param gap                 between the faces outside of the groove [m], 0 if left out
 * @param ringDiameter        inner diameter of the free ring [m], with grooveInnerDiameter [m] it sits on: both or neither
 * @throws {DomainError} on a size of zero or less, a negative gap, or one of the two diameters alone
 *
 * @example oRing({ cordDiameter: 2.41e-3, grooveDepth: 1.82e-3, grooveWidth: 3.2e-3 }).squeeze // 0.2448
 */
export function oRing(inputs: ORingInputs): ORing {
  const { cordDiameter, grooveDepth, grooveWidth, gap = 0, ringDiameter, grooveInnerDiameter } = inputs
  requirePositive('oRing', 'cordDiameter', cordDiameter)
  requirePositive('oRing', 'grooveDepth', grooveDepth)
  requirePositive('oRing', 'grooveWidth', grooveWidth)
  requireNonNegative('oRing', 'gap', gap)
  const stretch = ringStretch(ringDiameter, grooveInnerDiameter)
  const stretchedCord = cordDiameter / Math.sqrt(1 + Math.max(stretch ?? 0, 0))
  const height = grooveDepth + gap
  return {
    squeeze: (stretchedCord - height) / stretchedCord,
    fill: ((Math.PI / 4) * stretchedCord ** 2) / (grooveWidth * height),
    stretchedCord,
    ...(stretch === undefined ? {} : { stretch }),
  }
}

function ringStretch(ring: number | undefined, groove: number | undefined): number | undefined {
  if (ring === undefined && groove === undefined) return undefined
  if (ring === undefined || groove === undefined) {
    throw new DomainError('oRing', 'grooveInnerDiameter', groove, 'given together with ringDiameter')
  }
  requirePositive('oRing', 'ringDiameter', ring)
  requirePositive('oRing', 'grooveInnerDiameter', groove)
  return groove / ring - 1
}

export const oRingMethod = defineMethod<ORingInputs, ORing>({
  id: 'o-ring-groove',
  title: 'Squeeze, fill and stretch of an O-ring in a groove',
  takes: {
    cordDiameter: { unit: 'm', about: 'cord diameter of the free ring' },
    grooveDepth: { unit: 'm', about: 'depth of the groove' },
    grooveWidth: { unit: 'm', about: 'width of the groove' },
    gap: { unit: 'm', optional: true, about: 'gap between the faces; 0 if left out' },
    ringDiameter: { unit: 'm', optional: true, about: 'inner diameter of the free ring' },
    grooveInnerDiameter: { unit: 'm', optional: true, about: 'diameter that the ring sits on' },
  },
  gives: {
    squeeze: {
      unit: '1',
      print: '%',
      about: 'usual for a static face seal: 15 to 30 %; negative means it does not touch',
    },
    fill: { unit: '1', print: '%', about: 'at most about 85 %, so that swelling rubber has room' },
    stretch: { unit: '1', print: '%', about: 'usual at most 5 %; negative means it is compressed' },
    stretchedCord: { unit: 'm', print: 'mm', about: 'cord diameter when stretched' },
  },
  valid: { squeeze: [0.08, 0.35], fill: [0.5, 0.9], stretch: [-0.01, 0.06] },
  caution: 'A leaking coolant joint beside live parts can kill: prove the circuit tight before anything is energised.',
  sources: ['geometry; customary limits: common practice, as in ISO 3601-2 (from memory)'],
  compute: oRing,
})

export const oRingMethods = [oRingMethod] as const
