import { airCoolingMethods } from './physics/air-cooling.ts'
import { barMethods } from './physics/bar-methods.ts'
import { barSkinMethods } from './physics/bar-skin.ts'
import { boardSpacingMethods } from './physics/board-spacing.ts'
import { boilingMethods } from './physics/boiling.ts'
import { bridgeLossMethods } from './physics/bridge-loss.ts'
import { capacitorBankMethods } from './physics/capacitor-bank.ts'
import { capacitorShareMethods } from './physics/capacitor-share.ts'
import { chopperMethods } from './physics/chopper.ts'
import { conductionLossMethods } from './physics/conduction-loss.ts'
import { conductorMethods } from './physics/conductor.ts'
import { convectionMethods } from './physics/convection.ts'
import { coolantEnergyMethods } from './physics/coolant-energy.ts'
import { coolantFluidMethods } from './physics/coolant-fluid.ts'
import { coplanarMethods } from './physics/coplanar.ts'
import { coreFamilyMethods } from './physics/core-family.ts'
import { coreImpedanceMethods } from './physics/core-impedance.ts'
import { coreMaterialMethods } from './physics/core-material.ts'
import { coupledTraceMethods } from './physics/coupled-traces.ts'
import { dcLinkMethods } from './physics/dc-link.ts'
import { dischargeMethods } from './physics/discharge.ts'
import { dischargeNetworkMethods } from './physics/discharge-network.ts'
import { ductMethods } from './physics/duct.ts'
import { ductFilmMethods } from './physics/duct-film.ts'
import { electrothermalMethods } from './physics/electrothermal.ts'
import { fanMethods } from './physics/fan.ts'
import { finMethods } from './physics/fins.ts'
import { gateDriveMethods } from './physics/gate-drive.ts'
import { heatFluxMethods } from './physics/heat-flux.ts'
import { insulationMethods } from './physics/insulation.ts'
import { jetMethods } from './physics/jets.ts'
import { laminatedMethods } from './physics/laminated.ts'
import { layerStackMethods } from './physics/layer-stack.ts'
import { linkModulationMethods } from './physics/link-modulation.ts'
import { loopMethods } from './physics/loop.ts'
import { meanLogMethods } from './physics/mean-log.ts'
import type { Method } from './physics/method.ts'
import { microstripMethods } from './physics/microstrip.ts'
import { minorLossMethods } from './physics/minor-loss.ts'
import { networkMethods } from './physics/network-methods.ts'
import { oRingMethods } from './physics/o-ring.ts'
import { openReferenceMethods } from './physics/open-reference.ts'
import { parallelDuctMethods } from './physics/parallel-ducts.ts'
import { perfectConductorMethods } from './physics/perfect-conductor.ts'
import { pinBankMethods } from './physics/pin-fins.ts'
import { plateHoleMethods } from './physics/plate-hole.ts'
import { platePairMethods } from './physics/plate-pair.ts'
import { plateSourceMethods } from './physics/plate-source.ts'
import { ringCoreMethods } from './physics/ring-core.ts'
import { ringFluxMethods } from './physics/ring-flux.ts'
import { roundWireMethods } from './physics/round-wire.ts'
import { safetyLimitMethods } from './physics/safety-limits.ts'
import { skinEffectMethods } from './physics/skin-effect.ts'
import { closedSpreadingMethods } from './physics/spreading-closed.ts'
import { stackFieldMethods } from './physics/stack-field.ts'
import { striplineMethods } from './physics/stripline.ts'
import { switchingLossMethods } from './physics/switching-loss.ts'
import { transientMethods } from './physics/transient.ts'
import { wireSkinMethods } from './physics/wire-skin.ts'

/** A calculation as it is called by name: its inputs and outputs are checked against `takes` and `gives`, not by type. */
export type Calculator = Method<Record<string, unknown>>

/** Every bench calculator, by topic. The lists stand beside the functions; this one only joins them. */
export const calculators: readonly Calculator[] = [
  ...airCoolingMethods,
  ...barMethods,
  ...barSkinMethods,
  ...boardSpacingMethods,
  ...boilingMethods,
  ...bridgeLossMethods,
  ...capacitorBankMethods,
  ...capacitorShareMethods,
  ...chopperMethods,
  ...conductionLossMethods,
  ...conductorMethods,
  ...convectionMethods,
  ...coolantEnergyMethods,
  ...coolantFluidMethods,
  ...coplanarMethods,
  ...coreFamilyMethods,
  ...coreImpedanceMethods,
  ...coreMaterialMethods,
  ...coupledTraceMethods,
  ...dcLinkMethods,
  ...dischargeMethods,
  ...dischargeNetworkMethods,
  ...ductFilmMethods,
  ...ductMethods,
  ...electrothermalMethods,
  ...fanMethods,
  ...finMethods,
  ...gateDriveMethods,
  ...heatFluxMethods,
  ...insulationMethods,
  ...jetMethods,
  ...laminatedMethods,
  ...layerStackMethods,
  ...linkModulationMethods,
  ...loopMethods,
  ...meanLogMethods,
  ...microstripMethods,
  ...minorLossMethods,
  ...networkMethods,
  ...oRingMethods,
  ...openReferenceMethods,
  ...parallelDuctMethods,
  ...perfectConductorMethods,
  ...pinBankMethods,
  ...plateHoleMethods,
  ...platePairMethods,
  ...plateSourceMethods,
  ...ringCoreMethods,
  ...ringFluxMethods,
  ...roundWireMethods,
  ...safetyLimitMethods,
  ...skinEffectMethods,
  ...closedSpreadingMethods,
  ...stackFieldMethods,
  ...striplineMethods,
  ...switchingLossMethods,
  ...transientMethods,
  ...wireSkinMethods,
] as unknown as readonly Calculator[]
