import { Matrix, solve } from 'ml-matrix'
import { isothermalWall } from '../../../queries/physics/coolant-energy.ts'
import { pinFinEfficiency } from '../../../queries/physics/fins.ts'
import { sourceOnPlate } from '../../../queries/physics/plate-source.ts'
import { stackField } from '../../../queries/physics/stack-field.ts'
import { solveNetwork } from '../../../queries/physics/thermal-network.ts'
import { ladderToFoster, transientImpedance } from '../../../queries/physics/transient.ts'
import { draws, repeated, type Sweep, type Worst, worst } from './sweep.ts'

function spreading(part: 'meanResistance' | 'centreResistance'): Worst {
  const { even } = draws(53)
  return worst(
    repeated(25, () => {
      const [sourceX, sourceY, film] = [even(0.006, 0.014), even(0.0045, 0.0105), even(500, 20_000)]
      const [upper, lower] = [{ thickness: even(1e-3, 5e-3), thermalConductivity: even(20, 400) }, ALUMINIUM]
      const series = sourceOnPlate({
        sourceX,
        sourceY,
        ...PLATE,
        thicknesses: [upper.thickness, lower.thickness],
        thermalConductivities: [upper.thermalConductivity, lower.thermalConductivity],
        filmCoefficient: film,
      })
      const field = stackField({
        layers: [lower, upper].map((layer) => ({ ...layer, x: PLATE.plateX, y: PLATE.plateY })),
        source: { layer: 1, x: sourceX, y: sourceY },
        bottomCoefficient: film,
      })
      return [series[part], field[part]] as const
    }),
  )
}

const PLATE = { plateX: 0.04, plateY: 0.03 }
const ALUMINIUM = { thickness: 2e-3, thermalConductivity: 167 }

/** Heat of a pin by finite volumes from the tip back, over that of a pin at the temperature of its base. */
function pinByVolumes(pin: Parameters<typeof pinFinEfficiency>[0]): number {
  const n = 20_000
  const { diameter, length, thermalConductivity, filmCoefficient } = pin
  const dx = length / n
  const section = (Math.PI / 4) * diameter ** 2
  const along = (thermalConductivity * section) / dx
  let beyond = 1 / (1 / (filmCoefficient * section) + 1 / (2 * along))
  for (let k = n - 1; k >= 0; k--) {
    const cell = filmCoefficient * Math.PI * diameter * dx + beyond
    beyond = 1 / (1 / cell + 1 / (k === 0 ? 2 * along : along))
  }
  return beyond / (filmCoefficient * (Math.PI * diameter * length + section))
}

function pins(): Worst {
  const { log, even } = draws(59)
  return worst(
    repeated(40, () => {
      const pin = {
        diameter: even(5e-4, 5e-3),
        length: log(1e-4, 0.05),
        thermalConductivity: even(100, 400),
        filmCoefficient: log(10, 30_000),
      }
      return [pinFinEfficiency(pin).convectingTip, pinByVolumes(pin)] as const
    }),
  )
}

/** Random chains with cross links, each node with a loss, against a dense elimination of the same balances. */
function networks(): Worst {
  const { log, even } = draws(61)
  return worst(
    repeated(20, () => {
      const n = Math.round(even(100, 300))
      const nodes = Array.from({ length: n }, (_, k) => `n${k}`)
      const any = (): number => Math.min(n - 1, Math.floor(even(0, n)))
      const pairs = [
        ...Array.from({ length: n - 1 }, (_, k) => [k, k + 1] as const),
        ...Array.from({ length: n / 2 }, () => [any(), any()] as const),
      ].filter(([i, j]) => i !== j)
      const links = pairs.map(([i, j]) => ({ i, j, conductance: log(0.1, 30) }))
      const losses = nodes.map(() => even(0, 100))
      const sinks = [0, n - 1].map((at) => ({ at, conductance: log(1, 30), temperature: even(280, 340) }))
      const state = solveNetwork({
        nodes,
        links: links.map(({ i, j, conductance }) => ({ a: nodes[i]!, b: nodes[j]!, conductance })),
        sources: losses.map((loss, at) => ({ node: nodes[at]!, loss })),
        sinks: sinks.map(({ at, ...sink }) => ({ id: `s${at}`, node: nodes[at]!, ...sink })),
      })
      if (!state.stable) throw new Error('a network without feedback cannot run away')
      const [matrix, right] = [Matrix.zeros(n, n), Matrix.zeros(n, 1)]
      const add = (i: number, j: number, value: number): unknown => matrix.set(i, j, matrix.get(i, j) + value)
      for (const { i, j, conductance: g } of links) {
        add(i, i, g)
        add(j, j, g)
        add(i, j, -g)
        add(j, i, -g)
      }
      for (const { at, conductance } of sinks) add(at, at, conductance)
      for (const [at, loss] of losses.entries()) right.set(at, 0, loss)
      for (const { at, conductance: g, temperature } of sinks) right.set(at, 0, right.get(at, 0) + g * temperature)
      const dense = solve(matrix, right)
      return worstOf(nodes.map((node, at) => [state.temperatures[node]!, dense.get(at, 0)] as const))
    }),
  )
}

/** The pair that differs most. */
function worstOf(pairs: readonly (readonly [number, number])[]): readonly [number, number] {
  const off = ([a, b]: readonly [number, number]): number => Math.abs(a / b - 1)
  return pairs.reduce((most, pair) => (off(pair) > off(most) ? pair : most))
}

/** Rise of the first node of a ladder after a step of 1 W, trapezoidal steps. */
function ladderByStepping(c: readonly number[], r: readonly number[], time: number): number {
  const [n, steps] = [c.length, 4000]
  const dt = time / steps
  const g = Matrix.zeros(n, n)
  for (let i = 0; i < n; i++) {
    const to = 1 / r[i]!
    g.set(i, i, g.get(i, i) + to)
    if (i + 1 === n) continue
    g.set(i + 1, i + 1, to)
    g.set(i, i + 1, -to)
    g.set(i + 1, i, -to)
  }
  const capacities = Matrix.diag([...c])
  const ahead = Matrix.add(capacities, Matrix.mul(g, dt / 2))
  const behind = Matrix.sub(capacities, Matrix.mul(g, dt / 2))
  const forward = solve(ahead, behind)
  const push = solve(ahead, Matrix.columnVector([dt, ...new Array<number>(n - 1).fill(0)]))
  let rise = Matrix.zeros(n, 1)
  for (let k = 0; k < steps; k++) rise = Matrix.add(forward.mmul(rise), push)
  return rise.get(0, 0)
}

function ladders(): Worst {
  const { log } = draws(67)
  return worst(
    repeated(20, () => {
      const c = Array.from({ length: 4 }, (_, k) => log(0.02, 0.2) * 6 ** k)
      const r = Array.from({ length: 4 }, () => log(0.01, 0.3))
      const slowest = c.reduce((a, b) => a + b) * r.reduce((a, b) => a + b)
      const time = log(0.01, 1) * slowest
      const foster = ladderToFoster({ heatCapacities: c, ladderResistances: r })
      return [transientImpedance({ ...foster, time }), ladderByStepping(c, r, time)] as const
    }),
  )
}

function walls(): Worst {
  const { log } = draws(71)
  return worst(
    repeated(40, () => {
      const wall = {
        heatCapacityRate: log(20, 2000),
        wallConductance: log(1, 2000),
        inletTemperature: 300,
        wallTemperature: 360,
      }
      const slices = 20_000
      let coolant = wall.inletTemperature
      for (let k = 0; k < slices; k++) {
        // Each slice by the mean of the temperatures before and behind it.
        const half = wall.wallConductance / wall.heatCapacityRate / slices / 2
        coolant = (coolant * (1 - half) + 2 * half * wall.wallTemperature) / (1 + half)
      }
      return [isothermalWall(wall).heat, wall.heatCapacityRate * (coolant - wall.inletTemperature)] as const
    }),
  )
}

export const heatSweeps: readonly Sweep[] = [
  {
    field: 'thermal',
    method: 'source on a layered plate, Fourier series, mean of the source',
    range:
      '40 × 30 mm plate of two layers, source 6 … 14 × 4.5 … 10.5 mm, film 500 … 20,000 W/(m²·K), 20 … 400 W/(m·K)',
    against: 'finite volumes in three dimensions, default grid (itself within 1 %)',
    run: () => spreading('meanResistance'),
  },
  {
    field: 'thermal',
    method: 'the same, centre of the source',
    range: 'the same',
    against: 'the same',
    run: () => spreading('centreResistance'),
  },
  {
    field: 'thermal',
    method: 'round pin with a convecting tip',
    range: 'diameter 0.5 … 5 mm, length 0.1 … 50 mm, film 10 … 30,000 W/(m²·K), 100 … 400 W/(m·K)',
    against: '20,000 finite volumes along the pin',
    run: pins,
  },
  {
    field: 'thermal',
    method: 'heat network, sparse elimination, temperatures in kelvin',
    range: 'chains of 100 … 300 nodes with cross links, conductances 0.1 … 30 W/K',
    against: 'dense elimination of the same balances by ml-matrix',
    run: networks,
  },
  {
    field: 'thermal',
    method: 'transient impedance of a ladder by its eigenvalues',
    range: 'four cells, 0.02 … 43 J/K, 0.01 … 0.3 K/W, 1 … 100 % of the slowest time',
    against: '4,000 trapezoidal steps',
    run: ladders,
  },
  {
    field: 'thermal',
    method: 'coolant past a wall of one temperature, heat',
    range: '20 … 2,000 W/K of coolant, 1 … 2,000 W/K of wall',
    against: '20,000 slices along the wall',
    run: walls,
  },
]
