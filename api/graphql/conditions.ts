import { type Conditions, NUMERIC, parseConditions, SETTING_ABOUT } from '../../queries/conditions.ts'
import { builder } from './builder.ts'
import { CountsSetting, PowerSetting, VoltageSetting, VolumeSetting } from './words.ts'

const ABOUT_NUMERIC = Object.entries(NUMERIC)

export const ConditionsArg = builder.inputType('Conditions', {
  description:
    'Conditions of an answer. What is not given is the default (settings) or as each record states it (numbers).',
  fields: (t) => ({
    power: t.field({ type: PowerSetting, description: SETTING_ABOUT.power }),
    volume: t.field({ type: VolumeSetting, description: SETTING_ABOUT.volume }),
    voltage: t.field({ type: VoltageSetting, description: SETTING_ABOUT.voltage }),
    counts: t.field({ type: CountsSetting, description: SETTING_ABOUT.counts }),
    boundary: t.string({ description: SETTING_ABOUT.boundary }),
    ...Object.fromEntries(
      ABOUT_NUMERIC.map(([name, { about }]) => [name, t.string({ description: `${about} A quantity: "65 °C".` })]),
    ),
  }),
})

export type ConditionsInput = Readonly<Record<string, string | null | undefined>>

/** Conditions from the API's input: the same reading as on the command line. */
export function conditionsFrom(input: ConditionsInput | null | undefined): Conditions {
  const given = Object.entries(input ?? {}).filter((pair): pair is [string, string] => typeof pair[1] === 'string')
  return parseConditions(given)
}

export const WhatIfArg = builder.inputType('WhatIf', {
  description: 'One change of the record for this answer; nothing is written.',
  fields: (t) => ({
    path: t.string({
      required: true,
      description:
        'Path of a value, part, piece, layer, terminal, relation or finding: `parts/link-cap/capacitance`, `coolant/sequence`.',
    }),
    value: t.string({
      required: true,
      description:
        'A quantity, one of the four nothings, a word, a net for a terminal; `removed`, `doubled`, `one more`, `one fewer`; `refuted` for a finding; the other end of a relation.',
    }),
  }),
})
