import { describe, expect, it } from 'vitest'
import { boilingPoint } from '../../../queries/physics/boiling.ts'
import { DomainError } from '../../../queries/physics/method.ts'

// Saturation of water, steam tables (IAPWS-IF97 values, from memory): kPa at °C.
const steam = [
  { pressure: 70.18, celsius: 90 },
  { pressure: 101.325, celsius: 99.974 },
  { pressure: 143.38, celsius: 110 },
  { pressure: 198.67, celsius: 120 },
  { pressure: 361.5, celsius: 140 },
]

describe('boilingPoint', () => {
  it.each(steam)('of water at $pressure kPa is $celsius °C within 0.3 K', ({ pressure, celsius }) => {
    expect(Math.abs(boilingPoint({ pressure: pressure * 1e3 }) - 273.15 - celsius)).toBeLessThan(0.3)
  })

  // Ethylene glycol in water at 101.3 kPa, handbook (from memory, makers of antifreeze agree within 2 K).
  it.each([
    { share: 0.3, celsius: 104 },
    { share: 0.5, celsius: 107 },
    { share: 0.6, celsius: 111 },
  ])('of $share glycol by mass is near $celsius °C', ({ share, celsius }) => {
    const found = boilingPoint({ pressure: 101_325, glycolMassFraction: share }) - 273.15
    expect(Math.abs(found - celsius)).toBeLessThan(2)
  })

  it('rises with pressure and with glycol', () => {
    expect(boilingPoint({ pressure: 2e5 })).toBeGreaterThan(boilingPoint({ pressure: 1e5 }))
    expect(boilingPoint({ pressure: 1e5, glycolMassFraction: 0.5 })).toBeGreaterThan(boilingPoint({ pressure: 1e5 }))
  })

  it('refuses no pressure and pure glycol', () => {
    expect(() => boilingPoint({ pressure: 0 })).toThrow(DomainError)
    expect(() => boilingPoint({ pressure: 1e5, glycolMassFraction: 1 })).toThrow(DomainError)
  })
})
