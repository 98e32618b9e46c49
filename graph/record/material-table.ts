/** A property of a material: SI value and the half-width that covers its usual grades and temperatures [1]. */
export type Spread = readonly [value: number, relative: number]

export interface Material {
  readonly title: string
  /** [kg/m³] */
  readonly density?: Spread
  /** Thermal, near 50 °C [W/(m·K)]. */
  readonly conductivity?: Spread
  /** [J/(kg·K)] */
  readonly 'specific-heat'?: Spread
  /** Electric, at 20 °C [Ω·m]. */
  readonly resistivity?: Spread
  /** Of the resistivity, at 20 °C [1/K]. */
  readonly 'temperature-coefficient'?: Spread
  /** Relative [1]. */
  readonly permittivity?: Spread
}

/** Where the values come from; said with each. */
export const MATERIAL_SOURCE =
  'handbook values, from memory: CRC Handbook of Chemistry and Physics; Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, appendix A; spread by grade is common practice'

/** Materials by the words used in sheets. A sheet that knows better states its own under `materials:`. */
export const MATERIALS: Readonly<Record<string, Material>> = {
  copper: {
    title: 'Copper, electrolytic',
    density: [8940, 0.005],
    conductivity: [393, 0.03],
    'specific-heat': [387, 0.02],
    resistivity: [1.724e-8, 0.02],
    'temperature-coefficient': [3.93e-3, 0.02],
  },
  brass: {
    title: 'Brass',
    density: [8500, 0.02],
    conductivity: [115, 0.15],
    'specific-heat': [380, 0.03],
    resistivity: [6.6e-8, 0.15],
    'temperature-coefficient': [1.6e-3, 0.3],
  },
  bronze: { title: 'Tin bronze', density: [8800, 0.02], conductivity: [65, 0.25], 'specific-heat': [377, 0.04] },
  aluminium: {
    title: 'Aluminium, pure',
    density: [2700, 0.005],
    conductivity: [235, 0.03],
    'specific-heat': [900, 0.02],
    resistivity: [2.7e-8, 0.04],
    'temperature-coefficient': [4.0e-3, 0.05],
  },
  'aluminium-cast': {
    title: 'Aluminium, die-cast alloy',
    density: [2700, 0.02],
    conductivity: [120, 0.3],
    'specific-heat': [900, 0.04],
  },
  'aluminium-wrought': {
    title: 'Aluminium, wrought alloy',
    density: [2710, 0.02],
    conductivity: [170, 0.2],
    'specific-heat': [897, 0.03],
  },
  'aluminium-extruded': {
    title: 'Aluminium, extruded profile',
    density: [2700, 0.01],
    conductivity: [205, 0.08],
    'specific-heat': [900, 0.03],
  },
  'aluminium-sheet': {
    title: 'Aluminium, sheet',
    density: [2700, 0.02],
    conductivity: [160, 0.3],
    'specific-heat': [900, 0.03],
  },
  steel: { title: 'Steel, plain', density: [7850, 0.01], conductivity: [50, 0.2], 'specific-heat': [470, 0.05] },
  'steel-sheet': {
    title: 'Steel, sheet',
    density: [7850, 0.01],
    conductivity: [52, 0.2],
    'specific-heat': [470, 0.05],
  },
  'stainless-steel': {
    title: 'Stainless steel, austenitic',
    density: [7950, 0.01],
    conductivity: [15.5, 0.1],
    'specific-heat': [490, 0.05],
  },
  'silicon-steel': {
    title: 'Silicon steel, laminated',
    density: [7650, 0.01],
    conductivity: [25, 0.3],
    'specific-heat': [470, 0.05],
  },
  silicon: { title: 'Silicon die', density: [2330, 0.005], conductivity: [120, 0.2], 'specific-heat': [735, 0.05] },
  'silicon-carbide': {
    title: 'Silicon carbide die',
    density: [3210, 0.01],
    conductivity: [300, 0.25],
    'specific-heat': [720, 0.08],
  },
  'gallium-nitride': {
    title: 'Gallium nitride on silicon',
    density: [2500, 0.1],
    conductivity: [120, 0.3],
    'specific-heat': [700, 0.1],
  },
  alumina: {
    title: 'Aluminium oxide ceramic, 96 %',
    density: [3780, 0.02],
    conductivity: [24, 0.12],
    'specific-heat': [880, 0.08],
    permittivity: [9.6, 0.05],
  },
  'zirconia-toughened-alumina': {
    title: 'Alumina with zirconia',
    density: [4000, 0.03],
    conductivity: [26, 0.1],
    'specific-heat': [780, 0.08],
    permittivity: [10.5, 0.1],
  },
  'aluminium-nitride': {
    title: 'Aluminium nitride ceramic',
    density: [3300, 0.02],
    conductivity: [170, 0.12],
    'specific-heat': [750, 0.06],
    permittivity: [8.8, 0.05],
  },
  'silicon-nitride': {
    title: 'Silicon nitride ceramic',
    density: [3220, 0.03],
    conductivity: [80, 0.2],
    'specific-heat': [690, 0.06],
    permittivity: [8.1, 0.08],
  },
  solder: {
    title: 'Lead-free tin solder',
    density: [7400, 0.02],
    conductivity: [57, 0.1],
    'specific-heat': [230, 0.05],
  },
  'tin-silver-solder': {
    title: 'Tin-silver solder',
    density: [7400, 0.02],
    conductivity: [60, 0.1],
    'specific-heat': [225, 0.05],
  },
  'sintered-silver': {
    title: 'Sintered silver',
    density: [8600, 0.1],
    conductivity: [200, 0.35],
    'specific-heat': [235, 0.05],
  },
  'glass-epoxy': {
    title: 'Glass-fibre epoxy laminate, through the board',
    density: [1850, 0.04],
    conductivity: [0.3, 0.25],
    'specific-heat': [1100, 0.15],
    permittivity: [4.4, 0.08],
  },
  'epoxy-moulding': {
    title: 'Epoxy moulding compound',
    density: [1900, 0.08],
    conductivity: [0.8, 0.3],
    'specific-heat': [1000, 0.15],
    permittivity: [4, 0.15],
  },
  'epoxy-filled': {
    title: 'Epoxy resin, filled',
    density: [1700, 0.15],
    conductivity: [0.8, 0.4],
    'specific-heat': [1100, 0.15],
    permittivity: [4, 0.2],
  },
  'silicone-filled': {
    title: 'Silicone, filled',
    density: [1700, 0.2],
    conductivity: [1, 0.5],
    'specific-heat': [1200, 0.2],
  },
  'silicone-gel': {
    title: 'Silicone gel',
    density: [970, 0.03],
    conductivity: [0.17, 0.15],
    'specific-heat': [1500, 0.1],
    permittivity: [2.7, 0.08],
  },
  'silicone-rubber': {
    title: 'Silicone rubber',
    density: [1200, 0.1],
    conductivity: [0.25, 0.25],
    'specific-heat': [1300, 0.15],
  },
  'polyurethane-potting': {
    title: 'Polyurethane resin, filled',
    density: [1450, 0.12],
    conductivity: [0.6, 0.35],
    'specific-heat': [1400, 0.15],
  },
  'polyimide-film': {
    title: 'Polyimide film',
    density: [1420, 0.02],
    conductivity: [0.15, 0.3],
    'specific-heat': [1090, 0.05],
    permittivity: [3.4, 0.05],
  },
  'polyester-film': {
    title: 'Polyester film',
    density: [1390, 0.02],
    conductivity: [0.17, 0.3],
    'specific-heat': [1170, 0.08],
    permittivity: [3.2, 0.06],
  },
  'polypropylene-film': {
    title: 'Polypropylene film',
    density: [905, 0.02],
    conductivity: [0.18, 0.25],
    'specific-heat': [1800, 0.08],
    permittivity: [2.2, 0.03],
  },
  'aramid-paper': {
    title: 'Aramid paper',
    density: [950, 0.15],
    conductivity: [0.13, 0.25],
    'specific-heat': [1300, 0.1],
    permittivity: [2.7, 0.2],
  },
  fluoropolymer: {
    title: 'Fluoropolymer',
    density: [2170, 0.03],
    conductivity: [0.25, 0.2],
    'specific-heat': [1000, 0.1],
    permittivity: [2.1, 0.04],
  },
  polyamide: {
    title: 'Polyamide, glass-filled',
    density: [1370, 0.05],
    conductivity: [0.3, 0.3],
    'specific-heat': [1500, 0.15],
    permittivity: [4, 0.15],
  },
  'PBT-GF30': {
    title: 'Polybutylene terephthalate, 30 % glass',
    density: [1530, 0.02],
    conductivity: [0.27, 0.25],
    'specific-heat': [1250, 0.15],
    permittivity: [3.8, 0.1],
  },
  'PA66-GF30': {
    title: 'Polyamide 66, 30 % glass',
    density: [1370, 0.02],
    conductivity: [0.3, 0.25],
    'specific-heat': [1500, 0.15],
    permittivity: [4, 0.15],
  },
  PPS: {
    title: 'Polyphenylene sulfide, 40 % glass',
    density: [1650, 0.03],
    conductivity: [0.3, 0.25],
    'specific-heat': [1100, 0.15],
    permittivity: [4, 0.1],
  },
  EPDM: {
    title: 'Ethylene-propylene rubber',
    density: [1150, 0.1],
    conductivity: [0.25, 0.25],
    'specific-heat': [2000, 0.15],
  },
  'manganese-zinc-ferrite': {
    title: 'Manganese-zinc ferrite',
    density: [4850, 0.03],
    conductivity: [4, 0.25],
    'specific-heat': [750, 0.1],
  },
  'nickel-zinc-ferrite': {
    title: 'Nickel-zinc ferrite',
    density: [5100, 0.05],
    conductivity: [4, 0.3],
    'specific-heat': [710, 0.1],
  },
  ferrite: {
    title: 'Manganese-zinc ferrite',
    density: [4850, 0.03],
    conductivity: [4, 0.25],
    'specific-heat': [750, 0.1],
  },
  nanocrystalline: {
    title: 'Tape-wound nanocrystalline core, the metal',
    density: [7300, 0.02],
    conductivity: [10, 0.4],
    'specific-heat': [500, 0.1],
  },
  'iron-powder': {
    title: 'Iron-powder core',
    density: [6300, 0.15],
    conductivity: [10, 0.6],
    'specific-heat': [460, 0.1],
  },
  graphite: {
    title: 'Graphite sheet, through its thickness',
    density: [1500, 0.3],
    conductivity: [6, 0.5],
    'specific-heat': [710, 0.1],
  },
}

/** SI dimension of each property of the table. */
export const MATERIAL_DIMENSIONS = {
  density: 'density',
  conductivity: 'thermal-conductivity',
  'specific-heat': 'specific-heat',
  resistivity: 'resistivity',
  'temperature-coefficient': 'temperature-coefficient',
  permittivity: 'one',
} as const satisfies Readonly<Record<Exclude<keyof Material, 'title'>, string>>
