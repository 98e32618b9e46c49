/**
 * Tables of distances. Voltages in volts, distances in millimetres as the standards print them; insulation.ts turns them
 * into metres.
 */

export const TABLE_SOURCES = {
  creepage:
    'IEC 60664-1 Ed. 2 (2007) Table F.4, Table F.5 in Ed. 3 (2020, numbering from memory); from memory, confirmed to ' +
    '2000 V by a printed catalogue excerpt of EN 60664-1 Table F.4; above from memory',
  clearance: 'IEC 60664-1 Ed. 2 (2007) Table F.2, cases A and B; from memory',
  impulse: 'IEC 60664-1 Ed. 2 (2007) Table F.1; from memory',
  altitude: 'IEC 60664-1 Ed. 2 (2007) Table A.2; from memory, agreeing with 80 kPa over the pressure of the air',
  board: 'IPC-2221B (2012) Table 6-1; from memory',
} as const

/** RMS voltage; PD1; PD2 I, II, III; PD3 I, II, III; then printed wiring PD1, PD2 (not group IIIb), to 1000 V. */
export const CREEPAGE: readonly (readonly number[])[] = [
  [10, 0.08, 0.4, 0.4, 0.4, 1, 1, 1, 0.025, 0.04],
  [12.5, 0.09, 0.42, 0.42, 0.42, 1.05, 1.05, 1.05, 0.025, 0.04],
  [16, 0.1, 0.45, 0.45, 0.45, 1.1, 1.1, 1.1, 0.025, 0.04],
  [20, 0.11, 0.48, 0.48, 0.48, 1.2, 1.2, 1.2, 0.025, 0.04],
  [25, 0.125, 0.5, 0.5, 0.5, 1.25, 1.25, 1.25, 0.025, 0.04],
  [32, 0.14, 0.53, 0.53, 0.53, 1.3, 1.3, 1.3, 0.025, 0.04],
  [40, 0.16, 0.56, 0.8, 1.1, 1.4, 1.6, 1.8, 0.025, 0.04],
  [50, 0.18, 0.6, 0.85, 1.2, 1.5, 1.7, 1.9, 0.025, 0.04],
  [63, 0.2, 0.63, 0.9, 1.25, 1.6, 1.8, 2, 0.04, 0.063],
  [80, 0.22, 0.67, 0.95, 1.3, 1.7, 1.9, 2.1, 0.063, 0.1],
  [100, 0.25, 0.71, 1, 1.4, 1.8, 2, 2.2, 0.1, 0.16],
  [125, 0.28, 0.75, 1.05, 1.5, 1.9, 2.1, 2.4, 0.16, 0.25],
  [160, 0.32, 0.8, 1.1, 1.6, 2, 2.2, 2.5, 0.25, 0.4],
  [200, 0.42, 1, 1.4, 2, 2.5, 2.8, 3.2, 0.4, 0.63],
  [250, 0.56, 1.25, 1.8, 2.5, 3.2, 3.6, 4, 0.56, 1],
  [320, 0.75, 1.6, 2.2, 3.2, 4, 4.5, 5, 0.75, 1.6],
  [400, 1, 2, 2.8, 4, 5, 5.6, 6.3, 1, 2],
  [500, 1.3, 2.5, 3.6, 5, 6.3, 7.1, 8, 1.3, 2.5],
  [630, 1.8, 3.2, 4.5, 6.3, 8, 9, 10, 1.8, 3.2],
  [800, 2.4, 4, 5.6, 8, 10, 11, 12.5, 2.4, 4],
  [1000, 3.2, 5, 7.1, 10, 12.5, 14, 16, 3.2, 5],
  [1250, 4.2, 6.3, 9, 12.5, 16, 18, 20],
  [1600, 5.6, 8, 11, 16, 20, 22, 25],
  [2000, 7.5, 10, 14, 20, 25, 28, 32],
  [2500, 10, 12.5, 18, 25, 32, 36, 40],
  [3200, 12.5, 16, 22, 32, 40, 45, 50],
  [4000, 16, 20, 28, 40, 50, 56, 63],
  [5000, 20, 25, 36, 50, 63, 71, 80],
  [6300, 25, 32, 45, 63, 80, 90, 100],
  [8000, 32, 40, 56, 80, 100, 110, 125],
  [10_000, 40, 50, 71, 100, 125, 140, 160],
]

/** Impulse withstand voltage; clearance in an inhomogeneous field (case A) and a homogeneous one (case B), to 2000 m. */
export const CLEARANCE: readonly (readonly [impulse: number, caseA: number, caseB: number])[] = [
  [330, 0.01, 0.01],
  [400, 0.02, 0.02],
  [500, 0.04, 0.04],
  [600, 0.06, 0.06],
  [800, 0.1, 0.1],
  [1000, 0.15, 0.15],
  [1200, 0.25, 0.2],
  [1500, 0.5, 0.3],
  [2000, 1, 0.45],
  [2500, 1.5, 0.6],
  [3000, 2, 0.8],
  [4000, 3, 1.2],
  [5000, 4, 1.5],
  [6000, 5.5, 2],
  [8000, 8, 3],
  [10_000, 11, 3.5],
  [12_000, 14, 4.5],
  [15_000, 18, 5.5],
  [20_000, 25, 8],
  [25_000, 33, 10],
  [30_000, 40, 12.5],
  [40_000, 60, 17],
  [50_000, 75, 22],
  [60_000, 90, 27],
  [80_000, 130, 35],
  [100_000, 170, 45],
]

/** Least clearance by pollution degree, whatever the voltage. */
export const CLEARANCE_FLOOR = { 1: 0, 2: 0.2, 3: 0.8, 4: 1.6 } as const

/** Preferred rated impulse withstand voltages: reinforced insulation takes the next one up. */
export const PREFERRED_IMPULSE: readonly number[] = [330, 500, 800, 1500, 2500, 4000, 6000, 8000, 12_000]

/** Voltage line to neutral, AC or DC, up to; rated impulse voltage of overvoltage categories I to IV. */
export const RATED_IMPULSE: readonly (readonly [number, number, number, number, number])[] = [
  [50, 330, 500, 800, 1500],
  [100, 500, 800, 1500, 2500],
  [150, 800, 1500, 2500, 4000],
  [300, 1500, 2500, 4000, 6000],
  [600, 2500, 4000, 6000, 8000],
  [1000, 4000, 6000, 8000, 12_000],
]

/** Altitude in metres; factor on clearances. */
export const ALTITUDE: readonly (readonly [altitude: number, factor: number])[] = [
  [2000, 1],
  [3000, 1.14],
  [4000, 1.29],
  [5000, 1.48],
  [6000, 1.7],
  [7000, 1.95],
  [8000, 2.25],
  [9000, 2.62],
  [10_000, 3.02],
  [15_000, 6.67],
  [20_000, 14.5],
]

export const BOARD_COLUMNS = ['B1', 'B2', 'B3', 'B4', 'A5', 'A6', 'A7'] as const
export type BoardColumn = (typeof BOARD_COLUMNS)[number]

/** Peak or DC voltage up to; spacing in the order of BOARD_COLUMNS. */
export const BOARD_SPACING: readonly (readonly number[])[] = [
  [15, 0.05, 0.1, 0.1, 0.05, 0.13, 0.13, 0.13],
  [30, 0.05, 0.1, 0.1, 0.05, 0.13, 0.25, 0.13],
  [50, 0.1, 0.6, 0.6, 0.13, 0.13, 0.4, 0.13],
  [100, 0.1, 0.6, 1.5, 0.13, 0.13, 0.5, 0.13],
  [150, 0.2, 0.6, 3.2, 0.4, 0.4, 0.8, 0.4],
  [170, 0.2, 1.25, 3.2, 0.4, 0.4, 0.8, 0.4],
  [250, 0.2, 1.25, 6.4, 0.4, 0.4, 0.8, 0.4],
  [300, 0.2, 1.25, 12.5, 0.4, 0.4, 0.8, 0.8],
  [500, 0.25, 2.5, 12.5, 0.8, 0.8, 1.5, 0.8],
]

/** Millimetres per volt above 500 V, in the order of BOARD_COLUMNS. */
export const BOARD_SLOPES: readonly number[] = [0.0025, 0.005, 0.025, 0.00305, 0.00305, 0.00305, 0.00305]
