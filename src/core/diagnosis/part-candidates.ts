/**
 * Something runs that should not: with a suspect unplugged or its wire off, does it stop? Contacts side by side are told apart by that
 * alone (common practice). It must not rank them.
 */
import type { Model } from '../answers/model.js';
import { isPlugIn } from '../record/points.js';
import type { OperatingState } from '../record/state.js';
import { isFree } from './left-alone.js';
import type { Live } from './live.js';
import type { Check } from './shapes/check.js';
import { nameWith } from './state-name.js';
import type { Posterior } from './suspects.js';

/** Each is a state of its own to be worked out, for all that is left. */
const FEW_HYPOTHESES = 80;
const MOST_PARTS = 4;
/** Share of the suspicion on either side that is worth the work (engineering judgement). */
const WORTH_PARTING = 0.03;

/** None while the complaint is that something does not run. */
export function partCandidates({ inquiry, probabilities }: Posterior, live: Live): Check[] {
  const { model, mainState, complaintFunction } = inquiry;
  const fn = model.graph.functions.get(complaintFunction ?? '');
  if (fn === undefined || live.indices.length > FEW_HYPOTHESES) return [];
  if (inquiry.healthy(mainState).condition(fn) !== 'dead') return [];
  const odds = new Map<string, number>();
  for (const i of live.indices)
    for (const { owner } of inquiry.hypotheses[i].faults) odds.set(owner, (odds.get(owner) ?? 0) + probabilities[i]);
  const { source } = inquiry.resolve(mainState);
  return [...odds]
    .filter(([part, share]) => share > WORTH_PARTING && part !== fn.part && isFree(model, part))
    .sort((a, b) => b[1] - a[1])
    .flatMap(([part]) => partedFrom(model, part))
    .slice(0, MOST_PARTS)
    .map(({ told, ...apart }): Check => {
      const state = {
        ...source,
        name: nameWith(source.name, told),
        unplugged: [...(source.unplugged ?? []), ...(apart.unplugged ?? [])],
        detached: [...(source.detached ?? []), ...(apart.detached ?? [])],
      };
      return { kind: 'observe', function: fn.id, state };
    });
}

type Parted = Pick<OperatingState, 'unplugged' | 'detached'> & { readonly told: string };

/** How the part is taken out of the circuit by hand; none where it cannot be. */
function partedFrom({ graph, parts }: Model, address: string): Parted[] {
  const part = parts.get(address);
  if (part === undefined) return [];
  if (part.kind === 'connector') return [{ told: `${address} pulled`, unplugged: [address] }];
  if (part.kind !== 'switch' && part.kind !== 'sensor-switch' && part.kind !== 'relay') return [];
  if (isPlugIn(part)) return [{ told: `${address} unplugged`, unplugged: [address] }];
  const terminal = [...graph.points.values()].find(
    ({ id, owner, role, access }) =>
      owner === address && role === 'terminal' && access !== 'buried' && graph.graph.hasNode(id),
  );
  const ends = (terminal === undefined ? [] : graph.graph.edges(terminal.id)).filter(
    (id) => graph.elements.get(id)?.role === 'termination',
  );
  return ends.length === 0 || terminal === undefined ? [] : [{ told: `wires off ${terminal.id}`, detached: ends }];
}
