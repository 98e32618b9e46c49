import type { MultiDirectedGraph } from 'graphology'
import type { Path } from './quantity/quantity.ts'
import type { Evidence } from './record/record.ts'

/** Node kinds; the key of a node is its canonical path. A part that comes once is its own piece. */
export type NodeAttributes =
  | PartNode
  | { readonly kind: 'piece'; readonly entry: Path; readonly state: PieceState }
  | { readonly kind: 'face'; readonly piece: Path }
  | { readonly kind: 'net'; readonly potential: string | null; readonly rides: Path | null; readonly tied: Path | null }
  | LayerNode
  | HeatPathNode
  | { readonly kind: 'passage'; readonly circuit: Path }
  | { readonly kind: 'port'; readonly circuit: Path; readonly end: 'inlet' | 'outlet' }
  | { readonly kind: 'joint' | 'sink' | 'trace' | 'spacing' | 'finding' | 'step' | 'photo' }
  | LoopNode

export interface PartNode {
  readonly kind: 'assembly' | 'component'
  readonly class: string
  readonly group: string
  readonly leaf: boolean
  /** Whether its pieces deviate within tolerance each on its own. */
  readonly varies: boolean
  /** Pieces found, when the sheet says how many of those built were there. */
  readonly found: number | null
  /** State of the part when it comes once. */
  readonly state: PieceState
}

export interface LayerNode {
  readonly kind: 'layer'
  readonly part: Path | null
  readonly insulating: boolean
  readonly spread: 'series' | 'cone-45' | 'none' | null
}

export interface HeatPathNode {
  readonly kind: 'heat-path'
  readonly from: Path
  readonly layers: readonly Path[]
  readonly to: Path
  readonly evidence: Evidence
}

export interface LoopNode {
  readonly kind: 'loop'
  /** One half-bridge module, or the upper and the lower switch. */
  readonly bridge: readonly Path[]
  readonly rails: readonly [Path, Path]
  readonly leftOut: readonly Path[]
}

export type NodeKind = NodeAttributes['kind']
export type PieceState = 'whole' | 'cut' | 'damaged' | 'missing'

/**
 * Edge kinds. contains: entry to child entry; holds: piece to the pieces inside it; has-piece: entry to its pieces;
 * has-face; terminal: piece to net; metal: net to part; joins: joint to part; conducts: along a heat path;
 * cools: passage to face; flows: passage to passage; precedes: step to step; about, shows: finding and photo to what.
 */
export type EdgeAttributes =
  | {
      readonly kind:
        | 'contains'
        | 'holds'
        | 'has-piece'
        | 'has-face'
        | 'metal'
        | 'joins'
        | 'precedes'
        | 'about'
        | 'shows'
    }
  | { readonly kind: 'terminal'; readonly name: string; readonly evidence: Evidence }
  | { readonly kind: 'conducts'; readonly path: Path }
  | { readonly kind: 'flows'; readonly evidence: Evidence }
  /** `entry`: where the wetted area and film coefficient of this face stand. */
  | { readonly kind: 'cools'; readonly evidence: Evidence; readonly entry: Path }

export type EdgeKind = EdgeAttributes['kind']

export type TeardownGraph = MultiDirectedGraph<NodeAttributes, EdgeAttributes>
