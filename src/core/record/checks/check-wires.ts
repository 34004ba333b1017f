// Wires end on points that exist and take a wire, run through known segments, and share a terminal only where recorded.
// It must not judge sizes, lengths or currents.

import { normaliseAddress } from '../addresses.js';
import type { Part } from '../part.js';
import { mountOf } from '../points.js';
import type { CheckContext } from './draft.js';
import { findWireEnd } from './find.js';

/** Stores the canonical spelling of every wire end and segment; tells what is unknown. */
export function checkWires(context: CheckContext): void {
  for (const { value: wire, path } of context.draft.wires) {
    const from = findWireEnd(context, wire.from, { path: `${path}/from`, part: wire.label });
    const to = findWireEnd(context, wire.to, { path: `${path}/to`, part: wire.label });
    if (from !== null) wire.from = from.address;
    if (to !== null) wire.to = to.address;
    if (from !== null && to !== null && from.address === to.address) {
      context.issues.add(
        'wire-to-itself',
        `${path}/to`,
        wire.to,
        `${wire.label} begins and ends on ${wire.to}`,
        'two different points',
        wire.label,
      );
    }
    wire.route?.forEach((text, i) => {
      const segment = context.segment(text);
      if (segment !== null) wire.route![i] = segment;
      else if (!context.isDeclared(text)) {
        context.issues.add(
          'unknown-segment',
          `${path}/route/${i}`,
          text,
          `there is no segment ${text}`,
          'an address of the segments',
          wire.label,
        );
      }
    });
  }
  checkDoubleCrimps(context);
  warnSharedTerminals(context);
}

function checkDoubleCrimps(context: CheckContext): void {
  const seen = new Set<string>();
  for (const { value: crimp, path } of context.draft.doubleCrimps) {
    const point = findWireEnd(context, crimp.point, { path: `${path}/point`, part: crimp.point });
    if (point === null) continue;
    crimp.point = point.address;
    if (seen.has(point.address)) {
      context.issues.add(
        'double-crimp-repeated',
        `${path}/point`,
        crimp.point,
        `${crimp.point} has a double crimp already`,
        'one entry that names all its wires',
        crimp.point,
      );
    }
    seen.add(point.address);
    const listed = new Set<string>();
    crimp.wires.forEach((text, i) => {
      const wire = context.wires.get(normaliseAddress(text));
      const at = `${path}/wires/${i}`;
      if (wire === undefined) {
        if (!context.isDeclared(text))
          context.issues.add('unknown-wire', at, text, `there is no wire ${text}`, 'a label of the wires', crimp.point);
        return;
      }
      crimp.wires[i] = wire.label;
      if (listed.has(wire.label))
        context.issues.add(
          'double-crimp-repeated',
          at,
          text,
          `${wire.label} is named twice`,
          'each wire once',
          crimp.point,
        );
      listed.add(wire.label);
      if (wire.from !== crimp.point && wire.to !== crimp.point) {
        context.issues.add(
          'double-crimp-elsewhere',
          at,
          text,
          `${wire.label} does not end on ${crimp.point}`,
          `a wire that ends there`,
          crimp.point,
        );
      }
    });
  }
}

/** Several wires on a splice, stud, post, bar or bolted terminal are ordinary; in one crimp terminal they must be on purpose. */
function warnSharedTerminals(context: CheckContext): void {
  const crimped = new Map(context.draft.doubleCrimps.map(({ value }) => [value.point, new Set(value.wires)]));
  const first = new Map<string, string>();
  for (const { value: wire, path } of context.draft.wires) {
    for (const end of ['from', 'to'] as const) {
      const point = wire[end];
      const found = context.index.point(point);
      if (found === null || !takesOneTerminal(found.part)) continue;
      const name = crimped.get(point)?.has(wire.label) === true ? 'the double crimp' : wire.label;
      const earlier = first.get(point);
      if (earlier === undefined) first.set(point, name);
      else if (earlier !== name) {
        context.warnings.add(
          'terminal-shared',
          `${path}/${end}`,
          point,
          `${wire.label} and ${earlier} end in the same terminal`,
          'one wire, or a double crimp recorded as such',
          wire.label,
        );
      }
    }
  }
}

function takesOneTerminal(part: Part): boolean {
  return part.kind !== 'splice' && mountOf(part) !== 'bolted';
}
