// Figures of sources and what couples them: recorded, else by nominal volts and capacity from the table of defaults.
// It must not know circuits; units are in the names.

import { combine, type Figure, figure, figureByVolts } from './figure.js';
import type { PartOf } from './part.js';
import type { HarnessRecord } from './record.js';

/** Nominal volts of the system: recorded, else the first battery's, else 12 V. */
export function systemVolts(record: Pick<HarnessRecord, 'systemVolts' | 'parts'>): Figure {
  const battery = record.parts.find(
    (part): part is PartOf<'battery'> => part.kind === 'battery' && part.nominalVolts !== undefined,
  );
  return figure(record.systemVolts ?? battery?.nominalVolts, 'system.volts');
}

function batteryNominalVolts(part: PartOf<'battery'>, volts: number): number {
  return part.nominalVolts ?? volts;
}

export function batteryEmfVolts(part: PartOf<'battery'>, volts: number): Figure {
  return figureByVolts(part.emfVolts, 'battery.emfVolts', batteryNominalVolts(part, volts), 1);
}

function batteryCapacityAmpHours(part: PartOf<'battery'>): Figure {
  return figure(part.capacityAmpHours, 'battery.capacityAmpHours');
}

/** Discharge branch: ohms fall with capacity and rise with the number of cells. */
export function batteryInternalOhms(part: PartOf<'battery'>, volts: number): Figure {
  if (part.internalOhms !== undefined) return figure(part.internalOhms, 'battery.ohmAmpHours.12');
  const perCapacity = figureByVolts(undefined, 'battery.ohmAmpHours', batteryNominalVolts(part, volts), 1);
  return combine([perCapacity, batteryCapacityAmpHours(part)], (ohmAmpHours, ampHours) => ohmAmpHours / ampHours);
}

/** Charge branch: so many ohms that the accepted amperes flow at the regulated volts; never below the discharge branch. */
export function batteryChargeOhms(part: PartOf<'battery'>, volts: number): Figure {
  if (part.chargeOhms !== undefined) return figure(part.chargeOhms, 'battery.ohmAmpHours.12');
  const accepted =
    part.chargeAcceptanceAmps === undefined
      ? combine(
          [figure(undefined, 'battery.chargeAcceptanceRate'), batteryCapacityAmpHours(part)],
          (rate, ampHours) => rate * ampHours,
        )
      : figure(part.chargeAcceptanceAmps, 'battery.chargeAcceptanceRate');
  const regulated = figureByVolts(undefined, 'alternator.regulatedVolts', batteryNominalVolts(part, volts), 1);
  return combine(
    [regulated, batteryEmfVolts(part, volts), accepted, batteryInternalOhms(part, volts)],
    (atVolts, emf, amps, internal) => Math.max(internal, (atVolts - emf) / amps),
  );
}

export function alternatorRegulatedVolts(part: PartOf<'alternator'>, volts: number): Figure {
  return figureByVolts(part.regulatedVolts, 'alternator.regulatedVolts', volts, 1);
}

export function alternatorLimitAmps(part: PartOf<'alternator'>, volts: number): Figure {
  return figureByVolts(part.limitAmps, 'alternator.limitAmps', volts, -1);
}

export function alternatorRotorOhms(part: PartOf<'alternator'>, volts: number): Figure {
  return figureByVolts(part.rotorOhms, 'alternator.rotorOhms', volts, 2);
}

export function externalSupplyVolts(part: PartOf<'external-supply'>, volts: number): Figure {
  return figureByVolts(part.outputVolts, 'external-supply.outputVolts', volts, 1);
}

export function externalSupplyOhms(part: PartOf<'external-supply'>): Figure {
  return figure(part.internalOhms, 'external-supply.internalOhms');
}

export function externalSupplyLimitAmps(part: PartOf<'external-supply'>): Figure {
  return figure(part.limitAmps, 'external-supply.limitAmps');
}

export function converterLimitAmps(part: PartOf<'converter'>): Figure {
  return figure(part.limitAmps, 'converter.limitAmps');
}

export function converterEfficiency(part: PartOf<'converter'>): Figure {
  return figure(part.efficiency, 'converter.efficiency');
}

export function converterInputCutoffVolts(part: PartOf<'converter'>, volts: number): Figure {
  return figure(part.inputCutoffVolts, 'converter.inputCutoffRatio', volts);
}

export function converterIdleAmps(part: PartOf<'converter'>): Figure {
  return figure(part.idleAmps, 'converter.idleAmps');
}

export function splitChargeConnectVolts(part: PartOf<'split-charge-relay'>, volts: number): Figure {
  return figureByVolts(part.connectVolts, 'split-charge.connectVolts', volts, 1);
}

export function splitChargeDisconnectVolts(part: PartOf<'split-charge-relay'>, volts: number): Figure {
  return figureByVolts(part.disconnectVolts, 'split-charge.disconnectVolts', volts, 1);
}
