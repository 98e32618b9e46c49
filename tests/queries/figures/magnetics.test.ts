import { describe, expect, it } from 'vitest'
import { drive, figure } from '../../fixtures/drive.ts'

// Published case ring-core-40x25x15: effective length 98.43733 mm, 7.050054 µH for one turn at a permeability of 5000.
const RING =
  'magnetic: { outer-diameter: 40 mm (measured), inner-diameter: 25 mm (measured), height: 15 mm (measured) }'
const core = (rest: string, body = RING) => `  - { id: ring, class: one-turn-core, ${body}, ${rest} }`
const Y =
  '  - { id: y, class: y-capacitor, capacitance: 10 nF (measured), each: { p: { terminals: { 1: dc-plus, 2: chassis } }, n: { terminals: { 1: dc-minus, 2: chassis } } } }'
const at = (parts: string, metric: string) => figure(drive({ parts }), metric, 'parts/ring')

describe('common-mode core', () => {
  it('inductance from permeability and dimensions', () => {
    expect(at(core('permeability: 5000 (measured)'), 'CM_INDUCTANCE').atTaken).toBeCloseTo(7.050054, 5)
  })

  it('inductance of several turns from the factor of one', () => {
    // 7 µH · 4²: the factor is per turn squared
    const session = drive({
      parts: '  - { id: ring, class: common-mode-choke, turns: 4, inductance-factor: 7 µH (measured) }',
    })
    expect(figure(session, 'CM_INDUCTANCE', 'parts/ring').atTaken).toBeCloseTo(112, 9)
  })

  it('permeability from a measured inductance is the way back', () => {
    const result = at(core('inductance: 7.050054 µH (measured)'), 'CORE_PERMEABILITY')
    expect(result.atTaken).toBeCloseTo(5000, 1)
  })

  it('says which families of material the facts leave possible', () => {
    const told = (rest: string) => at(core(rest), 'CORE_PERMEABILITY').warnings.join()
    // π/4 · (40² − 25²) · 15 mm³ = 11.49 cm³; 70 g: 6.1 g/cm³, too heavy for a ferrite; 60 is too little for a tape.
    expect(told('permeability: 60 (measured), mass: 70 g (measured)')).toContain('leave possible: powder')
    expect(told('permeability: 60000 (measured)')).toContain('leave possible: nanocrystalline')
    // Snoek: no ferrite of 5000 keeps half of it to 20 MHz, and no tape either.
    expect(told('permeability: 5000 (measured), cut-off-frequency: 20 MHz (measured)')).toContain(
      'none, check the facts',
    )
    // A cased core is weighed with its case: its mass tells nothing.
    const cased = `${RING}, over-case: { outer-diameter: 44 mm (measured), inner-diameter: 22 mm (measured), height: 18 mm (measured) }`
    expect(
      at(core('permeability: 5000 (measured), mass: 90 g (measured)', cased), 'CORE_PERMEABILITY').warnings.join(),
    ).toContain('manganese-zinc, nanocrystalline')
  })

  it('saturation by the effective path', () => {
    // B l_e/(µ₀ µ) = 0.4 T · 98.43733 mm/(4π·10⁻⁷ · 5000) = 6.2667 A
    const result = at(
      core('permeability: 5000 (measured), saturation-flux-density: 0.4 T (measured)'),
      'CM_SATURATION_CURRENT',
    )
    expect(result.atTaken).toBeCloseTo(6.2667, 3)
    expect(result.warnings.join()).toContain('inner rim at 5 A') // published: onset 5.000 A
  })

  it('corner with the Y capacitors of both rails', () => {
    // 1/(2π √(7.050054 µH · 20 nF)) = 423 848 Hz
    const result = at(`${core('permeability: 5000 (measured)')}\n${Y}`, 'CM_CORNER_FREQUENCY')
    expect(result.atTaken).toBeCloseTo(1 / (2 * Math.PI * Math.sqrt(7.050054e-6 * 20e-9)), 0)
  })

  it('two cores in series halve the square of the corner', () => {
    const one = at(`${core('permeability: 5000 (measured)')}\n${Y}`, 'CM_CORNER_FREQUENCY').atTaken!
    const two = at(`${core('count: 2, permeability: 5000 (measured)')}\n${Y}`, 'CM_CORNER_FREQUENCY').atTaken!
    expect(one / two).toBeCloseTo(Math.SQRT2, 9)
  })

  it('over the case it comes out high, and says so', () => {
    const over = RING.replace('magnetic', 'over-case')
    expect(at(core('permeability: 5000 (measured)', over), 'CM_INDUCTANCE').warnings.join()).toContain('over the case')
  })

  it('does not apply where a census found none', () => {
    const rest = 'census:\n  - { of: one-turn-core, found: none, basis: measured }'
    expect(drive({ rest }).evaluateAll(['CM_INDUCTANCE'])).toEqual([])
  })
})

describe('gapped core of a current sensor', () => {
  const sensor = '  - { id: sensor, class: current-sensor, range: 200 A peak (published) }'

  it('flux at full scale with core and gap', () => {
    // Published case gapped-core: 120 mm², 100 mm with a gap of 1 mm, permeability 2300, 200 A: 0.2409558 T
    const parts = `${sensor}\n  - { id: ring, class: sensor-core, gap: 1 mm (measured), section: 120 mm² (measured), effective-length: 100 mm (measured), permeability: 2300 (measured) }`
    expect(at(parts, 'SENSOR_CORE_FLUX').atTaken! / 240.9558).toBeCloseTo(1, 3)
  })

  it('from the gap alone it is the highest possible: µ₀ I/g', () => {
    // 4π·10⁻⁷ · 200 A/1 mm = 251.33 mT
    const parts = `${sensor}\n  - { id: ring, class: sensor-core, gap: 1 mm (measured), section: 120 mm² (measured) }`
    expect(at(parts, 'SENSOR_CORE_FLUX').atTaken! / 251.327).toBeCloseTo(1, 4)
  })
})
