import { DomainError } from './method.ts'
import { minus, over, type Phasor, plus, size, times } from './phasor.ts'

/** One branch of a network between two rails. Nodes are named; a capacitance, conductance or complex admittance is given. */
export type RailBranch = { readonly from: string; readonly to: string; readonly admittance: Phasor }

export type RailSolution = {
  /** What the rails see, in the unit of the branches. */
  readonly admittance: Phasor
  /** Voltage over each branch, from → to, with 1 V from the plus to the minus rail; 0 where no current path holds it. */
  readonly branchVoltages: readonly Phasor[]
}

/**
 * Any network of branches between two rails, by nodal analysis: Kirchhoff's current law at every node but the rails, and Tellegen's theorem for what they see.
 * Works for series, parallel, bridged and meshed arrangements alike; branches that hang off one end carry no voltage.
 *
 * @throws {DomainError} when the rails are the same node, no path of branches leads from one to the other, or the
 *   network resonates without loss (singular)
 */
export function solveRails(branches: readonly RailBranch[], plusRail: string, minusRail: string): RailSolution {
  if (plusRail === minusRail) throw new DomainError('solveRails', 'minusRail', minusRail, 'another node than plusRail')
  const joined = reachable(branches, [plusRail])
  if (!joined.has(minusRail))
    throw new DomainError('solveRails', 'branches', `${branches.length} branches`, 'a path from rail to rail')
  const nodes = [...joined].filter((node) => node !== plusRail && node !== minusRail)
  const potentials = solveNodes(branches, nodes, plusRail)
  const at = (node: string): Phasor => potentials.get(node) ?? [node === plusRail ? 1 : 0, 0]
  const drop = (branch: RailBranch): Phasor =>
    joined.has(branch.from) ? minus(at(branch.from), at(branch.to)) : ([0, 0] as const)
  const branchVoltages = branches.map(drop)
  // Σ y v² rather than the current out of one rail: its error is of second order, also for very unequal branches.
  const admittance = branches.reduce<Phasor>(
    (sum, branch, i) => {
      const voltage = branchVoltages[i]!
      return plus(sum, times(branch.admittance, times(voltage, voltage)))
    },
    [0, 0],
  )
  return { admittance, branchVoltages }
}

/** Every node that a path of branches joins to the given ones. */
function reachable(branches: readonly RailBranch[], start: readonly string[]): ReadonlySet<string> {
  const neighbours = new Map<string, string[]>()
  const link = (a: string, b: string) => neighbours.set(a, [...(neighbours.get(a) ?? []), b])
  for (const { from, to, admittance } of branches) {
    if (size(admittance) === 0) continue
    link(from, to)
    link(to, from)
  }
  const seen = new Set(start)
  const queue = [...start]
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    for (const next of neighbours.get(node) ?? []) {
      if (!seen.has(next)) queue.push(next)
      seen.add(next)
    }
  }
  return seen
}

/** Potential of each inner node with the plus rail at 1 V and the minus rail at 0 V. */
function solveNodes(branches: readonly RailBranch[], nodes: readonly string[], plusRail: string) {
  const index = new Map(nodes.map((node, i) => [node, i]))
  const rows: Phasor[][] = nodes.map(() => Array.from({ length: nodes.length + 1 }, (): Phasor => [0, 0]))
  const add = (row: number, column: number, value: Phasor) => {
    rows[row]![column] = plus(rows[row]![column]!, value)
  }
  for (const { from, to, admittance } of branches) {
    for (const [here, there] of [
      [from, to],
      [to, from],
    ] as const) {
      const row = index.get(here)
      if (row === undefined || here === there) continue
      add(row, row, admittance)
      const column = index.get(there)
      if (column !== undefined) add(row, column, times([-1, 0], admittance))
      else if (there === plusRail) add(row, nodes.length, admittance)
    }
  }
  const solution = eliminate(rows)
  return new Map(nodes.map((node, i) => [node, solution[i]!]))
}

/** Gaussian elimination with partial pivoting of an augmented matrix, which it uses up. */
function eliminate(rows: Phasor[][]): readonly Phasor[] {
  const n = rows.length
  for (let column = 0; column < n; column++) {
    let pivot = column
    for (let row = column + 1; row < n; row++) {
      if (size(rows[row]![column]!) > size(rows[pivot]![column]!)) pivot = row
    }
    ;[rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!]
    const lead = rows[column]![column]!
    if (size(lead) === 0) throw new DomainError('solveRails', 'branches', 'a lossless resonance', 'a solvable network')
    for (let row = column + 1; row < n; row++) {
      const factor = over(rows[row]![column]!, lead)
      for (let k = column; k <= n; k++) rows[row]![k] = minus(rows[row]![k]!, times(factor, rows[column]![k]!))
    }
  }
  const solution: Phasor[] = []
  for (let row = n - 1; row >= 0; row--) {
    let rest = rows[row]![n]!
    for (let k = row + 1; k < n; k++) rest = minus(rest, times(rows[row]![k]!, solution[k]!))
    solution[row] = over(rest, rows[row]![row]!)
  }
  return solution
}
