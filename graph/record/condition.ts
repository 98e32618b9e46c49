import { type Field, quantity } from './field.ts'

/** What data can depend on: `at: { junction: 125 °C, current: 100 A }`. */
export const CONDITIONS: Readonly<Record<string, Field>> = {
  temperature: quantity('temperature', 'Of the thing itself.'),
  junction: quantity('temperature', 'Of the active part of the die.'),
  case: quantity('temperature', 'Of the case of the device.'),
  ambient: quantity('temperature', 'Of the air around.'),
  coolant: quantity('temperature', 'Of the coolant.'),
  'coolant-inlet': quantity('temperature', 'Of the coolant entering.'),
  'coolant-flow': quantity('flow', 'Of the coolant.'),
  flow: quantity('flow', 'Of the coolant.'),
  current: quantity('current', 'Through the device, rms unless it says peak.'),
  'phase-current': quantity('current', 'Of one phase, rms.'),
  voltage: quantity('voltage', 'Across the device or the link.'),
  swing: quantity('voltage', 'Of the gate, lowest to highest.'),
  'gate-voltage': quantity('voltage', 'On the gate against its reference.'),
  'gate-resistance': quantity('resistance', 'In the gate circuit.'),
  'current-slope': quantity('current-slope', 'At switching.'),
  frequency: quantity('frequency', 'Of the test signal or the ripple.'),
  'switching-frequency': quantity('frequency', 'Switching cycles per second.'),
  bias: quantity('current', 'Direct current through a core.'),
  'dc-bias': quantity('voltage', 'Direct voltage across a capacitor.'),
  field: quantity('magnetic-field', 'Magnetic field strength.'),
  'flux-density': quantity('flux-density', 'Peak flux density.'),
  power: quantity('power', 'Load.'),
  duration: quantity('time', 'How long.'),
  pressure: quantity('pressure', 'Of the fluid, or on the joint.'),
  force: quantity('force', 'On the joint.'),
  torque: quantity('torque', 'On the screw.'),
  altitude: quantity('length', 'Above sea level.'),
}

export function conditionField(name: string): Field | undefined {
  return Object.hasOwn(CONDITIONS, name) ? CONDITIONS[name] : undefined
}
