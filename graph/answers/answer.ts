import type { Found, Query } from '../query.ts'
import { boundOf, cause } from './claims.ts'
import type { Context } from './context.ts'
import { answerOf, into, nodeOf, out } from './context.ts'
import { circuitOf, circuits, coolingOf, flowsTo, formOf, minorLosses, passages, upstream } from './coolant.ts'
import {
  barrierOn,
  cooledBy,
  endsGrounded,
  heatEnd,
  heatEnds,
  heatedBy,
  heatFrom,
  heatLayers,
  heatPaths,
  heatSources,
  heatSourcesWithin,
  layerPart,
  passageOf,
  spreadOf,
} from './heat.ts'
import {
  bridgeLoops,
  capacitorsBetween,
  linkParts,
  loopBridge,
  loopCapacitors,
  loopOutput,
  loops,
  netsBetween,
  rails,
} from './loops.ts'
import { beside, flatOf, goesRound, holesOf, runPoints, shapeOf, valuesFor } from './metal.ts'
import { across, joinedBy, jointsOf, metalOf, netOf, nets, onNet, terminalOn } from './nets.ts'
import { diesWithin, entriesInside, inside, leafParts, parts, pieces } from './parts.ts'
import { besideOf, openTerminals, portsOn, potentialOf, voltageBetween } from './potentials.ts'
import { leaksTowards, sealedBy } from './seals.ts'
import { aboutObserved, kindPaths, observations, section, spacingBetween, spacings, spacingWord } from './sections.ts'
import { copperNet, netOfTrace, stackOf, traceOn, tracesOf } from './stack.ts'
import { atRisk, blockersOf, lostWith, stepsTaking } from './steps.ts'

/** Answers one structural question. */
export function answerFor(context: Context, query: Query): Found {
  const { graph, record } = context
  switch (query.ask) {
    case 'parts':
      return parts(context, query)
    case 'leaf-parts':
      return leafParts(context)
    case 'pieces':
      return pieces(context, query.of)
    case 'inside':
      return inside(context, query.part)
    case 'top-parts':
      return answerOf(record.parts.entries.filter((entry) => entry.parent === null).map((entry) => entry.path))
    case 'entries-inside':
      return entriesInside(context, query.part)
    case 'parent':
      return answerOf(into(graph, query.part, 'contains'))
    case 'holder':
      return answerOf(into(graph, query.piece, 'holds'))
    case 'dies-within':
      return diesWithin(context, query.piece)
    case 'values-for':
      return valuesFor(context, query.part)
    case 'piece-of':
      return answerOf([nodeOf(graph, query.node, 'face')?.piece ?? query.node])
    case 'faces':
      return answerOf(out(graph, query.part, 'has-face'))
    case 'nets':
      return nets(context, query.potential)
    case 'on-net':
      return onNet(context, query.net, query.class)
    case 'net-of':
      return netOf(context, query.piece, query.terminal)
    case 'terminal-on':
      return terminalOn(context, query.piece, query.net)
    case 'terminals':
      return answerOf(out(graph, query.piece, 'terminal'))
    case 'across':
      return across(context, query.nets, query.class)
    case 'rails':
      return rails(context)
    case 'link-capacitors':
      return linkParts(context, 'capacitor')
    case 'link-parts':
      return linkParts(context, query.class)
    case 'loop-output':
      return loopOutput(context, query.loop)
    case 'bridge-loops':
      return bridgeLoops(context)
    case 'potential':
      return potentialOf(context, query.net)
    case 'rides-on':
    case 'tied-to':
      return besideOf(context, query.net, query.ask)
    case 'voltage-between':
      return voltageBetween(context, query.nets)
    case 'ports-on':
      return portsOn(context, query.net)
    case 'open-terminals':
      return openTerminals(context)
    case 'metal-of':
      return metalOf(context, query.net)
    case 'joints-of':
      return jointsOf(context, query.part)
    case 'joined-by':
      return joinedBy(context, query.joint)
    case 'loops':
      return loops(context)
    case 'capacitors-between':
      return capacitorsBetween(context, query.nets)
    case 'nets-between':
      return netsBetween(context, query.nets)
    case 'loop-capacitors':
      return loopCapacitors(context, query.loop)
    case 'loop-bridge':
      return loopBridge(context, query.loop)
    case 'loop-rails':
      return answerOf(nodeOf(graph, query.loop, 'loop')?.rails ?? [])
    case 'shape-of':
      return shapeOf(context, query.part)
    case 'run-points':
      return runPoints(context, query.part)
    case 'flat-of':
      return flatOf(context, query.part)
    case 'beside':
      return beside(context, query.part)
    case 'holes-of':
      return holesOf(context, query.part)
    case 'heat-from':
      return heatFrom(context, query.node)
    case 'heat-paths':
      return heatPaths(context)
    case 'heat-layers':
      return heatLayers(context, query.path)
    case 'heat-start':
      return heatEnd(context, query.path, 'from')
    case 'heat-to':
      return heatEnd(context, query.path, 'to')
    case 'layer-part':
      return layerPart(context, query.layer)
    case 'spread-of':
      return spreadOf(context, query.layer)
    case 'barrier-on':
      return barrierOn(context, query.path)
    case 'ends-grounded':
      return endsGrounded(context, query.path)
    case 'heat-ends':
      return heatEnds(context, query.piece)
    case 'heat-sources':
      return heatSources(context)
    case 'heat-sources-within':
      return heatSourcesWithin(context, query.piece)
    case 'cooled-by':
      return cooledBy(context, query.passage)
    case 'passage-of':
      return passageOf(context, query.face)
    case 'heated-by':
      return heatedBy(context, query.passage)
    case 'cooling-of':
      return coolingOf(context, query.passage, query.face)
    case 'form-of':
      return formOf(context, query.passage)
    case 'minor-losses':
      return minorLosses(context, query.passage)
    case 'circuit-of':
      return circuitOf(context, query.passage)
    case 'passages':
      return passages(context, query.circuit)
    case 'circuits':
      return circuits(context)
    case 'upstream':
      return upstream(context, query.passage)
    case 'flows-to':
      return flowsTo(context, query.node)
    case 'entered':
      return answerOf(into(graph, query.passage, 'flows'))
    case 'sealed-by':
      return sealedBy(context, query.part)
    case 'leaks-towards':
      return leaksTowards(context, query.part)
    case 'spacings':
      return spacings(context, query.kind)
    case 'spacing-between':
      return spacingBetween(context, query.spacing)
    case 'insulation-of':
    case 'lies-on':
      return spacingWord(context, query.spacing, query.ask)
    case 'observations':
      return observations(context)
    case 'observed-metric':
    case 'observed-subject':
      return aboutObserved(context, query.observed, query.ask)
    case 'bound-of':
      return boundOf(context, query.value)
    case 'stack':
      return stackOf(context, query.part)
    case 'copper-net':
      return copperNet(context, query.layer)
    case 'traces-of':
      return tracesOf(context, query.part)
    case 'trace-on':
    case 'trace-references':
    case 'trace-pair':
      return traceOn(context, query.trace, query.ask)
    case 'trace-net':
      return netOfTrace(context, query.trace)
    case 'goes-round':
      return goesRound(context, query.part)
    case 'steps-taking':
      return stepsTaking(context, query.part)
    case 'blockers':
      return blockersOf(context, query.step)
    case 'traces':
      return kindPaths(context, 'trace')
    case 'steps':
      return kindPaths(context, 'step')
    case 'at-risk':
      return atRisk(context)
    case 'lost-with':
      return lostWith(context, query.path)
    case 'disputed':
    case 'rests-on-refuted':
      return cause(context, query.ask)
    case 'section':
      return section(context, query.name)
  }
}
