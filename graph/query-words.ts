import type { Query } from './query.ts'

/** The members of the union that ask this. */
type Asking<A extends Query['ask'], Q = Query> = Q extends { readonly ask: infer B } ? (A extends B ? Q : never) : never

type Words = { readonly [A in Query['ask']]: (query: Asking<A>) => string }

const ofClass = (name: string | undefined): string => (name === undefined ? 'part' : `part of class ${name}`)
const inside = (path: string | undefined): string => (path === undefined ? '' : ` in ${path}`)

const PARTS = {
  parts: (query) => `${query.class === undefined ? 'parts' : ofClass(query.class)}${inside(query.in)}`,
  'leaf-parts': () => 'parts',
  pieces: ({ of }) => `pieces of ${of}`,
  inside: ({ part }) => `pieces inside ${part}`,
  'top-parts': () => 'parts inside no other',
  'entries-inside': ({ part }) => `parts inside ${part}`,
  parent: ({ part }) => `the part that holds ${part}`,
  holder: ({ piece }) => `the piece that holds ${piece}`,
  'dies-within': ({ piece }) => `dies inside ${piece}`,
  'values-for': ({ part }) => `whether the values of ${part} are for a die, a switch or a piece`,
  'piece-of': ({ node }) => `the piece that ${node} belongs to`,
  faces: ({ part }) => `faces of ${part}`,
  'sealed-by': ({ part }) => `passages that ${part} seals`,
  'leaks-towards': ({ part }) => `parts that ${part} would leak onto`,
  'goes-round': ({ part }) => `conductors through ${part}`,
} satisfies Partial<Words>

const NETS = {
  nets: ({ potential }) => (potential === undefined ? 'nets' : `nets with potential: ${potential}`),
  'on-net': (query) => `${ofClass(query.class)} on ${query.net}`,
  'net-of': ({ piece, terminal }) => `net of terminal ${terminal} of ${piece}`,
  'terminal-on': ({ piece, net }) => `terminal of ${piece} on ${net}`,
  terminals: ({ piece }) => `nets of the terminals of ${piece}`,
  across: (query) => `${ofClass(query.class)} between ${query.nets.join(' and ')}`,
  potential: ({ net }) => `potential of ${net}`,
  'rides-on': ({ net }) => `the net that ${net} rides on`,
  'tied-to': ({ net }) => `the net that ${net} is tied to`,
  'voltage-between': ({ nets }) => `voltage between ${nets.join(' and ')}`,
  'ports-on': ({ net }) => `ports on ${net}`,
  'open-terminals': () => 'terminals whose net nobody looked for',
  rails: () => 'the two DC rails, as nets with hv-positive and hv-negative',
  loops: () => 'half bridge between two DC nets',
  'bridge-loops': () => 'half bridge that makes an alternating output',
  'loop-capacitors': ({ loop }) => `capacitors that close ${loop}`,
  'loop-bridge': ({ loop }) => `half bridge of ${loop}`,
  'loop-output': ({ loop }) => `the net that ${loop} switches`,
  'loop-rails': ({ loop }) => `the two nets that ${loop} lies between`,
  'link-capacitors': () => 'capacitors on the nets of the DC link',
  'link-parts': (query) => `part of class ${query.class} on the nets of the DC link`,
  'capacitors-between': ({ nets }) => `capacitors between ${nets.join(' and ')}`,
  'nets-between': ({ nets }) => `inner nets between ${nets.join(' and ')}`,
} satisfies Partial<Words>

const METAL = {
  'metal-of': ({ net }) => `bar or plate with net: ${net.replace('nets/', '')}`,
  'shape-of': ({ part }) => `run or plate of ${part}`,
  'run-points': ({ part }) => `course of ${part}`,
  'flat-of': ({ part }) => `flat of ${part}: the axis normal to its wide face`,
  beside: ({ part }) => `what ${part} lies beside`,
  'holes-of': ({ part }) => `holes of ${part}`,
  'joints-of': ({ part }) => `joints of ${part}`,
  'joined-by': ({ joint }) => `the two parts of ${joint}`,
  stack: ({ part }) => `stack of ${part}`,
  'copper-net': ({ layer }) => `net of ${layer}`,
  traces: () => 'traces',
  'traces-of': ({ part }) => `traces of ${part}`,
  'trace-on': ({ trace }) => `layer of ${trace}`,
  'trace-references': ({ trace }) => `reference planes of ${trace}`,
  'trace-pair': ({ trace }) => `partner of ${trace}`,
  'trace-net': ({ trace }) => `net of ${trace}`,
  spacings: ({ kind }) => (kind === undefined ? 'spacings' : `spacings of kind ${kind}`),
  'spacing-between': ({ spacing }) => `the two sides of ${spacing}`,
  'insulation-of': ({ spacing }) => `kind of insulation of ${spacing}`,
  'lies-on': ({ spacing }) => `the part that ${spacing} lies on`,
} satisfies Partial<Words>

const HEAT = {
  'heat-from': ({ node }) => `heat paths from ${node}`,
  'heat-paths': () => 'heat paths',
  'heat-layers': ({ path }) => `layers of ${path}`,
  'heat-start': ({ path }) => `where ${path} begins`,
  'heat-to': ({ path }) => `where ${path} ends`,
  'layer-part': ({ layer }) => `the part that ${layer} is made of`,
  'spread-of': ({ layer }) => `how the heat spreads in ${layer}`,
  'barrier-on': ({ path }) => `insulating layers in ${path}`,
  'ends-grounded': ({ path }) => `ends of ${path} in grounded metal or coolant`,
  'heat-ends': ({ piece }) => `where the heat of ${piece} ends`,
  'heat-sources': () => 'pieces that give off heat',
  'heat-sources-within': ({ piece }) => `pieces that give off heat inside ${piece}`,
  'cooled-by': ({ passage }) => `what ${passage} cools`,
  'passage-of': ({ face }) => `the passage that cools ${face}`,
  'cooling-of': ({ passage, face }) => `how ${passage} cools ${face}`,
  'form-of': ({ passage }) => `form of ${passage}: channel, fins, pins, pipe or jets`,
  'minor-losses': ({ passage }) => `fittings of ${passage}`,
  'circuit-of': ({ passage }) => `coolant circuit of ${passage}`,
  passages: ({ circuit }) => (circuit === undefined ? 'coolant passages' : `coolant passages of ${circuit}`),
  circuits: () => 'coolant circuit',
  upstream: ({ passage }) => `passages upstream of ${passage}`,
  'flows-to': ({ node }) => `where the coolant goes from ${node}`,
  entered: ({ passage }) => `what the coolant of ${passage} comes from`,
  'heated-by': ({ passage }) => `pieces whose heat ends in ${passage}`,
} satisfies Partial<Words>

const STATEMENTS = {
  observations: () => 'figures that were measured or published',
  'observed-metric': ({ observed }) => `which figure ${observed} is of`,
  'observed-subject': ({ observed }) => `what ${observed} is about`,
  'bound-of': ({ value }) => `bound of ${value}`,
  disputed: () => 'values whose claims differ',
  'rests-on-refuted': () => 'values that rest on a refuted finding',
  'steps-taking': ({ part }) => `step that takes off ${part}`,
  blockers: ({ step }) => `steps before ${step}`,
  steps: () => 'steps',
  'at-risk': () => 'values that a coming step destroys',
  'lost-with': ({ path }) => `steps that destroy ${path}`,
  section: ({ name }) => `section ${name}`,
} satisfies Partial<Words>

const WORDS: Words = { ...PARTS, ...NETS, ...METAL, ...HEAT, ...STATEMENTS }

/** What a question asks for, in words for a person. */
export function queryWords(query: Query): string {
  return (WORDS[query.ask] as (asked: Query) => string)(query)
}

/** Whether somebody can say by a census that there is none: of classes of parts, not of what follows from the nets. */
export function isCounted({ ask }: Query): boolean {
  return ['parts', 'link-parts', 'link-capacitors', 'on-net'].includes(ask)
}
