// Sources, what couples them and what protects, as branches for SPICE.
// It must not import anything of the graph or the circuit.

import { figure, figureByVolts } from '../../src/core/record/figure.js';
import type { Part } from '../../src/core/record/part.js';
import * as protection from '../../src/core/record/resolve-protection.js';
import * as sources from '../../src/core/record/resolve-sources.js';
import { parseWireSize } from '../../src/core/units/wire-size.js';
import type { PartContext } from './sketch-record.js';

/** Rotor current that excites an alternator through its lamp, amps: as the project documents it. */
const EXCITATION_AMPS = 0.05;

export function sketchSource(part: Part, { sketch, state, systemVolts, at, isPulled }: PartContext): void {
  const { address } = part;
  switch (part.kind) {
    case 'battery': {
      const measured = state.measured?.[address];
      if (measured !== undefined) {
        // Terminals that were measured stand at what was read, whatever they feed.
        sketch.branch(`${address}:emf`, at('pos'), at('neg'), () => ({
          kind: 'source',
          volts: measured,
          ohms: 1e-9,
        }));
        return;
      }
      const emf = sources.batteryEmfVolts(part, systemVolts).value;
      const discharge = sources.batteryInternalOhms(part, systemVolts).value;
      sketch.battery(
        `${address}:emf`,
        at('pos'),
        at('neg'),
        emf,
        discharge,
        sources.batteryChargeOhms(part, systemVolts).value,
      );
      return;
    }
    case 'alternator': {
      const negative = at(part.caseOn === undefined ? '31' : 'case');
      const law = {
        volts: sources.alternatorRegulatedVolts(part, systemVolts).value,
        ohms: figure(undefined, 'alternator.outputOhms').value,
        limitAmps: sources.alternatorLimitAmps(part, systemVolts).value,
        sense: part.sense,
      };
      const rotorOhms = sources.alternatorRotorOhms(part, systemVolts).value;
      const runs = state.engine === 'running';
      sketch.regulator(`${address}:output`, at('B+'), negative, law, (flags) => flags.has(address));
      sketch.resistor(`${address}:rotor`, at('61'), negative, rotorOhms, (flags) => !flags.has(address));
      const exciterOhms = figure(undefined, 'alternator.exciterOhms').value;
      sketch.resistor(`${address}:exciter`, at('B+'), at('61'), exciterOhms, (flags) => flags.has(address));
      sketch.decide(address, (isCharging, meter) => {
        const lampFeeds = (meter(at('61'), negative) ?? 0) / rotorOhms >= EXCITATION_AMPS;
        return runs && (isCharging || part.excitedBy !== 'lamp' || lampFeeds);
      });
      return;
    }
    case 'external-supply':
    case 'jump-posts': {
      const attached = state.attached?.[address];
      if (attached === undefined) return;
      const isPosts = part.kind === 'jump-posts';
      const law = {
        volts: isPosts
          ? figureByVolts(undefined, 'battery.emfVolts', systemVolts, 1).value
          : sources.externalSupplyVolts(part, systemVolts).value,
        ohms: isPosts ? figure(undefined, 'jump-posts.internalOhms').value : sources.externalSupplyOhms(part).value,
        limitAmps: isPosts
          ? figure(undefined, 'jump-posts.limitAmps').value
          : sources.externalSupplyLimitAmps(part).value,
      };
      const volts = attached.outputVolts ?? law.volts;
      const limitAmps = attached.limitAmps ?? law.limitAmps;
      sketch.regulator(`${address}:supply`, at('pos'), at('neg'), { ...law, volts, limitAmps });
      return;
    }
    case 'converter':
      sketch.converter(
        address,
        { in: at('in'), neg: at('neg'), out: at('out'), outneg: at(part.isolated === true ? 'outneg' : 'neg') },
        {
          volts: part.outputVolts,
          ohms: figure(undefined, 'converter.outputOhms').value,
          limitAmps: sources.converterLimitAmps(part).value,
          efficiency: sources.converterEfficiency(part).value,
          idleAmps: sources.converterIdleAmps(part).value,
          cutoffVolts: sources.converterInputCutoffVolts(part, systemVolts).value,
        },
      );
      return;
    case 'diode-isolator': {
      const forward = figure(part.forwardVolts, 'diode.forwardVolts').value;
      const series = figure(undefined, 'diode-isolator.seriesOhms').value;
      for (const output of part.outputs ?? ['A1', 'A2']) {
        sketch.diode(
          `${address}:in-${output}`,
          at('in'),
          at(output),
          forward,
          series,
          figure(undefined, 'diode.leakOhms').value,
        );
      }
      return;
    }
    case 'fuse':
      sketch.resistor(`${address}:link`, at('in'), at('out'), protection.fuseOhms(part).value, () => !isPulled);
      sketch.protect(`${address}:link`, part.ratingAmps);
      return;
    case 'fusible-link': {
      const size = parseWireSize(part.size);
      const metres = protection.fusibleLinkLengthMetres(part).value;
      const ohms = metres * (size.ok ? size.value.resistanceOhmsPerMetre : Number.NaN);
      sketch.resistor(`${address}:link`, at('in'), at('out'), ohms, () => !isPulled);
      const areaMm2 = size.ok ? size.value.areaMm2 : Number.NaN;
      sketch.protect(`${address}:link`, protection.fusibleLinkRatingAmps(part, areaMm2).value);
      return;
    }
    case 'breaker':
      sketch.resistor(`${address}:link`, at('in'), at('out'), protection.breakerOhms(part).value, () => !isPulled);
      sketch.protect(`${address}:link`, part.ratingAmps, part.reset === 'holding');
      return;
    default:
      return;
  }
}
