/**
 * A short behind a fuse is halved by unplugging (common practice): with a plug pulled and a new fuse in, does the fuse hold?
 * It must not rank; a blown fuse is a finding, so nothing bigger than the recorded rating is ever asked for.
 */
import type { Live } from './live.js';
import type { Check } from './shapes/check.js';
import type { Posterior } from './suspects.js';

/** Proposed once something that blows the fuse is this likely; each plug is a state of its own to be worked out. */
const BLOWS_ABOVE = 0.3;
const MOST_HYPOTHESES = 300;
const MOST_PLUGS = 4;
const LONGEST_NAME = 60;

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
  const { source, unplugged } = inquiry.resolve(mainState);
  return plugsBehind(model, first[0])
    .filter((plug) => !unplugged.has(plug))
    .slice(0, MOST_PLUGS)
    .map((plug): Check => {
      // The name of the state says what the hands do.
      const told = `, ${plug} pulled, new fuse in ${fuse}`;
      const state = {
        ...source,
        name: `${source.name.slice(0, LONGEST_NAME - told.length)}${told}`,
        unplugged: [...(source.unplugged ?? []), plug],
      };
      return { kind: 'volts', state, red: out.id, black: model.graph.reference, newFuse: fuse };
    });
}

/** Whether the check asks for a new fuse. */
export function takesNewFuse(check: Check): boolean {
  return check.kind === 'volts' && check.newFuse !== undefined;
}

/** Connectors on the way from the fuse to the functions that it feeds; those of most functions first. */
function plugsBehind(model: Posterior['inquiry']['model'], link: string): string[] {
  const counts = new Map<string, number>();
  for (const fn of model.graph.functions.values()) {
    const { feed } = model.structure.between(fn.feed, fn.return);
    if (!feed.has(link)) continue;
    const plugs = new Set([...feed].map((id) => model.graph.elements.get(id)?.owner ?? ''));
    for (const plug of plugs)
      if (model.parts.get(plug)?.kind === 'connector') counts.set(plug, (counts.get(plug) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).map(([plug]) => plug);
}
