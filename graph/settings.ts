/** Categorical conditions. A numeric one (coolant inlet, phase current …) is an edit of the recorded operating point. */
export interface Settings {
  readonly power: 'PEAK' | 'CONTINUOUS'
  readonly volume: 'ENVELOPE' | 'HULL' | 'DISPLACED' | 'PARTS'
  readonly voltage: 'NOMINAL' | 'MAX' | 'RATED'
  readonly counts: 'BUILT' | 'FOUND'
  /** Id of a boundary of the sheet; `whole` is the specimen itself. */
  readonly boundary: string
}

export const DEFAULT_SETTINGS: Settings = {
  power: 'PEAK',
  volume: 'ENVELOPE',
  voltage: 'MAX',
  counts: 'BUILT',
  boundary: 'whole',
}
