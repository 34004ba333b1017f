// Battery, alternator, external supply, jump posts, and the converter that couples two circuits: what they bring to the graph.
// It must not settle anything: limits, regulation and gates are told to the circuit, not worked out here.

import { type Figure, figure, figureByVolts } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import * as resolve from '../../record/resolve-sources.js';
import type { Element, Gate } from '../element.js';
import { caseJoint, groundTerminal } from './case-joint.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';

/** One source between the posts. Charging meets more resistance than discharging. */
export function expandBattery(part: PartOf<'battery'>, site: PartSite): Expansion {
  const emf = resolve.batteryEmfVolts(part, site.volts);
  const discharge = resolve.batteryInternalOhms(part, site.volts);
  const charge = resolve.batteryChargeOhms(part, site.volts);
  return expansion([
    site.element({
      name: 'emf',
      role: 'source',
      a: site.at('pos'),
      b: site.at('neg'),
      law: { kind: 'battery', volts: emf.value, dischargeOhms: discharge.value, chargeOhms: charge.value },
      from: [emf, discharge, charge],
    }),
  ]);
}

/**
 * `output` regulates B+ while turning. Terminal 61 is the rotor to ground while standing (charge lamp lit) and close to
 * B+ while turning (lamp out).
 */
export function expandAlternator(part: PartOf<'alternator'>, site: PartSite): Expansion {
  const negative = site.at(groundTerminal(part));
  const turning: Gate = { kind: 'turning', part: part.address };
  const standing: Gate = { kind: 'standing', part: part.address };
  const volts = resolve.alternatorRegulatedVolts(part, site.volts);
  const limit = resolve.alternatorLimitAmps(part, site.volts);
  const droop = figure(undefined, 'alternator.outputOhms');
  const rotor = resolve.alternatorRotorOhms(part, site.volts);
  const exciter = figure(undefined, 'alternator.exciterOhms');
  return expansion([
    site.element({
      name: 'output',
      role: 'source',
      a: site.at('B+'),
      b: negative,
      law: {
        kind: 'regulated',
        volts: volts.value,
        ohms: droop.value,
        limitAmps: limit.value,
        sense: part.sense ?? null,
      },
      gates: [turning],
      from: [volts, droop, limit],
    }),
    site.element({
      name: 'rotor',
      role: 'component',
      a: site.at('61'),
      b: negative,
      law: ohmic(rotor),
      gates: [standing],
      from: [rotor],
    }),
    site.element({
      name: 'exciter',
      role: 'component',
      a: site.at('B+'),
      b: site.at('61'),
      law: ohmic(exciter),
      gates: [turning],
      from: [exciter],
    }),
    ...caseJoint(part, site),
  ]);
}

/** A bench supply or charger: conducts only in states that attach it. */
export function expandExternalSupply(part: PartOf<'external-supply'>, site: PartSite): Expansion {
  return expansion([
    attachedSupply(
      part,
      site,
      resolve.externalSupplyVolts(part, site.volts),
      resolve.externalSupplyOhms(part),
      resolve.externalSupplyLimitAmps(part),
    ),
  ]);
}

/** Two studs on the feed; a source, the helping battery, only while a supply is attached in a state. */
export function expandJumpPosts(part: PartOf<'jump-posts'>, site: PartSite): Expansion {
  return expansion([
    attachedSupply(
      part,
      site,
      figureByVolts(undefined, 'battery.emfVolts', site.volts, 1),
      figure(undefined, 'jump-posts.internalOhms'),
      figure(undefined, 'jump-posts.limitAmps'),
    ),
  ]);
}

function attachedSupply(
  part: PartOf<'external-supply' | 'jump-posts'>,
  site: PartSite,
  volts: Figure,
  ohms: Figure,
  limit: Figure,
): Element {
  return site.element({
    name: 'supply',
    role: 'source',
    a: site.at('pos'),
    b: site.at('neg'),
    law: { kind: 'regulated', volts: volts.value, ohms: ohms.value, limitAmps: limit.value, sense: null },
    gates: [{ kind: 'attached', part: part.address }],
    from: [volts, ohms, limit],
  });
}

/** Input and output are two elements: the input draws what the output delivers. The output is off below the input cut-off. */
export function expandConverter(part: PartOf<'converter'>, site: PartSite): Expansion {
  const ohms = figure(undefined, 'converter.outputOhms');
  const limit = resolve.converterLimitAmps(part);
  const cutoff = resolve.converterInputCutoffVolts(part, site.volts);
  const efficiency = resolve.converterEfficiency(part);
  const idle = resolve.converterIdleAmps(part);
  const input = { positive: site.at('in'), negative: site.at('neg') };
  return expansion([
    site.element({
      name: 'output',
      role: 'source',
      a: site.at('out'),
      b: site.at(part.isolated === true ? 'outneg' : 'neg'),
      law: {
        kind: 'regulated',
        volts: part.outputVolts,
        ohms: ohms.value,
        limitAmps: limit.value,
        sense: null,
      },
      gates: [{ kind: 'voltage', ...input, closeVolts: cutoff.value, openVolts: cutoff.value }],
      from: [ohms, limit, cutoff],
    }),
    site.element({
      name: 'input',
      role: 'load',
      a: input.positive,
      b: input.negative,
      law: {
        kind: 'converter-input',
        output: site.id('output'),
        efficiency: efficiency.value,
        idleAmps: idle.value,
        cutoffVolts: cutoff.value,
      },
      from: [efficiency, idle, cutoff],
    }),
  ]);
}
