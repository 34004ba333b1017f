// Control module: what each of its pins is to the circuit, and what the circuit must know to wake it and switch its outputs.
// It must not evaluate expressions or thresholds.

import { figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import * as resolve from '../../record/resolve-module.js';
import type { Element, Gate } from '../element.js';
import type { ModuleInfo } from '../harness-graph.js';
import { caseJoint } from './case-joint.js';
import { inputBias } from './module-input.js';
import { outputElements } from './module-output.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';

type ModulePart = PartOf<'module'>;

export function expandModule(part: ModulePart, site: PartSite): Expansion {
  const awake: Gate = { kind: 'awake', module: part.address };
  const outputs = part.outputs ?? [];
  const inputs = part.inputs ?? [];
  return expansion(
    [
      ...part.supplies.map((pin) => idleDraw(part, pin, site, awake)),
      ...groundTies(part, site),
      ...outputs.flatMap((pin) => outputElements(part, pin, site, awake)),
      ...inputs.map((pin) => inputBias(part, pin, site, awake)),
      ...(part.sensorSupplies ?? []).map((pin) => sensorSupply(part, pin, site, awake)),
      ...caseJoint(part, site),
    ],
    { module: moduleInfo(part, site) },
  );
}

/** What the module itself draws at a supply pin while awake. */
function idleDraw(part: ModulePart, pin: ModulePart['supplies'][number], site: PartSite, awake: Gate): Element {
  const amps = resolve.supplyIdleAmps(pin);
  const minimum = resolve.supplyMinimumVolts(pin, site.volts);
  return site.element({
    name: `${pin.terminal}-idle`,
    role: 'bias',
    a: site.at(pin.terminal),
    b: site.at(firstGround(part)),
    law: { kind: 'draw', amps: amps.value, minimumVolts: minimum.value },
    gates: [awake],
    from: [amps, minimum],
  });
}

/** Grounds meet on the board: without this a sensor's return would end in the air. */
function groundTies(part: ModulePart, site: PartSite): readonly Element[] {
  const ohms = figure(undefined, 'module.groundTieOhms');
  return part.grounds.slice(1).map((pin) =>
    site.element({
      name: `${pin.terminal}-tie`,
      role: 'bias',
      a: site.at(pin.terminal),
      b: site.at(firstGround(part)),
      law: ohmic(ohms),
      from: [ohms],
    }),
  );
}

function sensorSupply(
  part: ModulePart,
  pin: NonNullable<ModulePart['sensorSupplies']>[number],
  site: PartSite,
  awake: Gate,
): Element {
  const volts = resolve.sensorSupplyVolts(pin);
  const limit = resolve.sensorSupplyLimitAmps(pin);
  const ohms = figure(undefined, 'module.sensorSupplyOhms');
  return site.element({
    name: `${pin.terminal}-supply`,
    role: 'source',
    a: site.at(pin.terminal),
    b: site.at(pin.ground ?? firstGround(part)),
    law: { kind: 'regulated', volts: volts.value, ohms: ohms.value, limitAmps: limit.value, sense: null },
    gates: [awake],
    from: [volts, ohms, limit],
  });
}

function moduleInfo(part: ModulePart, site: PartSite): ModuleInfo {
  return {
    part: part.address,
    supplies: part.supplies.map((pin) => ({
      point: site.at(pin.terminal),
      minimumVolts: resolve.supplyMinimumVolts(pin, site.volts).value,
    })),
    grounds: part.grounds.map((pin) => site.at(pin.terminal)),
    inputs: (part.inputs ?? []).map((pin) => ({
      terminal: pin.terminal,
      point: site.at(pin.terminal),
      ground: site.at(firstGround(part)),
      thresholdVolts: resolve.inputThresholdVolts(pin, site.volts).value,
      active: resolve.inputActive(pin),
    })),
    outputs: (part.outputs ?? []).map((pin) => ({
      terminal: pin.terminal,
      point: site.at(pin.terminal),
      element: site.id(`${pin.terminal}-driver`),
      on: pin.on ?? null,
      limitAmps: resolve.outputLimitAmps(pin).value,
      tripsAtAmps: pin.tripsAtAmps ?? null,
      pulsed: pin.pulsed ?? false,
    })),
  };
}

function firstGround(part: ModulePart): string {
  return part.grounds[0].terminal;
}
