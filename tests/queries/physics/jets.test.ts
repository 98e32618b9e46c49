import fc from 'fast-check'
import { expect, it } from 'vitest'
import { jetArray, jetArrayMethod, singleJetNusselt } from '../../../queries/physics/jets.ts'
import { DomainError, outOfRange } from '../../../queries/physics/method.ts'

const water = { density: 998, viscosity: 1e-3, specificHeat: 4184, thermalConductivity: 0.6 }

// H. Martin's array is one jet over the disc of its share of the wall, D/r = 2√f, with 0.5 Re^⅔ in place of
// 2 Re^½ (1 + 0.005 Re^0.55)^½: the array must lie 10 to 30 % below the single jet, and meet it in shape exactly.
it('is the single jet over its share of the wall, less what neighbours cost', () => {
  for (const reynolds of [2000, 1e4, 1e5]) {
    for (const pitch of [5e-3, 8e-3, 12e-3]) {
      const flow = (25 * (Math.PI / 4) * 1e-6 * reynolds * 1e-3) / (998 * 1e-3)
      const found = jetArray({ nozzleDiameter: 1e-3, standOff: 3e-3, pitch, jetCount: 25, flow, ...water })
      const relativeRadius = 1 / (2 * Math.sqrt(found.relativeOpenArea))
      const single = singleJetNusselt({
        reynolds: found.reynolds,
        prandtl: (4184 * 1e-3) / 0.6,
        relativeStandOff: 3,
        relativeRadius,
      })
      expect(found.nusselt / single).toBeLessThan(0.95)
      expect(found.nusselt / single).toBeGreaterThan(0.7)
    }
  }
})

it('cools more with more flow, and says when it leaves the range of the data', () => {
  const at = (flow: number) =>
    jetArray({ nozzleDiameter: 1e-3, standOff: 3e-3, pitch: 5e-3, jetCount: 25, flow, ...water })
  fc.assert(
    fc.property(
      fc.double({ min: 1e-5, max: 1e-3, noNaN: true }),
      (flow) => at(1.1 * flow).filmCoefficient > at(flow).filmCoefficient,
    ),
  )
  expect(outOfRange(jetArrayMethod.valid, { ...at(1e-5) })).toEqual(['reynolds'])
})

it('drops (ρ/2)(u/C_d)² in the nozzles', () => {
  const found = jetArray({
    nozzleDiameter: 1e-3,
    standOff: 3e-3,
    pitch: 5e-3,
    jetCount: 1,
    flow: (Math.PI / 4) * 1e-6,
    ...water,
    dischargeCoefficient: 1,
  })
  expect(found.pressureDrop).toBeCloseTo(499, 9)
})

it('refuses crowded nozzles and a disc under the nozzle', () => {
  expect(() =>
    jetArray({ nozzleDiameter: 1e-3, standOff: 3e-3, pitch: 1.5e-3, jetCount: 1, flow: 1e-6, ...water }),
  ).toThrow(DomainError)
  expect(() => singleJetNusselt({ reynolds: 1e4, prandtl: 1, relativeStandOff: 4, relativeRadius: 1 })).toThrow(
    DomainError,
  )
})
