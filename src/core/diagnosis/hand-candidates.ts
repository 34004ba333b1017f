/**
 * Checks done by hand and eye: look at a fuse, try another relay or bulb, unplug and look, link a contact, wiggle.
 * It must not rank them nor judge what is forbidden.
 */

import { isPlugIn } from '../record/points.js';
import { has, type Instruments } from './instruments.js';
import type { Live } from './live.js';
import type { Check } from './shapes/check.js';
import type { Posterior } from './suspects.js';

/** Moving things about is proposed once something that comes and goes is this likely. */
const INTERMITTENT_SHARE = 0.1;
const WORTH_INSPECTING = 0.03;

export function handCandidates(posterior: Posterior, live: Live, instruments: Instruments): Check[] {
  const { inquiry, probabilities } = posterior;
  const { model, mainState: state } = inquiry;
  const fn = inquiry.complaintFunction;
  const checks: Check[] = [];
  const inspected = new Map<string, number>();
  const wiggled = new Map<string, string[]>();
  let intermittent = 0;
  for (const i of live.indices) {
    for (const fault of inquiry.hypotheses[i].faults) {
      if (fault.mode === 'intermittent') {
        intermittent += probabilities[i];
        const part = homeOf(posterior, fault.element ?? '');
        if (part !== null) wiggled.set(part, [...(wiggled.get(part) ?? []), fault.element ?? '']);
      }
      const part = homeOf(posterior, fault.element ?? '');
      if (part !== null) inspected.set(part, (inspected.get(part) ?? 0) + probabilities[i]);
    }
  }
  for (const id of fusesNear(posterior, live)) checks.push({ kind: 'look', fuse: id });
  if (fn !== null && has(instruments, 'sparesAtHand')) {
    for (const part of swappable(posterior, live)) checks.push({ kind: 'swap', part, function: fn, state });
  }
  if (fn !== null && has(instruments, 'fusedLink')) checks.push(...links(posterior, live, fn));
  for (const [part, share] of inspected) {
    const kind = model.parts.get(part)?.kind;
    if (share > WORTH_INSPECTING && (kind === 'connector' || kind === 'ground')) checks.push({ kind: 'inspect', part });
  }
  if (fn !== null && intermittent > INTERMITTENT_SHARE) {
    for (const [part, elements] of wiggled)
      checks.push({ kind: 'wiggle', part, elements: [...new Set(elements)], function: fn, state });
  }
  return checks;
}

/** Plug, stud or part at which an element is seen and moved. */
function homeOf({ inquiry }: Posterior, id: string): string | null {
  const element = inquiry.model.graph.elements.get(id);
  if (element === undefined) return null;
  if (element.role !== 'termination') return element.role === 'conductor' ? null : element.owner;
  const owner = [element.a, element.b]
    .map((point) => inquiry.model.graph.points.get(point))
    .find((point) => point !== undefined && point.role !== 'inner')?.owner;
  return owner ?? null;
}

/** Fuses that a live suspect blows, or that are themselves suspected. */
function fusesNear({ inquiry }: Posterior, live: Live): Set<string> {
  const fuses = new Set<string>();
  for (const i of live.indices) {
    const hypothesis = inquiry.hypotheses[i];
    for (const id of inquiry.view(hypothesis, inquiry.mainState).lists.blown) {
      const owner = inquiry.model.graph.elements.get(id)?.owner;
      if (owner !== undefined) fuses.add(owner);
    }
    for (const { repair, owner } of hypothesis.faults) if (repair === `fuse ${owner}`) fuses.add(owner);
  }
  return new Set([...fuses].filter((part) => inquiry.model.parts.get(part)?.kind === 'fuse'));
}

/** Plug-in relays, bulbs and fuses among the suspects: a spare goes in without tools. A fuse once found blown is tried once. */
function swappable({ inquiry }: Posterior, live: Live): Set<string> {
  const parts = new Set<string>();
  for (const i of live.indices) {
    for (const { repair, owner } of inquiry.hypotheses[i].faults) {
      const part = inquiry.model.parts.get(owner);
      if (part?.kind === 'fuse' && isPlugIn(part) && repair === `fuse ${owner}`) parts.add(owner);
      if (part === undefined || repair !== `replace ${owner}`) continue;
      const isBulb = part.kind === 'load' && part.functions.some(({ law }) => law === 'filament');
      if (part.kind === 'relay' || part.kind === 'flasher' || isBulb) parts.add(owner);
    }
  }
  return parts;
}

/** Across relay contacts that should be closed: 30 to 87 in the socket, by a lead with the circuit's own fuse or smaller. */
function links({ inquiry }: Posterior, live: Live, fn: string): Check[] {
  const { model, mainState: state } = inquiry;
  const relays = new Set<string>();
  for (const id of live.elements) {
    const element = model.graph.elements.get(id);
    if (element !== undefined && model.parts.get(element.owner)?.kind === 'relay') relays.add(element.owner);
  }
  const ratings = [...model.graph.elements.values()]
    .filter(({ id, protection }) => protection !== null && live.elements.has(id))
    .map(({ protection }) => protection?.ratingAmps ?? 5);
  const fuseAmps = Math.min(10, ...ratings);
  return [...relays].flatMap((relay): Check[] => {
    const [from, to] = [`${relay}/30`, `${relay}/87`];
    if (!model.graph.points.has(from) || !model.graph.points.has(to)) return [];
    return [{ kind: 'link', state, from, to, fuseAmps, function: fn }];
  });
}
