import type { Corpus } from '../../api/corpus.ts'
import { writeOf } from '../../api/sheets.ts'
import type { Tree } from '../../graph/record/record.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import { materialise } from '../../queries/corpus/materialise.ts'
import { part, sheetText } from '../fixtures/record.ts'

const AT = new Date('2026-11-20T10:00:00Z')

/** Stores a sheet as the product does: read, computed, committed. */
export async function store({ store: into }: Corpus, text: string): Promise<void> {
  const read = readSheet(text, 'sheet.yaml')
  if (!('record' in read)) throw new Error(read.complaints.map(({ path, what }) => `${path}: ${what}`).join('\n'))
  await into.commit(writeOf(read.record, text, materialise(read.record), { at: AT, expected: undefined }))
}

/** A small invented unit with a link, a cooled module and a choke further down the coolant. */
export function unit(id: string, differs: Readonly<Record<string, Tree>> = {}): string {
  return sheetText({
    id,
    title: `Unit ${id}`,
    specimen: {
      kind: 'traction-inverter',
      maker: 'Whinfield Works (invented)',
      'dc-voltage': { nominal: '345 V (marked)', max: '430 V (published)' },
      envelope: '400 x 250 x 100 mm (measured)',
      mass: '10.0 ± 0.1 kg (measured)',
    },
    'operating-points': { peak: { power: '100 kW (published)', duration: '30 s (published)' } },
    parts: [
      part('link-cap', 'dc-link-film-capacitor', {
        count: '4',
        capacitance: '120 µF ± 10 % (marked)',
        'rated-voltage': '450 V (marked)',
        marking: 'LC 120 / 450',
        terminals: { plus: 'dc-plus', minus: 'dc-minus' },
      }),
      part('module', 'half-bridge-module', {
        loss: '200 W (judged)',
        faces: { seat: { area: '50 x 40 mm (measured)' } },
        terminals: { 'dc-plus': 'dc-plus', 'dc-minus': 'dc-minus', ac: 'phase-u' },
        each: { u: { state: 'damaged' } },
      }),
      part('choke', 'inductor', { loss: '20 W (judged)', faces: { base: { area: '30 x 30 mm (measured)' } } }),
      part('cold-plate', 'cold-plate', { faces: { top: {}, side: {} } }),
    ],
    nets: {
      'dc-plus': { potential: 'hv-positive' },
      'dc-minus': { potential: 'hv-negative' },
      'phase-u': { potential: 'hv-switching' },
    },
    heat: [
      {
        id: 'module-down',
        from: 'module.u/seat',
        layers: [
          {
            kind: 'thermal-grease',
            thickness: '50 µm (judged)',
            conductivity: '2 W/(m·K) (assumed)',
            area: '50 x 40 mm (judged)',
          },
        ],
        to: 'cold-plate/top',
      },
      {
        id: 'choke-down',
        from: 'choke/base',
        layers: [
          {
            kind: 'thermal-pad',
            thickness: '1 mm (judged)',
            conductivity: '3 W/(m·K) (assumed)',
            area: '30 x 30 mm (judged)',
          },
        ],
        to: 'cold-plate/side',
      },
    ],
    coolant: {
      fluid: 'water',
      flow: '10 L/min (assumed)',
      inlet: '65 °C (published)',
      passages: [
        {
          id: 'first',
          channel: { width: '14 mm (measured)', height: '6 mm (measured)', length: '400 mm (judged)' },
          cools: [{ face: 'cold-plate/top' }],
        },
        {
          id: 'second',
          channel: { width: '14 mm (measured)', height: '6 mm (measured)', length: '400 mm (judged)' },
          cools: [{ face: 'cold-plate/side' }],
        },
      ],
      sequence: ['inlet', 'first', 'second', 'outlet'],
    },
    findings: [
      {
        id: 'soot',
        about: ['module'],
        observation: 'soot at the gate pins',
        reading: 'the gate resistor burnt',
        rivals: [{ reading: 'flux left from soldering' }],
        status: 'open',
      },
    ],
    steps: [{ id: 'prove-dead', 'proved-dead': { across: ['dc-plus', 'dc-minus'], reading: '0.2 V (measured)' } }],
    ...differs,
  })
}
