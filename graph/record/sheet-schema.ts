import { z } from 'zod'
import { boundary } from './boundary.ts'
import { census } from './census.ts'
import { coolant } from './coolant.ts'
import { defaultWidths } from './default-widths.ts'
import { quantity } from './field.ts'
import { finding } from './finding.ts'
import { heatPath } from './heat.ts'
import { instrument } from './instrument.ts'
import { joint } from './joint.ts'
import { loan } from './loan.ts'
import { loop } from './loop.ts'
import { material } from './material.ts'
import { net } from './net.ts'
import { observed } from './observed.ts'
import { operatingPoints } from './operating-point.ts'
import { part } from './part.ts'
import { photo } from './photo.ts'
import { choice, factsOf, id, section, text } from './piece.ts'
import { spacing } from './spacing.ts'
import { specimen } from './specimen.ts'
import { step } from './step.ts'
import { voltage } from './voltage.ts'

/** A whole sheet. Keys are spelt as they are typed. */
export const sheet = section({
  lidoff: choice(['1'], 'Version of the format.'),
  id,
  title: text('In words.'),
  basis: choice(['judged', 'assumed', 'published'], 'Basis of values that say none.').optional(),
  defaults: defaultWidths.optional(),
  specimen,
  frame: section({ origin: text(), x: text(), y: text(), z: text() }).partial().optional(),
  instruments: z.record(z.string(), instrument).optional(),
  materials: z.record(z.string(), material).optional(),
  parts: z.array(part).optional(),
  joints: z.array(joint).optional(),
  nets: z.record(z.string(), net).optional(),
  voltages: z.array(voltage).optional(),
  spacings: z.array(spacing).optional(),
  heat: z.array(heatPath).optional(),
  coolant: coolant.optional(),
  ambient: section(
    factsOf({
      air: quantity('temperature', 'Round the unit.'),
      frame: quantity('temperature', 'Of what the unit is bolted to.'),
    }),
  ).optional(),
  loops: z.record(z.string(), loop).optional(),
  boundaries: z.array(boundary).optional(),
  'operating-points': operatingPoints.optional(),
  observed: observed.optional(),
  census: z.array(census).optional(),
  steps: z.array(step).optional(),
  findings: z.array(finding).optional(),
  photos: z.array(photo).optional(),
  loan: loan.optional(),
})

/**
 * A sheet, checked and typed: structure, relations, words. Every entry has its id, given or derived; a coolant is always
 * a list of circuits; nets are those that are there, stars resolved. Values are read through the facts of the record.
 */
export type Sheet = z.infer<typeof sheet>
