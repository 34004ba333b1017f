/**
 * Devices that would join nets of the bare harness, and how each is got out of the way: pulled, switched off, or one wire taken off.
 * It must not choose what is measured.
 */
import { contactTableOf } from '../../record/contact-tables.js';
import type { Part } from '../../record/part.js';
import { harnessPointAddress, isPlugIn } from '../../record/points.js';
import { terminalsOf } from '../../record/terminals.js';
import { isForbidden } from '../cautions.js';
import { describePart } from '../describe.js';
import type { Model } from '../model.js';
import type { Plan } from '../shapes/plans.js';
import { type HarnessNets, isDevice } from './harness-nets.js';

type Removal = Plan['remove'][number];

/** In record order. A device under a forbidden mark is not touched: its nets are left out. */
export function devicesOff(model: Model, { netOf }: HarnessNets): Removal[] {
  return model.graph.record.parts.flatMap((part) => {
    if (!isDevice(part.kind) && part.kind !== 'suppressor') return [];
    if (isForbidden(part.marks ?? [])) return [];
    const ends = new Map<number, string>();
    for (const terminal of terminalsOf(part)) {
      const point = harnessPointAddress(part, terminal);
      const net = terminal === 'case' ? caseNet(model, part, netOf) : netOf.get(point);
      if (net !== undefined && !ends.has(net)) ends.set(net, point);
    }
    return ends.size < 2 ? [] : [removalOf(model, part, [...ends.values()])];
  });
}

function removalOf(model: Model, part: Part, ends: readonly string[]): Removal {
  const name = describePart(model, part.address);
  if (isPlugIn(part)) return { part: part.address, how: 'pull', at: [part.address], text: `Pull ${name}` };
  const open = openPosition(part);
  if (open !== null) {
    return {
      part: part.address,
      how: 'switch-off',
      at: [part.address],
      text: `Set ${name} to ${open} and leave it there`,
    };
  }
  // all but one end: what is left hangs on one net
  const wired = ends.filter((end) => model.wiresAt.has(end));
  const off = wired.length < ends.length ? wired : wired.slice(1);
  return {
    part: part.address,
    how: 'take-wire-off',
    at: off,
    text: `Take the wire off ${off.join(' and ')} of ${name}, and read at the wire`,
  };
}

/** A position that joins nothing, of a part that has no other way through than its contacts. */
function openPosition(part: Part): string | null {
  if (part.kind !== 'switch' && part.kind !== 'master-switch') return null;
  return contactTableOf(part)?.positions.find(({ joins }) => joins.length === 0)?.name ?? null;
}

function caseNet(model: Model, part: Part, netOf: ReadonlyMap<string, number>): number | undefined {
  const body = 'caseOn' in part ? part.caseOn : undefined;
  return body === undefined ? undefined : netOf.get(model.graph.resolveAs('point', body) ?? body);
}
