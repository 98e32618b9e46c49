/**
 * Coefficients of published coolant property formulas. Numbers only; the formulas stand in coolant-fluid-*.ts.
 */

/**
 * Liquid water at 0.1 MPa. IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa;
 * J. Pátek, J. Hrubý, J. Klomfar, M. Součková, A. H. Harvey, J. Phys. Chem. Ref. Data 38 (2009) 21-29.
 */
export const WATER_GAS_CONSTANT = 461.51805 // specific [J/(kg.K)]

/** Terms a_i α^n_i of the Gibbs energy, α = 10 K/(593 K − T). */
export const WATER_HOT_TERMS = {
  specificHeat: [
    // i = 1 … 3: [a, n]
    [-166147.0539, 4],
    [2708781.64, 5],
    [-155719154.4, 7],
  ],
  volumeConstant: 0.0193763157,
  volume: [
    // i = 6 … 10: [a, n]
    [6744.58446, 4],
    [-222521.604, 5],
    [100231247.0, 7],
    [-1635521180.0, 8],
    [8322996580.0, 9],
  ],
} as const

/** Terms b_i β^m_i, β = 10 K/(T − 232 K). */
export const WATER_COLD_TERMS = {
  specificHeatConstant: -8.983025854,
  specificHeat: [
    // i = 1 … 4: [b, m]
    [-0.8237426256, 2],
    [1.908956353, 3],
    [-2.017597384, 4],
    [0.8546361348, 5],
  ],
  volume: [
    // i = 5 … 10: [b, m]
    [0.00578545292, 1],
    [-0.0153195665, 2],
    [0.0311337859, 3],
    [-0.0423546241, 4],
    [0.0338713507, 5],
    [-0.0119946761, 6],
  ],
} as const

/** Viscosity [µPa.s] = Σ a (T/300 K)^b: [a, b]. */
export const WATER_VISCOSITY_TERMS = [
  [280.68, -1.9],
  [511.45, -7.7],
  [61.131, -19.6],
  [0.45903, -40],
] as const

/** Thermal conductivity [W/(m.K)] = Σ c (T/300 K)^d: [c, d]. */
export const WATER_CONDUCTIVITY_TERMS = [
  [1.663, -1.15],
  [-1.7781, -3.4],
  [1.1567, -6.0],
  [-0.432115, -7.6],
] as const

/**
 * Viscosity of water from density and temperature: IAPWS R12-08(2008), Release on the IAPWS Formulation 2008 for the
 * Viscosity of Ordinary Water Substance, tables 1 and 2. Coefficients recalled from memory; the release's own check
 * values (table 4) are reproduced in the tests, which any wrong digit would break.
 */
export const WATER_DILUTE_VISCOSITY = [1.67752, 2.20462, 0.6366564, -0.241605] as const

/** Residual part: [i, j, H_ij], power of (1/T̄ − 1) and of (ρ̄ − 1). */
export const WATER_RESIDUAL_VISCOSITY = [
  [0, 0, 0.520094],
  [1, 0, 0.0850895],
  [2, 0, -1.08374],
  [3, 0, -0.289555],
  [0, 1, 0.222531],
  [1, 1, 0.999115],
  [2, 1, 1.88797],
  [3, 1, 1.26613],
  [5, 1, 0.120573],
  [0, 2, -0.281378],
  [1, 2, -0.906851],
  [2, 2, -0.772479],
  [3, 2, -0.489837],
  [4, 2, -0.25704],
  [0, 3, 0.161913],
  [1, 3, 0.257399],
  [0, 4, -0.0325372],
  [3, 4, 0.0698452],
  [4, 5, 0.00872102],
  [3, 6, -0.00435673],
  [5, 6, -0.000593264],
] as const

/**
 * Ethylene glycol in water, uninhibited. Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems,
 * International Institute of Refrigeration, 2010: polynomials in (x − base) [% by mass] and (t − base) [°C].
 */
export const GLYCOL_BASE = { massPercent: 30.8462, celsius: 31.728 } as const

/** [power of x, power of t, freezing point °C, density kg/m³, specific heat J/(kg.K), conductivity W/(m.K), ln(viscosity/mPa.s)] */
export const GLYCOL_TERMS = [
  [0, 0, -15.25, 1034, 3737, 0.472, 0.4705],
  [0, 1, -1.566e-6, -0.4781, 2.93, 0.0008903, -0.0255],
  [0, 2, -2.278e-7, -0.002692, -0.004675, -1.058e-6, 0.0001782],
  [0, 3, 2.169e-9, 4.725e-6, -1.389e-5, -2.789e-9, -7.669e-7],
  [1, 0, -0.808, 1.311, -17.99, -0.004286, 0.02471],
  [1, 1, -1.339e-6, -0.006876, 0.1046, -1.473e-5, -0.0001171],
  [1, 2, 2.047e-8, 4.805e-5, -0.0004147, 1.059e-7, 1.052e-6],
  [1, 3, -2.717e-11, 1.69e-8, 1.847e-7, -1.142e-10, -1.634e-8],
  [2, 0, -0.01334, 7.49e-5, -0.09933, 1.747e-5, 3.328e-6],
  [2, 1, 6.322e-8, 7.855e-5, 0.0003516, 6.814e-8, 1.086e-6],
  [2, 2, 2.373e-10, -3.995e-7, 5.109e-6, -3.612e-9, 1.051e-8],
  [2, 3, -2.183e-12, 4.982e-9, -7.138e-8, 2.365e-12, -6.475e-10],
  [3, 0, -7.293e-5, -0.0001062, 0.00261, 3.017e-8, 1.659e-6],
  [3, 1, 1.764e-9, 1.229e-6, -1.189e-6, -2.412e-9, 3.157e-9],
  [3, 2, -2.442e-11, -1.153e-8, -1.643e-7, 4.004e-11, 4.063e-10],
  [4, 0, 1.006e-6, -9.623e-7, 1.537e-5, -1.322e-9, 3.089e-8],
  [4, 1, -7.662e-11, -7.211e-8, -4.272e-7, 2.555e-11, 1.831e-10],
  [5, 0, 1.14e-9, 4.891e-8, -1.618e-6, 2.678e-11, -1.865e-9],
] as const

/**
 * Standard uncertainty of the formulas [1]. Glycol: judged from the spread between two published tables of one author
 * (viscosity −3.8 … +0.2 %, specific heat −0.84 … +0.51 %, density −0.13 … −0.03 %) and from inhibitor content.
 * Water: about what its release states, from memory. Air: judged, mostly for being taken as an ideal gas.
 */
export const FLUID_UNCERTAINTY = {
  water: { density: 0.0001, specificHeat: 0.001, viscosity: 0.01, thermalConductivity: 0.01 },
  'ethylene-glycol-water': { density: 0.003, specificHeat: 0.006, viscosity: 0.03, thermalConductivity: 0.01 },
  air: { density: 0.001, specificHeat: 0.002, viscosity: 0.01, thermalConductivity: 0.02 },
} as const
