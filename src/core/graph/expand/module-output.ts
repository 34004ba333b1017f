// One output of a module: its driver, the reverse diode beside it, and the pull-up that shows while it is off.
// It must not decide whether the output is on.

import { figure, recorded } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import { outputFrom, outputLimitAmps, outputOnOhms } from '../../record/resolve-module.js';
import type { Element, Gate } from '../element.js';
import { ohmic, type PartSite } from './part-site.js';

type ModulePart = PartOf<'module'>;
type Output = NonNullable<ModulePart['outputs']>[number];

/** High side: supply to output. Low side: output to ground. The diode conducts the other way round and carries the leakage. */
export function outputElements(part: ModulePart, pin: Output, site: PartSite, awake: Gate): readonly Element[] {
  const switched = site.at(outputFrom(part, pin));
  const out = site.at(pin.terminal);
  const [a, b] = pin.side === 'high' ? [switched, out] : [out, switched];
  const onOhms = outputOnOhms(pin);
  const forward = figure(undefined, 'module.reverseVolts');
  const series = figure(undefined, 'module.reverseOhms');
  const leak = figure(undefined, 'module.offLeakOhms');
  return [
    site.element({
      name: `${pin.terminal}-driver`,
      role: 'output',
      a,
      b,
      law: ohmic(onOhms),
      gates: [{ kind: 'output', module: part.address, terminal: pin.terminal }],
      from: [onOhms, outputLimitAmps(pin)],
    }),
    site.element({
      name: `${pin.terminal}-diode`,
      role: 'component',
      a: b,
      b: a,
      law: { kind: 'diode', forwardVolts: forward.value, seriesOhms: series.value, leakOhms: leak.value },
      from: [forward, series, leak],
    }),
    ...offPullUp(part, pin, site, awake),
  ];
}

/** Only where recorded: it is how some modules sense an open load. */
function offPullUp(part: ModulePart, pin: Output, site: PartSite, awake: Gate): readonly Element[] {
  if (pin.offPullUpOhms === undefined) return [];
  const supply = pin.side === 'high' ? outputFrom(part, pin) : part.supplies[0].terminal;
  return [
    site.element({
      name: `${pin.terminal}-pull-up`,
      role: 'bias',
      a: site.at(supply),
      b: site.at(pin.terminal),
      law: ohmic(recorded(pin.offPullUpOhms)),
      gates: [awake],
    }),
  ];
}
