// One input of a module: the resistor that gives it a level when nothing drives it.
// It must not read the level.

import type { PartOf } from '../../record/part.js';
import { inputPull, inputPullOhms } from '../../record/resolve-module.js';
import type { Element, Gate } from '../element.js';
import { ohmic, type PartSite } from './part-site.js';

type ModulePart = PartOf<'module'>;
type Input = NonNullable<ModulePart['inputs']>[number];

/** Up to a supply pin or to an internal supply while awake; down, or as a bare input, to ground. */
export function inputBias(part: ModulePart, pin: Input, site: PartSite, awake: Gate): Element {
  const ohms = inputPullOhms(pin);
  const input = site.at(pin.terminal);
  const firstGround = part.grounds[0].terminal;
  const pull = inputPull(pin);
  const common = { name: `${pin.terminal}-pull`, role: 'bias', from: [ohms] } as const;
  if (pull !== 'up') {
    const ground = pull === 'down' ? (pin.to ?? firstGround) : firstGround;
    return site.element({ ...common, a: input, b: site.at(ground), law: ohmic(ohms) });
  }
  if (pin.pullVolts === undefined) {
    const supply = pin.to ?? part.supplies[0].terminal;
    return site.element({ ...common, a: site.at(supply), b: input, law: ohmic(ohms), gates: [awake] });
  }
  return site.element({
    ...common,
    a: input,
    b: site.at(firstGround),
    law: {
      kind: 'regulated',
      volts: pin.pullVolts,
      ohms: ohms.value,
      limitAmps: (NEVER_LIMITING * pin.pullVolts) / ohms.value,
      sense: null,
    },
    gates: [awake],
  });
}

/** The resistor itself holds the current to volts / ohms; the limit must stay clear of that. */
const NEVER_LIMITING = 10;
