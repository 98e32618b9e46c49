/** What a value usually is in the trade, and what it can be at all, both ends included; SI. */
export interface Range {
  readonly usual: readonly [number, number]
  readonly possible: readonly [number, number]
}

const range = (usual: readonly [number, number], possible: readonly [number, number]): Range => ({ usual, possible })

const CAPACITOR_VOLTAGE = range([4, 2000], [1, 50_000])
const BOARD = {
  'size/length': range([8e-3, 0.6], [2e-3, 1.5]),
  'size/width': range([8e-3, 0.5], [2e-3, 1]),
  'size/height': range([0.4e-3, 4e-3], [0.05e-3, 10e-3]),
}
const SWITCH = {
  'blocking-voltage': range([20, 6500], [5, 20_000]),
  'on-resistance': range([0.2e-3, 1], [0.05e-3, 20]),
  'threshold-voltage': range([0.3, 2.5], [0.05, 6]),
  'slope-resistance': range([0.2e-3, 0.1], [0.02e-3, 5]),
  'turn-on-energy': range([1e-7, 0.2], [1e-9, 5]),
  'turn-off-energy': range([1e-7, 0.2], [1e-9, 5]),
  'recovery-energy': range([1e-8, 0.1], [1e-10, 2]),
  'gate-charge': range([1e-9, 2e-5], [1e-10, 2e-4]),
}
const MODULE = {
  ...SWITCH,
  inductance: range([1e-9, 60e-9], [0.1e-9, 2e-6]),
  'size/length': range([10e-3, 0.3], [3e-3, 1]),
  'size/width': range([10e-3, 0.2], [2e-3, 1]),
  'size/height': range([2e-3, 60e-3], [0.5e-3, 0.2]),
  mass: range([3e-3, 3], [0.2e-3, 20]),
}
const BAR = {
  'run/width': range([2e-3, 0.2], [0.2e-3, 1]),
  'run/thickness': range([0.1e-3, 15e-3], [0.01e-3, 0.1]),
  'plate/size/height': range([0.1e-3, 10e-3], [0.01e-3, 0.1]),
  'beside/gap': range([0.02e-3, 30e-3], [0, 0.5]),
}
const RING = {
  inductance: range([20e-9, 10e-3], [1e-10, 10]),
  permeability: range([5, 2e5], [1, 1e6]),
  'saturation-flux-density': range([0.2, 2.2], [0.05, 2.5]),
  'over-case/outer-diameter': range([5e-3, 0.25], [1e-3, 1]),
}
const RESISTOR = {
  resistance: range([0.05, 2e7], [1e-5, 1e12]),
}

/**
 * Usual and possible ranges by class or group and property. Ranges are common practice of the trade and wide on purpose:
 * what lies outside of the usual is asked about, what cannot be is an error. They serve to catch slips, not to judge.
 */
export const RANGES: Readonly<Record<string, Readonly<Record<string, Range>>>> = {
  'dc-link-film-capacitor': {
    capacitance: range([1e-6, 5e-3], [1e-9, 1]),
    'rated-voltage': CAPACITOR_VOLTAGE,
    inductance: range([2e-9, 120e-9], [0.1e-9, 10e-6]),
    resistance: range([0.1e-3, 30e-3], [0.01e-3, 10]),
    'ripple-current': range([0.5, 500], [0.01, 5000]),
    mass: range([2e-3, 6], [0.1e-3, 50]),
  },
  'electrolytic-capacitor': {
    capacitance: range([0.1e-6, 0.1], [1e-9, 10]),
    'rated-voltage': range([4, 600], [1, 1000]),
    mass: range([0.1e-3, 1], [0.01e-3, 10]),
  },
  'x-capacitor': { capacitance: range([1e-9, 20e-6], [10e-12, 1e-3]), 'rated-voltage': CAPACITOR_VOLTAGE },
  'y-capacitor': { capacitance: range([50e-12, 1e-6], [1e-12, 100e-6]), 'rated-voltage': CAPACITOR_VOLTAGE },
  'ceramic-capacitor': { capacitance: range([1e-12, 1e-3], [0.01e-12, 0.1]), 'rated-voltage': CAPACITOR_VOLTAGE },
  'half-bridge-module': MODULE,
  'multi-bridge-module': MODULE,
  'discrete-power-device': {
    ...SWITCH,
    inductance: range([0.3e-9, 40e-9], [0.05e-9, 1e-6]),
    'size/length': range([2e-3, 45e-3], [0.5e-3, 0.2]),
    mass: range([0.02e-3, 60e-3], [0.001e-3, 2]),
  },
  'power-die': {
    ...SWITCH,
    'size/length': range([0.8e-3, 20e-3], [0.2e-3, 160e-3]),
    'size/width': range([0.8e-3, 20e-3], [0.2e-3, 160e-3]),
    'size/height': range([40e-6, 600e-6], [10e-6, 2e-3]),
  },
  'ceramic-substrate': { thickness: range([0.2e-3, 2e-3], [0.05e-3, 10e-3]) },
  'bus-bar': BAR,
  'phase-bar': BAR,
  'laminated-bus-bar': BAR,
  'one-turn-core': RING,
  'common-mode-choke': RING,
  'bleed-resistor': { resistance: range([10, 5e6], [0.1, 1e9]) },
  'gate-resistor': { resistance: range([0.1, 300], [0.01, 1e5]) },
  resistor: RESISTOR,
  'thermal-grease': {
    thickness: range([5e-6, 0.5e-3], [1e-6, 5e-3]),
    conductivity: range([0.4, 8], [0.05, 80]),
  },
  'thermal-pad': { thickness: range([0.1e-3, 8e-3], [0.02e-3, 50e-3]), conductivity: range([0.5, 15], [0.05, 100]) },
  'gap-filler': { thickness: range([0.1e-3, 8e-3], [0.02e-3, 50e-3]), conductivity: range([0.5, 12], [0.05, 100]) },
  'insulating-sheet': {
    thickness: range([20e-6, 3e-3], [5e-6, 20e-3]),
    conductivity: range([0.1, 10], [0.02, 400]),
  },
  'control-board': BOARD,
  'gate-driver-board': BOARD,
  'filter-board': BOARD,
  'supply-board': BOARD,
  'isolated-gate-driver': { isolation: range([500, 20_000], [50, 100_000]) },
  'current-sensor': { range: range([0.5, 3000], [0.01, 1e5]) },
}

/** The same for what stands once in a sheet. */
export const PLAIN_RANGES: Readonly<Record<string, Range>> = {
  'specimen/mass': range([0.1, 400], [5e-3, 1e5]),
  'specimen/dc-voltage/min': range([5, 1500], [0.5, 10_000]),
  'specimen/dc-voltage/nominal': range([9, 1500], [1, 10_000]),
  'specimen/dc-voltage/max': range([10, 1500], [1, 10_000]),
  'specimen/envelope/length': range([0.04, 2], [5e-3, 20]),
  'specimen/envelope/width': range([0.03, 1.5], [5e-3, 20]),
  'specimen/envelope/height': range([0.01, 1], [2e-3, 20]),
  'operating-points/peak/power': range([50, 1e6], [0.1, 1e8]),
  'operating-points/continuous/power': range([50, 1e6], [0.1, 1e8]),
  'operating-points/peak/phase-current': range([1, 3000], [0.01, 1e5]),
  'operating-points/continuous/phase-current': range([1, 3000], [0.01, 1e5]),
  'operating-points/peak/modulation-index': range([0.05, 1.16], [0, 4 / Math.PI]),
  'operating-points/continuous/modulation-index': range([0.05, 1.16], [0, 4 / Math.PI]),
  'operating-points/peak/switching-frequency': range([500, 2e6], [50, 1e9]),
  'operating-points/continuous/switching-frequency': range([500, 2e6], [50, 1e9]),
}
