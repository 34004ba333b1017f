// What couples or cuts the batteries: split-charge relay, diode isolator, battery master switch.
// It must not decide whether they conduct; that is the circuit's part.

import { figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import { splitChargeConnectVolts, splitChargeDisconnectVolts } from '../../record/resolve-sources.js';
import { contactOhms } from '../../record/resolve-switching.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';
import { diodeLaw } from './suppressor-law.js';
import { positionContacts } from './switching.js';

/** The contact closes by itself while `A` is above its connect voltage; `sense` is what its electronics draw. */
export function expandSplitChargeRelay(part: PartOf<'split-charge-relay'>, site: PartSite): Expansion {
  const ohms = contactOhms(part);
  const connect = splitChargeConnectVolts(part, site.volts);
  const disconnect = splitChargeDisconnectVolts(part, site.volts);
  const idle = figure(part.idleAmps, 'split-charge.idleAmps');
  const least = figure(undefined, 'split-charge.minimumVolts');
  const sensed = { positive: site.at('A'), negative: site.at('31') };
  return expansion([
    site.element({
      name: 'contact',
      role: 'contact',
      a: site.at('A'),
      b: site.at('B'),
      law: ohmic(ohms),
      gates: [{ kind: 'voltage', ...sensed, closeVolts: connect.value, openVolts: disconnect.value }],
      from: [ohms, connect, disconnect],
    }),
    site.element({
      name: 'sense',
      role: 'bias',
      a: sensed.positive,
      b: sensed.negative,
      law: { kind: 'draw', amps: idle.value, minimumVolts: least.value },
      from: [idle, least],
    }),
  ]);
}

/** One diode from `in` to each output. */
export function expandDiodeIsolator(part: PartOf<'diode-isolator'>, site: PartSite): Expansion {
  const series = figure(undefined, 'diode-isolator.seriesOhms');
  const { law, from } = diodeLaw(part.forwardVolts, series);
  return expansion(
    (part.outputs ?? ['A1', 'A2']).map((output) =>
      site.element({ name: `in-${output}`, role: 'component', a: site.at('in'), b: site.at(output), law, from }),
    ),
  );
}

/** A contact with two positions, in the positive or the negative cable. */
export function expandMasterSwitch(part: PartOf<'master-switch'>, site: PartSite): Expansion {
  return expansion(positionContacts(part, site, contactOhms(part)));
}
