import { type Query, queryKey } from './query.ts'

/** What a question asks for, in words for a person; a rare one by its key. */
export function queryWords(query: Query): string {
  switch (query.ask) {
    case 'parts':
      return `${query.class === undefined ? 'parts' : `part of class ${query.class}`}${query.in === undefined ? '' : ` in ${query.in}`}`
    case 'leaf-parts':
      return 'parts'
    case 'link-parts':
      return `part of class ${query.class} on the nets of the DC link`
    case 'link-capacitors':
      return 'capacitors on the nets of the DC link'
    case 'capacitors-between':
      return `capacitors between ${query.nets.join(' and ')}`
    case 'loop-capacitors':
      return `capacitors that close ${query.loop}`
    case 'on-net':
      return `${query.class === undefined ? 'part' : `part of class ${query.class}`} on ${query.net}`
    case 'rails':
      return 'the two DC rails, as nets with hv-positive and hv-negative'
    case 'loops':
      return 'half bridge between two DC nets'
    case 'bridge-loops':
      return 'half bridge that makes an alternating output'
    case 'metal-of':
      return `bar or plate with net: ${query.net.replace('nets/', '')}`
    case 'shape-of':
      return `run or plate of ${query.part}`
    case 'run-points':
      return `course of ${query.part}`
    case 'flat-of':
      return `flat of ${query.part}: the axis normal to its wide face`
    case 'terminals':
      return `nets of the terminals of ${query.piece}`
    case 'terminal-on':
      return `terminal of ${query.piece} on ${query.net}`
    case 'circuits':
      return 'coolant circuit'
    case 'steps-taking':
      return `step that takes off ${query.part}`
    case 'stack':
      return `stack of ${query.part}`
    case 'trace-on':
      return `layer of ${query.trace}`
    case 'trace-references':
      return `reference planes of ${query.trace}`
    default:
      return queryKey(query)
  }
}

/** Whether somebody can say by a census that there is none: of classes of parts, not of what follows from the nets. */
export function isCounted({ ask }: Query): boolean {
  return ['parts', 'link-parts', 'link-capacitors', 'on-net'].includes(ask)
}
