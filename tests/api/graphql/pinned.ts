/** The part of the contract that outside scripts are written against: names, arguments and nullability may not change. */
export const PINNED = `
type Query {
  teardown(id: ID!): Teardown
  teardowns(where: TeardownWhere, orderBy: TeardownOrder, first: Int, after: String): TeardownConnection!
  component(teardown: ID!, path: String!): Component
  components(where: ComponentWhere, first: Int, after: String): ComponentConnection!
  metrics: [Metric!]!
  benchmark(metrics: [MetricId!]!, where: TeardownWhere, conditions: Conditions, per: BenchmarkPer, across: Reduction, orderBy: BenchmarkOrder, groupBy: BenchmarkGroup, first: Int, after: String): Benchmark!
  calc: Calc!
}
type Metric { id: MetricId!  title: String!  definition: String!  unit: String!  subject: String!  honours: [String!]!  sources: [String!]! }
type Teardown {
  id: ID!  title: String!  revision: Int!
  assemblies: [Assembly!]!  components(where: ComponentWhere): [Component!]!  nets: [Net!]!  passages: [Passage!]!  loops: [Loop!]!
  findings: [Finding!]!
  figures(metrics: [MetricId!], subjects: [String!], conditions: Conditions, whatIf: [WhatIf!]): [Figure!]!
  traits: [Trait!]!  checks: [Check!]!  measureNext(metrics: [MetricId!]): [Suggestion!]!  cautions: [Caution!]!
}
type Component {
  id: ID!  path: String!  class: String!  count: Count!  pieces: [Piece!]!  properties: [Property!]!  terminals: [Terminal!]!
  heatPaths: [HeatPath!]!  coolantPositions: [CoolantPosition!]!
  figures(metrics: [MetricId!], conditions: Conditions, whatIf: [WhatIf!]): [Figure!]!
}
type HeatPath { id: ID!  from: String!  layers: [HeatLayer!]!  resistance: Figure  end: HeatEnd! }
type Passage { id: ID!  path: String!  stage: Int  upstream: [Passage!]!  components: [Component!]!  figures(metrics: [MetricId!], conditions: Conditions): [Figure!]! }
input ComponentWhere { class: [String!]  marking: String  partType: String  net: String  potential: [Potential!]  state: [PieceState!]  heatEndsIn: String  sharesPassageWith: ComponentWhere  upstreamOf: ComponentWhere  property: [PropertyRange!]  basis: [Basis!]  text: String }
type Figure {
  id: ID!  metric: MetricId!  subject: String!  status: FigureStatus!
  value: Float  atTaken: Float  unit: String!  ucum: String!  uncertainty: Float  low: Float  high: Float  how: String!
  weakestBasis: Basis  conditions: ConditionsUsed!  inputs: [FigureInput!]!  interaction: Float  restsOn: [String!]!  missing: [MissingInput!]!
  method: String!  sources: [String!]!  warnings: [String!]!
}
type FigureInput { path: String!  value: Float!  unit: String!  uncertainty: Float  basis: Basis!  share: Float }
type MissingInput { path: String  asks: String!  anyOf: [MissingInput!]! }
type Benchmark { conditions: ConditionsUsed!  rows: [BenchmarkRow!]!  groups: [BenchmarkGroupRow!]!  left: [LeftOut!]!  targets: [Target!]!  pageInfo: PageInfo!  totalCount: Int! }
type BenchmarkRow { teardown: Teardown!  subject: String!  figures: [Figure!]!  rank: Int  tiedWith: [String!]! }
`

/** Enum values that are pinned; more may come. */
export const PINNED_VALUES: Readonly<Record<string, readonly string[]>> = {
  BenchmarkPer: ['TEARDOWN', 'SUBJECT'],
  Reduction: ['MAX', 'MIN', 'MEAN', 'SUM'],
  FigureStatus: ['OK', 'MISSING', 'NOT_APPLICABLE', 'OUT_OF_RANGE'],
  Basis: ['MEASURED', 'MARKED', 'PUBLISHED', 'REPORTED', 'COMPUTED', 'JUDGED', 'ASSUMED'],
  PieceState: ['WHOLE', 'CUT', 'DAMAGED', 'MISSING'],
  HeatEndKind: ['FACE', 'PASSAGE', 'AMBIENT', 'FRAME'],
}

/** Conditions that are pinned, and those of them that are quantities in text. */
export const PINNED_CONDITIONS = [
  'power',
  'volume',
  'voltage',
  'counts',
  'boundary',
  'coolantInlet',
  'coolantFlow',
  'ambient',
  'frame',
  'phaseCurrent',
  'modulationIndex',
  'powerFactor',
  'switchingFrequency',
  'conductorTemperature',
] as const
