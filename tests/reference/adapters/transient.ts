import { exponentialLossJunction, linearLossJunction } from '../../../queries/physics/electrothermal.ts'
import {
  adiabaticHoldTime,
  type Foster,
  ladderToFoster,
  pulseRise,
  repeatedPulseRise,
  transientImpedance,
} from '../../../queries/physics/transient.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity } from './inputs.ts'

type Answer = Record<string, number | string | boolean>

function transient(input: Case): Answer | undefined {
  if (Array.isArray(input.inputs.masses)) return hold(input)
  const ladder = ladderOf(input)
  const foster = ladder ?? { thermalResistances: quantities(input, 'resistances'), timeConstants: timeConstants(input) }
  const answer: Answer = impedances(input, foster)
  if (ladder) {
    for (const [i, resistance] of ladder.thermalResistances.entries()) answer[`fosterR${i + 1}`] = resistance
    for (const [i, tau] of ladder.timeConstants.entries()) answer[`fosterTau${i + 1}`] = tau
  }
  const [loss, pulseDuration, period] = ['power', 'pulse', 'period'].map((name) => maybeQuantity(input, name))
  if (loss === undefined || pulseDuration === undefined) return answer
  if (period !== undefined) {
    const found = repeatedPulseRise({ ...foster, loss, pulseDuration, period })
    return { ...answer, peak: found.peakRise, valley: found.valleyRise, mean: found.meanRise }
  }
  const { rises, endRise, steadyRise } = pulseRise({ ...foster, loss, pulseDuration, times: [2 * pulseDuration] })
  return { ...answer, riseEndOfPulse: endRise, riseAtTwicePulse: rises[0]!, steady: steadyRise }
}

function timeConstants(input: Case): readonly number[] {
  return quantities(
    { ...input, inputs: { ...input.inputs, timeConstantUnit: input.inputs.timeConstantUnit ?? input.inputs.timeUnit } },
    'timeConstants',
  )
}

/** r1, c1, r2, c2, … as many as there are. */
function ladderOf(input: Case): Foster | undefined {
  const cells = Object.keys(input.inputs)
    .flatMap((key) => /^c(\d+)$/.exec(key)?.[1] ?? [])
    .sort((a, b) => Number(a) - Number(b))
  if (cells.length === 0) return undefined
  return ladderToFoster({
    heatCapacities: cells.map((n) => quantity(input, `c${n}`)),
    ladderResistances: cells.map((n) => quantity(input, `r${n}`)),
  })
}

function impedances(input: Case, foster: Foster): Answer {
  const answer: Answer = {}
  for (const key of Object.keys(input.expected)) {
    const time = /^z_(.+)$/.exec(key)?.[1]
    if (time !== undefined) answer[key] = transientImpedance({ ...foster, time: Number(time) })
  }
  return answer
}

function hold(input: Case): Answer {
  const found = adiabaticHoldTime({
    masses: quantities(input, 'masses'),
    specificHeats: quantities(input, 'specificHeats'),
    allowedRise: quantity(input, 'allowedRise', 'rise'),
    loss: quantity(input, 'loss', 'power'),
  })
  return { ...found, time: found.holdTime }
}

function electrothermal(input: Case): Answer {
  const shared = {
    referenceTemperature: quantity(input, 'referenceTemperature'),
    coolantTemperature: quantity(input, 'coolant'),
    thermalResistance: quantity(input, 'resistance'),
  }
  const scale = maybeQuantity(input, 'temperatureScale')
  if (scale === undefined) {
    const found = linearLossJunction({
      ...shared,
      loss: quantity(input, 'lossAtReference', 'loss'),
      temperatureCoefficient: quantity(input, 'temperatureCoefficient'),
    })
    return {
      stable: found.stable,
      loopGain: found.loopGain,
      ...(found.runawayResistance === undefined ? {} : { runawayResistance: found.runawayResistance }),
      ...(found.junctionTemperature === undefined ? {} : { junction: found.junctionTemperature }),
      ...(found.loss === undefined ? {} : { loss: found.loss }),
    }
  }
  const found = exponentialLossJunction({
    ...shared,
    loss: quantity(input, 'constantLoss'),
    leakLoss: quantity(input, 'leakageAtReference'),
    temperatureScale: scale,
  })
  return {
    stable: found.stable,
    criticalResistance: found.criticalResistance,
    criticalTemperature: found.criticalTemperature,
    ...(found.junctionTemperature === undefined ? {} : { junctionStable: found.junctionTemperature }),
    ...(found.unstableTemperature === undefined ? {} : { junctionUnstable: found.unstableTemperature }),
    ...(found.loss === undefined ? {} : { loss: found.loss }),
    ...(found.loopGain === undefined ? {} : { loopGain: found.loopGain }),
  }
}

export const transientAdapter: Adapter = {
  topics: ['transient', 'electrothermal'],
  answer: (input) => (input.topic === 'transient' ? transient(input) : electrothermal(input)),
}
