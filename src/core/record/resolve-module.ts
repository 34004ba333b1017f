// Figures of a module's pins: on-ohms, limits, pull resistors, thresholds, sensor supply.
// It must not decide whether an output is on.

import { type Figure, figure, recorded } from './figure.js';
import type { PartOf } from './part.js';

type ModulePart = PartOf<'module'>;
type Supply = ModulePart['supplies'][number];
type Output = NonNullable<ModulePart['outputs']>[number];
type Input = NonNullable<ModulePart['inputs']>[number];
type SensorSupply = NonNullable<ModulePart['sensorSupplies']>[number];

export function supplyIdleAmps(pin: Supply): Figure {
  return figure(pin.idleAmps, 'module.idleAmps');
}

export function supplyMinimumVolts(pin: Supply, volts: number): Figure {
  return figure(pin.minimumVolts, 'module.minimumRatio', volts);
}

export function outputOnOhms(pin: Output): Figure {
  return figure(pin.onOhms, `module.onOhms.${pin.side}`);
}

export function outputLimitAmps(pin: Output): Figure {
  return figure(pin.limitAmps, 'module.limitAmps');
}

/** The supply or ground terminal that an output switches to: recorded, else the module's first. */
export function outputFrom(part: ModulePart, pin: Output): string {
  return pin.from ?? (pin.side === 'high' ? part.supplies[0]!.terminal : part.grounds[0]!.terminal);
}

/** Direction of the pull resistor: recorded, else up for an input that is active low, down otherwise. */
export function inputPull(pin: Input): 'up' | 'down' | 'none' {
  return pin.pull ?? (inputActive(pin) === 'low' ? 'up' : 'down');
}

/** Level that means true: recorded, else low where the input is pulled up, else high. */
export function inputActive(pin: Input): 'high' | 'low' {
  return pin.active ?? (pin.pull === 'up' ? 'low' : 'high');
}

export function inputPullOhms(pin: Input): Figure {
  const pull = inputPull(pin);
  return figure(pin.pullOhms, pull === 'none' ? 'module.inputOhms' : `module.pullOhms.${pull}`);
}

/** Level between low and high, in volts against the module's ground. */
export function inputThresholdVolts(pin: Input, volts: number): Figure {
  if (pin.thresholdVolts !== undefined) return recorded(pin.thresholdVolts);
  return figure(undefined, 'module.thresholdRatio', pin.pullVolts ?? volts);
}

export function sensorSupplyVolts(pin: SensorSupply): Figure {
  return figure(pin.outputVolts, 'module.sensorSupplyVolts');
}

export function sensorSupplyLimitAmps(pin: SensorSupply): Figure {
  return figure(pin.limitAmps, 'module.sensorSupplyAmps');
}
