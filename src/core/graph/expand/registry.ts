// One expansion per part kind. The type refuses a kind without one.
// It must not hold behaviour: each entry is a function of its own.

import type { Part, PartKind, PartOf } from '../../record/part.js';
import { expandDiodeIsolator, expandMasterSwitch, expandSplitChargeRelay } from './charging.js';
import * as joining from './joining.js';
import { expandLoad } from './loads.js';
import { expandModule } from './module.js';
import type { Expansion, PartSite } from './part-site.js';
import * as passive from './passive.js';
import { expandBreaker, expandFuse, expandFusibleLink } from './protection.js';
import { expandRelay } from './relay.js';
import * as sources from './sources.js';
import { expandStarter } from './starter.js';
import { expandFlasher, expandSensorSwitch, expandSwitch } from './switching.js';

type Expander<K extends PartKind> = (part: PartOf<K>, site: PartSite) => Expansion;

export const expanders: { readonly [K in PartKind]: Expander<K> } = {
  battery: sources.expandBattery,
  alternator: sources.expandAlternator,
  'external-supply': sources.expandExternalSupply,
  'jump-posts': sources.expandJumpPosts,
  converter: sources.expandConverter,
  'split-charge-relay': expandSplitChargeRelay,
  'diode-isolator': expandDiodeIsolator,
  'master-switch': expandMasterSwitch,
  fuse: expandFuse,
  'fusible-link': expandFusibleLink,
  breaker: expandBreaker,
  relay: expandRelay,
  switch: expandSwitch,
  'sensor-switch': expandSensorSwitch,
  flasher: expandFlasher,
  connector: joining.expandConnector,
  splice: joining.expandSinglePoint,
  busbar: joining.expandBusbar,
  ground: joining.expandGround,
  'ground-block': joining.expandGroundBlock,
  body: joining.expandSinglePoint,
  strap: joining.expandStrap,
  tie: joining.expandTie,
  load: expandLoad,
  starter: expandStarter,
  module: expandModule,
  resistor: passive.expandResistor,
  shunt: passive.expandShunt,
  diode: passive.expandDiode,
  suppressor: passive.expandSuppressor,
  potentiometer: passive.expandPotentiometer,
  thermistor: passive.expandThermistor,
  'bus-terminator': passive.expandBusTerminator,
};

/** What a part brings inside: its elements, inner points, functions. Its terminals and plug-in contacts come besides. */
export function expandPart(part: Part, site: PartSite): Expansion {
  // The table pairs each kind with its own part type, which TypeScript cannot follow through the union.
  const expand = expanders[part.kind] as Expander<PartKind>;
  return expand(part as never, site);
}
