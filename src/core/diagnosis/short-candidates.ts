/**
 * A short behind a fuse is halved by taking parts of it away (common practice): with a plug pulled, a switch back off or a wire taken off
 * its terminal, and a new fuse in, does the fuse hold?
 * It must not rank; a blown fuse is a finding, so nothing bigger than the recorded rating is ever asked for.
 */
import type { Model } from '../answers/model.js';
import { contactTableOf } from '../record/contact-tables.js';
import type { OperatingState } from '../record/state.js';
import { isFree } from './left-alone.js';
import type { Live } from './live.js';
import type { Check } from './shapes/check.js';
import { nameWith } from './state-name.js';
import type { Posterior } from './suspects.js';

/** Proposed once something that blows the fuse is this likely; each plug is a state of its own to be worked out. */
const BLOWS_ABOVE = 0.3;
const MOST_HYPOTHESES = 300;
const MOST_PLUGS = 4;
/** Switches and wires are gone through once fewer are left. */
const FEW_HYPOTHESES = 80;
const MOST_SWITCHES = 3;
const MOST_WIRES = 4;

export function shortCandidates({ inquiry, probabilities }: Posterior, live: Live): Check[] {
  const { model, mainState } = inquiry;
  if (live.indices.length > MOST_HYPOTHESES) return [];
  const odds = new Map<string, number>();
  for (const i of live.indices) {
    for (const link of inquiry.view(inquiry.hypotheses[i], mainState).lists.blown)
      odds.set(link, (odds.get(link) ?? 0) + probabilities[i]);
  }
  const [first] = [...odds].sort((a, b) => b[1] - a[1]);
  if (first === undefined || first[1] < BLOWS_ABOVE) return [];
  const fuse = model.graph.elements.get(first[0])?.owner ?? '';
  const out = model.graph.points.get(`${fuse}/out`);
  if (out === undefined || !out.probeable) return [];
  const { source, unplugged, positions } = inquiry.resolve(mainState);
  const behind = feedsBehind(model, first[0]);
  const isNarrow = live.indices.length <= FEW_HYPOTHESES;
  const ways = [
    ...plugsIn(model, behind)
      .filter((plug) => !unplugged.has(plug))
      .map((plug): Halving => ({ told: `${plug} pulled`, unplugged: [plug] })),
    ...(isNarrow ? [...switchesIn(model, behind, positions), ...wiresIn(model, behind)] : []),
  ];
  return ways.map((way): Check => {
    // The name of the state says what the hands do.
    const state = {
      ...source,
      name: nameWith(source.name, `${way.told}, new fuse in ${fuse}`),
      unplugged: [...(source.unplugged ?? []), ...(way.unplugged ?? [])],
      positions: { ...source.positions, ...way.positions },
      detached: [...(source.detached ?? []), ...(way.detached ?? [])],
    };
    return { kind: 'volts', state, red: out.id, black: model.graph.reference, newFuse: fuse };
  });
}

/** Whether the check asks for a new fuse. */
export function takesNewFuse(check: Check): boolean {
  return check.kind === 'volts' && check.newFuse !== undefined;
}

/** What is taken away, and how it is told. */
interface Halving extends Pick<OperatingState, 'unplugged' | 'positions' | 'detached'> {
  readonly told: string;
}

/** Ways by which the fuse feeds each function and each coil. */
function feedsBehind({ graph, structure }: Model, link: string): ReadonlySet<string>[] {
  const coils = [...graph.elements.values()].filter(({ role }) => role === 'coil');
  const ends = [...graph.functions.values()].map((fn): [string, string] => [fn.feed, fn.return]);
  return [...ends, ...coils.map(({ a, b }): [string, string] => [a, b])].flatMap(([one, other]) => {
    const { feed } = structure.waysBetween(one, other);
    return feed.has(link) ? [feed] : [];
  });
}

/** Names met on most of the feeds first: they halve best. */
function mostShared(
  feeds: readonly ReadonlySet<string>[],
  namesOf: (element: string) => readonly string[],
  most: number,
) {
  const counts = new Map<string, number>();
  for (const feed of feeds)
    for (const name of new Set([...feed].flatMap(namesOf))) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts]
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
    .slice(0, most)
    .map(([name]) => name);
}

function plugsIn(model: Model, feeds: readonly ReadonlySet<string>[]): string[] {
  const plugOf = (id: string): string[] => {
    const owner = model.graph.elements.get(id)?.owner ?? '';
    return model.parts.get(owner)?.kind === 'connector' && isFree(model, owner) ? [owner] : [];
  };
  return mostShared(feeds, plugOf, MOST_PLUGS);
}

/** Switches that are on in the state: what hangs behind them comes off with a flick. */
function switchesIn(
  model: Model,
  feeds: readonly ReadonlySet<string>[],
  positions: ReadonlyMap<string, string>,
): Halving[] {
  const closed = (id: string): string[] =>
    (model.graph.elements.get(id)?.gates ?? []).flatMap((gate) =>
      gate.kind === 'position' && gate.closedIn.includes(positions.get(gate.part) ?? '') ? [gate.part] : [],
    );
  return mostShared(feeds, closed, MOST_SWITCHES).flatMap((address): Halving[] => {
    const part = model.parts.get(address);
    const rest = part === undefined ? undefined : contactTableOf(part)?.rest;
    if (rest === undefined || rest === positions.get(address)) return [];
    return [{ told: `${address} at ${rest}`, positions: { [address]: rest } }];
  });
}

/** Wires that share a terminal with others and can be taken off it: not crimped together, not in a plug. */
function wiresIn(model: Model, feeds: readonly ReadonlySet<string>[]): Halving[] {
  const { graph } = model;
  const looseEnd = (id: string): string[] => {
    const element = graph.elements.get(id);
    if (element?.role !== 'termination') return [];
    const at = [element.a, element.b]
      .map((point) => graph.points.get(point))
      .find((point) => point?.role === 'terminal');
    if (at === undefined || at.access === 'buried' || !at.probeable) return [];
    if (!isFree(model, at.owner)) return [];
    const others = graph.graph.edges(at.id).filter((it) => graph.elements.get(it)?.role === 'termination');
    return others.length > 1 ? [id] : [];
  };
  return mostShared(feeds, looseEnd, MOST_WIRES).map((end) => ({ told: `${end} off`, detached: [end] }));
}
