import { BOARD_COLUMNS, BOARD_SLOPES, BOARD_SPACING, type BoardColumn, TABLE_SOURCES } from './insulation-tables.ts'
import { DomainError, defineMethod, requireNonNegative } from './method.ts'

export type BoardSpacingInputs = { voltage: number; column: BoardColumn }

/**
 * Conductor spacing on boards by IPC-2221: B1 internal; B2 external, bare, to 3050 m; B3 external, bare, above; B4
 * external under permanent polymer; A5 external under coating of the assembly; A6 component leads, bare; A7 component
 * leads, coated. A voltage takes the row that ends at it or next above; beyond 500 V a straight line is added. For
 * function, not for protection against shock: there IEC 60664-1 decides.
 *
 * @param voltage peak or DC between conductors [V], ≥ 0
 * @param column  B1 … A7
 * @returns [m]
 * @throws {DomainError} on a negative voltage or an unknown column
 *
 * @example boardSpacing({ voltage: 600, column: 'B2' }) // 3e-3
 */
export function boardSpacing({ voltage, column }: BoardSpacingInputs): number {
  requireNonNegative('boardSpacing', 'voltage', voltage)
  const at = BOARD_COLUMNS.indexOf(column)
  if (at === -1) throw new DomainError('boardSpacing', 'column', column, BOARD_COLUMNS.join(', '))
  const row = BOARD_SPACING.find(([upTo]) => upTo! >= voltage)
  const last = BOARD_SPACING.at(-1)!
  const spacing = row ? row[at + 1]! : last[at + 1]! + (voltage - last[0]!) * BOARD_SLOPES[at]!
  return spacing * 1e-3
}

export const boardSpacingMethod = defineMethod<BoardSpacingInputs, { readonly spacing: number }>({
  id: 'board-spacing',
  title: 'Conductor spacing on boards by IPC-2221',
  takes: {
    voltage: { unit: 'V', about: 'peak or DC between the conductors' },
    column: { words: BOARD_COLUMNS, about: 'where the conductors are and how they are covered' },
  },
  gives: { spacing: { unit: 'm', print: 'mm', about: 'least distance between conductors' } },
  caution:
    'For function only: protection against electric shock is dimensioned by IEC 60664-1 and the product standard.',
  sources: [TABLE_SOURCES.board],
  compute: (inputs) => ({ spacing: boardSpacing(inputs) }),
})

export const boardSpacingMethods = [boardSpacingMethod] as const
