/**
 * Ohms across a stretch with both ends free, and from it to a body: what its own elements add up to, with the faults among them.
 * It must not solve the circuit; a freed stretch has no other path.
 */
import type { Model } from '../answers/model.js';
import type { Law } from '../graph/element.js';
import { type Expected, OPEN_LOG_OHMS } from './expected.js';
import type { Fault } from './fault.js';
import type { CheckOf } from './shapes/check.js';

/** Test leads and probe tips (common practice: 0.1 to 0.3 Ω). Below about half an ohm a hand-held meter proves nothing. */
const LEAD_OHMS = 0.2;
const LOG_SPREAD = 0.12;
const LOG_SPAN = 10;

/** End to end. */
export function expectOhms(model: Model, faults: readonly Fault[], check: CheckOf<'ohms'>): Expected {
  let ohms = LEAD_OHMS;
  for (const id of check.elements) {
    const element = model.graph.elements.get(id);
    if (element === undefined) throw new RangeError(`no element ${id}`);
    ohms += faultyOhms(id, restOhms(element.law), faults);
  }
  return logOhms(ohms);
}

/** To a body: OL, or what a chafe leaves. What it touches elsewhere may lie on the body by a lamp, a wire, or not at all. */
export function expectIsolation(model: Model, faults: readonly Fault[], check: CheckOf<'isolation'>): Expected {
  const own = new Set<string>();
  for (const id of check.elements) {
    const element = model.graph.elements.get(id);
    if (element === undefined) throw new RangeError(`no element ${id}`);
    own.add(element.a).add(element.b);
  }
  const touches = faults.some(({ changes }) =>
    changes.some(
      (change) =>
        change.kind === 'bridge' &&
        ((own.has(change.from) && change.to === check.body) || (own.has(change.to) && change.from === check.body)),
    ),
  );
  if (touches) return logOhms(LEAD_OHMS + 0.3);
  const leadsElsewhere = faults.some(({ changes }) =>
    changes.some((change) =>
      change.kind === 'bridge'
        ? own.has(change.from) || own.has(change.to)
        : change.kind === 'moved' && (check.elements.includes(change.element) || own.has(change.to)),
    ),
  );
  return leadsElsewhere ? anywhereOrOpen() : logOhms(Number.POSITIVE_INFINITY);
}

function anywhereOrOpen(): Expected {
  const parts = [
    { share: 0.4, mean: OPEN_LOG_OHMS, sd: LOG_SPREAD },
    { share: 0.6, mean: 0.5, sd: 1 },
  ];
  return { kind: 'number', scale: 'log', parts, span: LOG_SPAN };
}

function faultyOhms(element: string, ohms: number, faults: readonly Fault[]): number {
  let result = ohms;
  for (const { changes } of faults) {
    for (const change of changes) {
      if (!('element' in change) || change.element !== element) continue;
      if (change.kind === 'open' || change.kind === 'moved') result = Number.POSITIVE_INFINITY;
      else if (change.kind === 'stuck') result = change.closed ? ohms : Number.POSITIVE_INFINITY;
      else if (change.kind === 'series') result += change.ohms;
      else if (change.kind === 'law') result = restOhms(change.law);
    }
  }
  return result;
}

/** Cold and at rest. */
function restOhms(law: Law): number {
  switch (law.kind) {
    case 'ohmic':
      return law.ohms;
    case 'filament':
    case 'ptc':
      return law.coldOhms;
    case 'motor':
      return law.stallOhms;
    case 'battery':
    case 'regulated':
    case 'diode':
    case 'constant-power':
    case 'converter-input':
    case 'draw':
      return Number.POSITIVE_INFINITY;
  }
}

function logOhms(ohms: number): Expected {
  const mean = Number.isFinite(ohms) && ohms < 6e7 ? Math.log10(ohms) : OPEN_LOG_OHMS;
  return { kind: 'number', scale: 'log', parts: [{ share: 1, mean, sd: LOG_SPREAD }], span: LOG_SPAN };
}
