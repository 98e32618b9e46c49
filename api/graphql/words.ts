import type { BASES } from '../../graph/quantity/basis.ts'
import { figures } from '../../queries/figures/registry.ts'
import { builder } from './builder.ts'

/** Enum values from words of a sheet: `hv-positive` becomes HV_POSITIVE and stays `hv-positive` inside. */
function fromWords<W extends string>(
  about: Readonly<Record<W, string>>,
): Record<string, { value: W; description: string }> {
  const entries = Object.entries(about) as [W, string][]
  return Object.fromEntries(
    entries.map(([word, description]) => [word.toUpperCase().replaceAll('-', '_'), { value: word, description }]),
  )
}

export const MetricId = builder.enumType('MetricId', {
  description: 'Every figure of the registry.',
  values: Object.fromEntries(
    figures.map(({ id, title, unit, definition }) => [id, { description: `${title} [${unit}]. ${definition}` }]),
  ) as Record<string, { description: string }>,
})

const BASIS_ABOUT: Readonly<Record<(typeof BASES)[number], string>> = {
  measured: 'An instrument, on this specimen.',
  marked: 'Read off the part.',
  published: "Its maker's literature.",
  reported: "Someone else's laboratory or paper.",
  computed: 'From other values, by a stated equation.',
  judged: 'By eye, or by reasoning.',
  assumed: 'Taken to get on; its share of every figure is shown.',
}

export const BasisEnum = builder.enumType('Basis', {
  description: 'Where a value or a relation comes from; the order is the rank.',
  values: fromWords(BASIS_ABOUT),
})

export const FigureStatus = builder.enumType('FigureStatus', {
  description: 'Whether a figure has a value that can be used.',
  values: {
    OK: { description: 'Computed, within the validated range of its method.' },
    MISSING: { description: 'The record lacks what it needs; `missing` says what to measure or look for.' },
    NOT_APPLICABLE: { description: 'There is no such thing in this specimen.' },
    OUT_OF_RANGE: { description: 'Computed, but outside the validated range of its method; `warnings` say of what.' },
  } as const,
})

export const Potential = builder.enumType('Potential', {
  description: 'What a net is at.',
  values: fromWords({
    'hv-positive': 'Positive rail of a hazardous DC voltage.',
    'hv-negative': 'Negative rail of a hazardous DC voltage.',
    'hv-middle': 'Between the rails.',
    'hv-switching': 'Switched between the rails.',
    'low-voltage': 'Extra-low voltage.',
    chassis: 'The conductive housing.',
    coolant: 'The coolant, where it is in contact with something live or earthed.',
    floating: 'Tied to nothing.',
  }),
})

export const PieceState = builder.enumType('PieceState', {
  description: 'State in which a piece was found.',
  values: fromWords({
    whole: 'As it was built.',
    cut: 'Cut through or cut open.',
    damaged: 'There, but not as it was built.',
    missing: 'Built in once, and not there.',
  }),
})

export const PowerSetting = builder.enumType('PowerSetting', {
  description: 'Which operating point.',
  values: {
    PEAK: { description: 'The highest power, with its duration.' },
    CONTINUOUS: { description: 'Held without limit of time.' },
  } as const,
})

export const VolumeSetting = builder.enumType('VolumeSetting', {
  description: 'Which volume.',
  values: {
    ENVELOPE: { description: 'The smallest box round it.' },
    HULL: { description: 'Inside the outer skin.' },
    DISPLACED: { description: 'Water pushed aside by the closed, plugged case.' },
    PARTS: { description: 'Sum of the stated volumes of the parts.' },
  } as const,
})

export const VoltageSetting = builder.enumType('VoltageSetting', {
  description: 'Which DC voltage.',
  values: {
    NOMINAL: { description: 'The value on the label.' },
    MAX: { description: 'The highest allowed.' },
    RATED: { description: 'The lowest rated voltage of the capacitors across the link.' },
  } as const,
})

export const CountsSetting = builder.enumType('CountsSetting', {
  description: 'Which count of pieces.',
  values: {
    BUILT: { description: 'As it left its maker.' },
    FOUND: { description: 'As it was when opened.' },
  } as const,
})

export const Direction = builder.enumType('Direction', {
  description: 'Order of a list.',
  values: { ASC: { description: 'Least first.' }, DESC: { description: 'Largest first.' } } as const,
})

export const CheckSeverity = builder.enumType('CheckSeverity', {
  description: 'How sure a check is that something is wrong.',
  values: fromWords({
    error: 'It cannot be so.',
    warning: 'It is unlikely to be so.',
    question: 'It may be so: look again.',
  }),
})

export const HeatEndKind = builder.enumType('HeatEndKind', {
  description: 'What a heat path runs to.',
  values: {
    FACE: { description: 'A face of another part: heat goes on from there.' },
    PASSAGE: { description: 'A coolant passage.' },
    AMBIENT: { description: 'The air around the unit.' },
    FRAME: { description: 'What the unit is bolted to.' },
  } as const,
})

export const SuggestionReason = builder.enumType('SuggestionReason', {
  description: 'Why a measurement is worth it, the most urgent first.',
  values: {
    LOST_AT_COMING_STEP: { description: 'A step still to come destroys it.' },
    BECOMES_COMPUTABLE: { description: 'A figure that is missing could then be computed.' },
    NARROWS: { description: 'The uncertainty of a figure would fall.' },
  } as const,
})

export const TeardownOrderBy = builder.enumType('TeardownOrderBy', {
  description: 'What teardowns are put in order by.',
  values: {
    ID: { description: 'Id.', value: 'id' },
    TITLE: { description: 'Title.', value: 'title' },
    WRITTEN: { description: 'When the current revision was written.', value: 'written' },
    FIGURE: { description: 'Value of the figure named by `metric`; those without one come last.', value: 'figure' },
  } as const,
})
