import type { Adapter } from '../case.ts'
import { bridgeAdapters } from './bridge.ts'
import { capacitorAdapters } from './capacitors.ts'
import { conductionAdapter } from './conduction.ts'
import { convectionAdapter } from './convection.ts'
import { coolantFlowAdapter } from './coolant-flow.ts'
import { coolantPropertiesAdapter } from './coolant-properties.ts'
import { dcLinkAdapters } from './dc-link.ts'
import { frequencyDependenceAdapter } from './frequency-dependence.ts'
import { inductanceAdapters } from './inductance.ts'
import { insulationAdapter } from './insulation.ts'
import { magneticCoreAdapter } from './magnetic-core.ts'
import { pcbTraceAdapter } from './pcb-trace.ts'
import { sheetAdapters } from './sheets.ts'
import { thermalSheetAdapters } from './sheets-thermal.ts'
import { thermalNetworkAdapter } from './thermal-network.ts'
import { transientAdapter } from './transient.ts'
import { uncertainty } from './uncertainty.ts'
import { units } from './units.ts'

/** Every adapter; the first that takes a topic and can answer does. */
export const adapters: readonly Adapter[] = [
  ...sheetAdapters,
  ...thermalSheetAdapters,
  units,
  uncertainty,
  ...dcLinkAdapters,
  ...capacitorAdapters,
  ...bridgeAdapters,
  ...inductanceAdapters,
  frequencyDependenceAdapter,
  magneticCoreAdapter,
  pcbTraceAdapter,
  insulationAdapter,
  coolantPropertiesAdapter,
  coolantFlowAdapter,
  convectionAdapter,
  conductionAdapter,
  thermalNetworkAdapter,
  transientAdapter,
]
