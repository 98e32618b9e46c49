import { DomainError, requireNonNegative, requirePositive } from './method.ts'

/** A plate layer of the plate's footprint, from the source side on. */
export type PlateLayer = {
  readonly thickness: number
  readonly thermalConductivity: number
  /** Contact resistance times area after the layer [m².K/W]; none if left out. */
  readonly contactResistivity?: number
}

/** Rectangle on the plate; the centre is measured from a corner. */
export type PlatePatch = { readonly x: number; readonly y: number; readonly centreX: number; readonly centreY: number }

export type Plate = {
  readonly plateX: number
  readonly plateY: number
  readonly layers: readonly PlateLayer[]
  /** To the coolant on the far face [W/(m².K)]. */
  readonly filmCoefficient: number
}

/** Resistance by even flow through the whole plate, Σ t/(λ A) + 1/(h A) [K/W]. */
export function plateResistance({ plateX, plateY, layers, filmCoefficient }: Plate): number {
  const area = plateX * plateY
  const through = layers.reduce(
    (sum, layer) => sum + layer.thickness / layer.thermalConductivity + (layer.contactResistivity ?? 0),
    0,
  )
  return (through + 1 / filmCoefficient) / area
}

/**
 * Transfer resistance from a source to a patch on a plate of any number of layers, convection on the far face, edges
 * adiabatic, by Fourier cosines:
 *
 *     R = R_1D + Σ_(m,n)≠0 ε_m ε_n Z(λ_mn)/(a b) · S_mn · T_mn
 *
 * S and T are the means of cos(mπx/a) cos(nπy/b) over source and patch, ε 2 for a cosine that varies and 1 else, and
 * Z(λ) the surface impedance: 1/h, then through each layer Z ← (Z + tanh(λt)/(kλ))/(1 + Z kλ tanh(λt)), plus contact.
 * Swapping source and patch leaves R unchanged (reciprocity). A patch without size is a point.
 *
 * A source of a third of the plate needs 200 terms for its mean to be good to 1e-5 (the error falls as 1/N²), and 600
 * for its centre; smaller sources need more in proportion.
 *
 * @param plate  the plate
 * @param source rectangle of even flux, on the plate
 * @param patch  where the temperature is wanted; the source itself (mean over it) if left out
 * @param terms  cosines in each direction; by the rule above if left out, at most 3000
 * @returns mean rise over the patch per watt of the source [K/W]
 * @throws {DomainError} on a size, conductivity or film coefficient of zero or less, or a rectangle off the plate
 *
 * @example plateTransfer({ plate: { plateX: 0.03, plateY: 0.03, layers: [{ thickness: 3e-3, thermalConductivity: 390 }],
 *   filmCoefficient: 5000 }, source: { x: 0.01, y: 0.01, centreX: 0.015, centreY: 0.015 } }) // 0.33336
 */
export function plateTransfer(inputs: {
  plate: Plate
  source: PlatePatch
  patch?: PlatePatch
  terms?: number
}): number {
  const { plate, source, patch = source } = inputs
  checkPlate(plate)
  checkPatch('source', source, plate, false)
  checkPatch('patch', patch, plate, true)
  const isPoint = patch.x === 0 || patch.y === 0
  const terms = (size: number, whole: number) =>
    inputs.terms ?? Math.min(Math.ceil(((isPoint ? 200 : 66) * whole) / size), 3000)
  const alongX = weights({
    terms: terms(source.x, plate.plateX),
    plate: plate.plateX,
    source: [source.x, source.centreX],
    patch: [patch.x, patch.centreX],
  })
  const alongY = weights({
    terms: terms(source.y, plate.plateY),
    plate: plate.plateY,
    source: [source.y, source.centreY],
    patch: [patch.y, patch.centreY],
  })
  let sum = 0
  for (let m = 0; m < alongX.length; m++) {
    const wx = alongX[m]!
    if (wx === 0) continue
    const kx = (m * Math.PI) / plate.plateX
    for (let n = m === 0 ? 1 : 0; n < alongY.length; n++) {
      const w = wx * alongY[n]!
      if (w === 0) continue
      sum += w * surfaceImpedance(plate, Math.hypot(kx, (n * Math.PI) / plate.plateY))
    }
  }
  return plateResistance(plate) + sum / (plate.plateX * plate.plateY)
}

/**
 * Transfer resistances between all of several rectangles on one plate, n × n by rows [K/W]: {@link plateTransfer} of
 * every pair, with the surface impedance of each pair of cosines found once for all.
 *
 * @param plate   the plate
 * @param patches rectangles on the plate: each a source of even flux, and a place whose mean rise is wanted
 * @param terms   cosines in each direction
 * @throws {DomainError} as {@link plateTransfer}
 */
export function plateTransfers(inputs: { plate: Plate; patches: readonly PlatePatch[]; terms: number }): Float64Array {
  const { plate, patches, terms } = inputs
  checkPlate(plate)
  for (const patch of patches) checkPatch('patch', patch, plate, false)
  const { plateX, plateY } = plate
  const alongX = patches.map(({ x, centreX }) => cosines(terms, plateX, [x, centreX]))
  const alongY = patches.map(({ y, centreY }) => cosines(terms, plateY, [y, centreY]))
  const n = patches.length
  const sums = new Float64Array(n * n)
  const modes = new Float64Array(n)
  for (let p = 0; p <= terms; p++) {
    for (let q = p === 0 ? 1 : 0; q <= terms; q++) {
      for (let i = 0; i < n; i++) modes[i] = alongX[i]![p]! * alongY[i]![q]!
      const lambda = Math.hypot((p * Math.PI) / plateX, (q * Math.PI) / plateY)
      const weight = (p === 0 ? 1 : 2) * (q === 0 ? 1 : 2) * surfaceImpedance(plate, lambda)
      for (let i = 0; i < n; i++) {
        const own = weight * modes[i]!
        if (own !== 0) for (let j = 0; j <= i; j++) sums[i * n + j]! += own * modes[j]!
      }
    }
  }
  const even = plateResistance(plate)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      sums[i * n + j] = even + sums[i * n + j]! / (plateX * plateY)
      sums[j * n + i] = sums[i * n + j]!
    }
  }
  return sums
}

/** Means of cos(mπx/a) over a line, for each m from 0. */
function cosines(terms: number, plate: number, line: Line): Float64Array {
  return Float64Array.from({ length: terms + 1 }, (_, m) =>
    m === 0 ? 1 : meanCosine((m * Math.PI) / plate, plate, line),
  )
}

type Line = readonly [size: number, centre: number]

/** ε times the means of cos(mπx/a) over source and patch, for each m. */
function weights(inputs: { terms: number; plate: number; source: Line; patch: Line }): Float64Array {
  const { terms, plate, source, patch } = inputs
  const result = new Float64Array(terms + 1)
  result[0] = 1
  for (let m = 1; m <= terms; m++) {
    const k = (m * Math.PI) / plate
    const product = 2 * meanCosine(k, plate, source) * meanCosine(k, plate, patch)
    // Modes that a symmetric place cancels come out as rounding, which would only cost time.
    result[m] = Math.abs(product) < 1e-15 ? 0 : product
  }
  return result
}

/** Mean of cos(kx) over a line; exactly 0 when it covers the whole plate, cos itself at a point. */
function meanCosine(k: number, plate: number, [size, centre]: Line): number {
  if (size >= plate) return 0
  const half = (k * size) / 2
  return Math.cos(k * centre) * (half < 1e-6 ? 1 - half ** 2 / 6 : Math.sin(half) / half)
}

/** Beyond this, tanh is 1 in every digit of a double. */
const DEEP = 20

/** Surface impedance of the plate for a cosine of wave number λ [m².K/W]. */
function surfaceImpedance({ layers, filmCoefficient }: Plate, lambda: number): number {
  // A cosine has died away in a layer many wave lengths thick: what lies below no longer matters.
  const top = layers[0]!
  if (lambda * top.thickness > DEEP) return 1 / (top.thermalConductivity * lambda)
  let z = 1 / filmCoefficient
  for (let i = layers.length - 1; i >= 0; i--) {
    const { thickness, thermalConductivity, contactResistivity } = layers[i]!
    if (contactResistivity !== undefined) z += contactResistivity
    const kl = thermalConductivity * lambda
    const t = lambda * thickness > DEEP ? 1 : Math.tanh(lambda * thickness)
    z = (z + t / kl) / (1 + z * kl * t)
  }
  return z
}

function checkPlate({ plateX, plateY, layers, filmCoefficient }: Plate): void {
  requirePositive('plateTransfer', 'plateX', plateX)
  requirePositive('plateTransfer', 'plateY', plateY)
  requirePositive('plateTransfer', 'filmCoefficient', filmCoefficient)
  if (layers.length === 0) throw new DomainError('plateTransfer', 'layers', '[]', 'at least one layer')
  for (const layer of layers) {
    requirePositive('plateTransfer', 'thickness', layer.thickness)
    requirePositive('plateTransfer', 'thermalConductivity', layer.thermalConductivity)
    requireNonNegative('plateTransfer', 'contactResistivity', layer.contactResistivity ?? 0)
  }
}

function checkPatch(name: string, { x, y, centreX, centreY }: PlatePatch, plate: Plate, pointToo: boolean): void {
  const check = pointToo ? requireNonNegative : requirePositive
  check('plateTransfer', `${name}.x`, x)
  check('plateTransfer', `${name}.y`, y)
  const fits = (size: number, centre: number, whole: number) =>
    centre - size / 2 >= -1e-9 * whole && centre + size / 2 <= whole * (1 + 1e-9)
  if (!fits(x, centreX, plate.plateX) || !fits(y, centreY, plate.plateY)) {
    throw new DomainError('plateTransfer', name, `${x} × ${y} m at ${centreX}, ${centreY}`, 'within the plate')
  }
}
