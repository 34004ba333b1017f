// Starter: the solenoid's winding from 50 closes 30 to the motor (DIN 72552: 50 starter control, 30 battery direct).
// It must not decide when it pulls in.

import { combine, figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import * as resolve from '../../record/resolve-loads.js';
import type { LoadFunction } from '../element.js';
import { caseJoint, groundTerminal } from './case-joint.js';
import { type Expansion, expansion, marksOf, ohmic, type PartSite } from './part-site.js';

export function expandStarter(part: PartOf<'starter'>, site: PartSite): Expansion {
  const ground = site.at(groundTerminal(part));
  const ratedVolts = resolve.ratedVolts(part, site.volts);
  const winding = resolve.starterSolenoidOhms(part, site.volts);
  const pullIn = resolve.starterPullInVolts(part, site.volts);
  const dropOut = resolve.starterDropOutVolts(part, site.volts);
  const contact = figure(undefined, 'starter.contactOhms');
  const crank = resolve.starterCrankAmps(part);
  const stall = resolve.starterStallOhms(part, site.volts);
  const start = figure(undefined, 'load.motor.startRatio', ratedVolts);
  const weak = figure(undefined, 'load.motor.weakRatio', ratedVolts);
  const motor = site.element({
    name: 'motor',
    role: 'load',
    a: site.id('inner'),
    b: ground,
    law: {
      kind: 'motor',
      ratedVolts,
      ratedAmps: crank.value,
      stallOhms: stall.value,
      startVolts: start.value,
      reversible: false,
    },
    from: [crank, stall, start],
  });
  const cranking: LoadFunction = {
    id: part.address,
    part: part.address,
    name: 'motor',
    element: motor.id,
    feed: motor.a,
    return: motor.b,
    ratedVolts,
    ratedAmps: crank.value,
    weakBelowVolts: combine([weak, start], Math.max).value,
    deadBelowVolts: start.value,
    law: 'motor',
    marks: marksOf(part),
  };
  return expansion(
    [
      site.element({
        name: 'coil',
        role: 'coil',
        a: site.at('50'),
        b: ground,
        law: ohmic(winding),
        coil: { pullInVolts: pullIn.value, dropOutVolts: dropOut.value },
        from: [winding, pullIn, dropOut],
      }),
      site.element({
        name: 'contact',
        role: 'contact',
        a: site.at('30'),
        b: site.id('inner'),
        law: ohmic(contact),
        gates: [{ kind: 'coil', coil: site.id('coil'), when: 'pulled' }],
        from: [contact],
      }),
      motor,
      ...caseJoint(part, site),
    ],
    { inner: [site.inner('inner')], functions: [cranking] },
  );
}
