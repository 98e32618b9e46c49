import { describeLack, type Lack } from '../../graph/lack.ts'
import { roundToUncertainty } from '../../graph/quantity/print.ts'
import { ucumOf } from '../../graph/quantity/units.ts'
import { SETTING_ABOUT } from '../../queries/conditions.ts'
import type { Input } from '../../queries/evaluate/result.ts'
import { asksOf } from '../../queries/measure-next.ts'
import { cautionsOf } from '../cautions.ts'
import { type Customary, customary, perCustomary } from '../customary.ts'
import { Caution, ConditionsUsed, Figure, FigureInput, MissingInput, NumericCondition, WeakShare } from './refs.ts'
import {
  BasisEnum,
  CountsSetting,
  FigureStatus,
  MetricId,
  PowerSetting,
  VoltageSetting,
  VolumeSetting,
} from './words.ts'

Figure.implement({
  description: 'A figure of one subject, with its working. Numbers are in `unit`; null is "not known", never zero.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'The same for the same question: teardown, metric, subject, conditions.' }),
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    subject: t.exposeString('subject', { description: 'Path of what it is about: `specimen`, `parts/link-cap`.' }),
    status: t.expose('status', { type: FigureStatus, description: 'Whether it has a value that can be used.' }),
    value: t.exposeFloat('value', {
      nullable: true,
      description: 'In `unit`. Sampled: the median; else as `atTaken`.',
    }),
    atTaken: t.exposeFloat('atTaken', {
      nullable: true,
      description: 'At the values written: can be followed by hand.',
    }),
    unit: t.exposeString('unit', { description: 'Customary symbol of the unit of measure.' }),
    ucum: t.string({ description: 'UCUM code of the unit of measure.', resolve: ({ unit }) => ucumOf(unit) }),
    uncertainty: t.exposeFloat('uncertainty', {
      nullable: true,
      description: 'Standard uncertainty, in `unit`; null when exact.',
    }),
    low: t.exposeFloat('low', { nullable: true, description: 'Lower end of the 95 % interval, in `unit`.' }),
    high: t.exposeFloat('high', { nullable: true, description: 'Upper end of the 95 % interval, in `unit`.' }),
    how: t.exposeString('how', { description: 'How the interval was found: `exact`, `first-order` or `sampled`.' }),
    draws: t.int({
      nullable: true,
      description: 'How many draws were taken; null when it was not sampled.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().draws,
    }),
    standardError: t.float({
      nullable: true,
      description: 'How well the draws know `uncertainty`: its own standard error, in `unit`.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().standardError,
    }),
    concise: t.string({
      nullable: true,
      description: 'Value with its standard uncertainty in the last digits, 12.41(17); null without one.',
      resolve: ({ value, uncertainty }) =>
        value === null || !uncertainty ? null : roundToUncertainty(value, uncertainty).concise,
    }),
    weakestBasis: t.field({
      type: BasisEnum,
      nullable: true,
      description: 'The weakest evidence among all it stands on.',
      resolve: ({ basis }) => basis,
    }),
    conditions: t.field({
      type: ConditionsUsed,
      description: 'Conditions it was asked under.',
      resolve: ({ used }) => used,
    }),
    inputs: t.field({
      type: [FigureInput],
      description: 'The values it read, each with its part of the variance.',
      extensions: { needs: 'working', many: 30 },
      resolve: ({ working }) => working().inputs,
    }),
    interaction: t.float({
      nullable: true,
      description: 'Part of the variance that belongs to no single input: shares and this sum to one.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().interaction,
    }),
    restsOn: t.stringList({
      description: 'Findings, doubtful relations and open searches it stands or falls with.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().restsOn,
    }),
    weak: t.field({
      type: WeakShare,
      description: 'How much of it stands on what nobody measured, read or published.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().weak,
    }),
    missing: t.field({
      type: [MissingInput],
      description: 'What the record lacks, all of it at once, and what to measure or look for.',
      extensions: { needs: 'working', many: 5 },
      resolve: ({ working }) => working().missing,
    }),
    method: t.string({
      description: 'How it is computed.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().method,
    }),
    sources: t.stringList({
      description: 'Where the method comes from.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().sources,
    }),
    cautions: t.field({
      type: [Caution],
      description: 'What can hurt where this figure is used.',
      extensions: { many: 2 },
      resolve: ({ metric }) => cautionsOf(metric),
    }),
    warnings: t.stringList({
      description: 'What a reader of the value must know.',
      extensions: { needs: 'working' },
      resolve: ({ working }) => working().warnings,
    }),
  }),
})

FigureInput.implement({
  description: 'One value that a figure read.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Canonical path of the value.' }),
    value: t.float({ description: 'As taken, in `unit`.', resolve: (input) => shown(input).value }),
    unit: t.string({ description: 'Customary symbol of its unit of measure.', resolve: (input) => shown(input).unit }),
    uncertainty: t.float({
      nullable: true,
      description: 'Standard uncertainty, in `unit`; null when exact.',
      resolve: (input) => shown(input).uncertainty,
    }),
    basis: t.field({ type: BasisEnum, description: 'Where it comes from.', resolve: ({ basis }) => basis }),
    share: t.exposeFloat('share', {
      nullable: true,
      description: 'Part of the variance of the figure; negative where shared causes cancel; null when it has none.',
    }),
    sensitivity: t.float({
      nullable: true,
      description: 'What the figure changes for one `unit` of it, in the unit of the figure; null when it is exact.',
      resolve: ({ sensitivity, dimension }) => perCustomary(sensitivity, dimension),
    }),
    remaining: t.exposeFloat('remaining', {
      nullable: true,
      description: 'Standard uncertainty that the figure would keep if this were known exactly.',
    }),
    defaulted: t.exposeBoolean('defaulted', {
      description: 'Whether its uncertainty is the documented default of its basis.',
    }),
  }),
})

const shown = ({ value, dimension, uncertainty }: Input): Customary => customary(value, dimension, uncertainty)

WeakShare.implement({
  description: 'How much of a figure stands on judged and assumed inputs and relations.',
  fields: (t) => ({
    ofVariance: t.exposeFloat('ofVariance', { nullable: true, description: 'Part of the variance; null without one.' }),
    ofValue: t.exposeFloat('ofValue', {
      nullable: true,
      description: 'Part of the value: inputs weighed by what the figure changes for the same relative change of each.',
    }),
    relations: t.exposeStringList('relations', {
      description: 'Judged and assumed relations: the whole value stands on each.',
    }),
  }),
})

MissingInput.implement({
  description: 'One gap of the record. Where `anyOf` is not empty, filling any one of those is enough.',
  fields: (t) => ({
    path: t.string({
      nullable: true,
      description: 'Path of what is not known, when it is one value.',
      resolve: pathOf,
    }),
    asks: t.string({ description: 'What to measure or look for.', resolve: (lack) => asksOf(lack) ?? '' }),
    reason: t.string({ description: 'What the record says instead.', resolve: (lack) => describeLack(lack) }),
    anyOf: t.field({
      type: [MissingInput],
      description: 'Ways to fill the gap, any of them.',
      extensions: { many: 3 },
      resolve: (lack) => ('anyOf' in lack ? lack.anyOf : []),
    }),
    allOf: t.field({
      type: [MissingInput],
      description: 'Gaps that must all be filled, when this is one way of several.',
      extensions: { many: 3 },
      resolve: (lack) => ('allOf' in lack ? lack.allOf : []),
    }),
  }),
})

function pathOf(lack: Lack): string | null {
  if ('path' in lack) return lack.path
  return 'at' in lack ? (lack.at ?? null) : null
}

ConditionsUsed.implement({
  description: 'Conditions of an answer. Figures whose conditions differ are never put in one ranked column.',
  fields: (t) => ({
    power: t.field({ type: PowerSetting, description: SETTING_ABOUT.power, resolve: ({ settings }) => settings.power }),
    volume: t.field({
      type: VolumeSetting,
      description: SETTING_ABOUT.volume,
      resolve: ({ settings }) => settings.volume,
    }),
    voltage: t.field({
      type: VoltageSetting,
      description: SETTING_ABOUT.voltage,
      resolve: ({ settings }) => settings.voltage,
    }),
    counts: t.field({
      type: CountsSetting,
      description: SETTING_ABOUT.counts,
      resolve: ({ settings }) => settings.counts,
    }),
    boundary: t.string({ description: SETTING_ABOUT.boundary, resolve: ({ settings }) => settings.boundary }),
    numeric: t.field({
      type: [NumericCondition],
      description: 'Numeric conditions that were set; the others are as each record states them.',
      resolve: ({ numeric }) => Object.entries(numeric).map(([name, value]) => ({ name, value })),
    }),
  }),
})

NumericCondition.implement({
  description: 'A numeric condition that was set.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Such as `coolantInlet`.' }),
    value: t.exposeString('value', { description: 'As it was typed: `65 °C`.' }),
  }),
})
