/** Heat path between two nodes [W/K]. */
export type ThermalLink = {
  readonly a: string
  readonly b: string
  readonly conductance: number
  /**
   * Between sources on one plate, from the inverse of their rises above the mean of its far face. That mean is warmer than
   * places far off, so that such a conductance may be below zero; together with those to the face they take no heat from
   * nowhere.
   */
  readonly coupled?: boolean
}

/** Something that stays at its temperature whatever flows into it: ambient, a frame, a coolant known elsewhere. */
export type ThermalSink = {
  readonly id: string
  readonly node: string
  /** [K] */
  readonly temperature: number
  readonly conductance: number
}

/**
 * Heat that enters at a node: P = loss (1 + slope (T − reference)) + leak exp((T − leakReference)/leakScale), T the
 * temperature of the node.
 */
export type ThermalSource = {
  readonly node: string
  /** [W] */
  readonly loss: number
  /** Relative change of the loss with temperature [1/K]; needs `reference`. */
  readonly slope?: number
  /** [K] */
  readonly reference?: number
  /** Part that grows exponentially [W at `leakReference`], scale [K]. */
  readonly leak?: number
  readonly leakReference?: number
  readonly leakScale?: number
}

/** What flows into a passage: fresh coolant of a temperature, or what leaves another passage. */
export type PassageFeed =
  | { readonly temperature: number; readonly heatCapacityRate: number }
  | { readonly passage: string; readonly heatCapacityRate: number }

/** Which coolant temperature the nodes of a passage see. */
export type CoolantReference = 'inlet' | 'mean'

/** A stretch of coolant whose temperature rises with the heat that it picks up; feeds mix by heat capacity rate. */
export type ThermalPassage = {
  readonly id: string
  readonly feeds: readonly PassageFeed[]
  readonly cools: readonly { readonly node: string; readonly conductance: number }[]
  /** Heat straight into the coolant [W]; none if left out. */
  readonly heat?: number
}

export type ThermalNetwork = {
  readonly nodes: readonly string[]
  readonly links?: readonly ThermalLink[]
  readonly sinks?: readonly ThermalSink[]
  readonly sources?: readonly ThermalSource[]
  readonly passages?: readonly ThermalPassage[]
  /** 'mean' if left out. */
  readonly coolantReference?: CoolantReference
}

export type PassageState = {
  readonly inlet: number
  readonly outlet: number
  /** What the nodes of the passage see [K]. */
  readonly local: number
  /** Into the coolant [W]. */
  readonly heat: number
  /** From each node of `cools`, in its order [W]; negative where the coolant heats the node. */
  readonly from: readonly number[]
}

/** Where the heat went; what does not add up is in `unaccounted`, relative to all heat that moves. */
export type HeatLedger = {
  readonly sources: number
  readonly sinks: number
  readonly coolant: number
  readonly unaccounted: number
}

export type NetworkState =
  | {
      readonly stable: true
      /** By node [K]. */
      readonly temperatures: Readonly<Record<string, number>>
      readonly passages: Readonly<Record<string, PassageState>>
      /** Into each sink, by id [W]; negative where it gives heat. */
      readonly sinkHeats: Readonly<Record<string, number>>
      /** Of each node at its temperature [W]; nodes without a source are left out. */
      readonly losses: Readonly<Record<string, number>>
      /** How much of a small extra heat comes back as more loss: below 1, or there is no steady state. */
      readonly loopGain: number
      readonly ledger: HeatLedger
    }
  | {
      /** Thermal runaway: loss grows faster with temperature than heat can leave. No temperature exists to be stated. */
      readonly stable: false
      readonly loopGain: number
    }
