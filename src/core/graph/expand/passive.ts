// Resistor, shunt, diode, suppressor, potentiometer, thermistor, data-bus terminator.
// It must not hold what a state sets (travel, temperature); the functions here take it as an argument.

import { figure, recorded } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import type { Element } from '../element.js';
import { caseJoint } from './case-joint.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';
import { potentiometerOhms, thermistorOhms } from './sensor-ohms.js';
import { diodeLaw, suppressorLaw } from './suppressor-law.js';

export function expandResistor(part: PartOf<'resistor'>, site: PartSite): Expansion {
  return expansion([betweenOneAndTwo(site, 'resistor', part.resistanceOhms)]);
}

export function expandShunt(part: PartOf<'shunt'>, site: PartSite): Expansion {
  return expansion([betweenOneAndTwo(site, 'shunt', part.resistanceOhms)]);
}

export function expandBusTerminator(part: PartOf<'bus-terminator'>, site: PartSite): Expansion {
  return expansion([betweenOneAndTwo(site, 'resistor', part.resistanceOhms, 'bus-terminator.ohms')]);
}

function betweenOneAndTwo(site: PartSite, name: string, ohms: number | undefined, defaultId = ''): Element {
  const value = ohms === undefined ? figure(undefined, defaultId) : recorded(ohms);
  return site.element({
    name,
    role: 'component',
    a: site.at('1'),
    b: site.at('2'),
    law: ohmic(value),
    from: [value],
  });
}

export function expandDiode(part: PartOf<'diode'>, site: PartSite): Expansion {
  return expansion([
    site.element({
      name: 'diode',
      role: 'component',
      a: site.at('a'),
      b: site.at('k'),
      ...diodeLaw(part.forwardVolts),
    }),
  ]);
}

export function expandSuppressor(part: PartOf<'suppressor'>, site: PartSite): Expansion {
  return expansion([
    site.element({
      name: 'suppressor',
      role: 'component',
      a: site.at('a'),
      b: site.at('k'),
      ...suppressorLaw(part, site.volts),
    }),
  ]);
}

/** `upper` from supply to wiper, `lower` from wiper to return, at the rest travel. */
export function expandPotentiometer(part: PartOf<'potentiometer'>, site: PartSite): Expansion {
  const { upper, lower } = potentiometerOhms(part);
  return expansion([
    site.element({
      name: 'upper',
      role: 'component',
      a: site.at('1'),
      b: site.at('2'),
      law: ohmic(upper),
      from: [upper],
    }),
    site.element({
      name: 'lower',
      role: 'component',
      a: site.at('2'),
      b: site.at('3'),
      law: ohmic(lower),
      from: [lower],
    }),
  ]);
}

/** At the rest temperature, to terminal 2 or to the case. */
export function expandThermistor(part: PartOf<'thermistor'>, site: PartSite): Expansion {
  const ohms = thermistorOhms(part);
  return expansion([
    site.element({
      name: 'thermistor',
      role: 'component',
      a: site.at('1'),
      b: site.at(part.caseOn === undefined ? '2' : 'case'),
      law: ohmic(ohms),
      from: [ohms],
    }),
    ...caseJoint(part, site),
  ]);
}
