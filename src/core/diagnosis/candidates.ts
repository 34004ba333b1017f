/**
 * All checks that could be done now and would not be forbidden: where the leads go, in which state, what it costs.
 * It must not rank them.
 */
import type { CautionCode } from '../answers/cautions.js';
import { isForbidden } from '../answers/cautions.js';
import type { Model } from '../answers/model.js';
import { NEW_FUSE_MINUTES, type Place, panelOf, workMinutes } from './check-cost.js';
import { handCandidates } from './hand-candidates.js';
import type { Inquiry } from './inquiry.js';
import { has, type Instruments } from './instruments.js';
import { liveOf } from './live.js';
import { meterCandidates } from './meter-candidates.js';
import { observeCandidates } from './observe-candidates.js';
import { partCandidates } from './part-candidates.js';
import { type Check, checkKey, type StateChoice } from './shapes/check.js';
import { shortCandidates, takesNewFuse } from './short-candidates.js';
import type { Posterior } from './suspects.js';

export interface Candidate {
  readonly check: Check;
  readonly key: string;
  /** With panels open and state set. */
  readonly minutes: number;
  /** State to be set; null when any will do. */
  readonly state: StateChoice | null;
  /** Covers that must be off. */
  readonly panels: readonly string[];
  readonly cautions: readonly CautionCode[];
}

export interface CandidateOptions {
  readonly instruments: Instruments;
  /** Points and parts that the person cannot get at. */
  readonly unreachable: ReadonlySet<string>;
  /** Keys of checks that are not to be proposed again. */
  readonly taken: ReadonlySet<string>;
}

/** Every permitted check near the suspects. */
export function candidatesOf(posterior: Posterior, options: CandidateOptions): Candidate[] {
  const { inquiry } = posterior;
  const live = liveOf(posterior);
  const checks = [
    ...observeCandidates(posterior, live),
    ...partCandidates(posterior, live),
    ...(has(options.instruments, 'voltmeter')
      ? [...meterCandidates(inquiry, live, options.instruments), ...shortCandidates(posterior, live)]
      : []),
    ...handCandidates(posterior, live, options.instruments),
  ];
  const known = new Map<string, Candidate>();
  for (const check of checks) {
    const candidate = candidateOf(inquiry, check);
    if (candidate === null || options.taken.has(candidate.key) || known.has(candidate.key)) continue;
    if (placesOf(inquiry.model, check).some((point) => options.unreachable.has(point))) continue;
    known.set(candidate.key, candidate);
  }
  return [...known.values()];
}

/** The check with its cost and cautions; null when it is forbidden or its place is buried. */
export function candidateOf(inquiry: Inquiry, check: Check): Candidate | null {
  const { model } = inquiry;
  if (isForbiddenCheck(model, check)) return null;
  const spots = placesOf(model, check);
  const places = spots.map((point): Place => {
    const found = model.graph.points.get(point);
    return { access: found?.access ?? 'open', panel: panelOf(model, point) };
  });
  if (places.some(({ access }) => access === 'buried')) return null;
  return {
    check,
    key: checkKey(check),
    minutes: workMinutes(check, places.slice(0, 2)) + (takesNewFuse(check) ? NEW_FUSE_MINUTES : 0),
    state: 'state' in check ? check.state : null,
    panels: [...new Set(places.flatMap(({ panel }) => panel ?? []))],
    cautions: cautionsOf(model, check),
  };
}

/** Points (or a point of each part) that the hands go to. The reference is where the black lead stays. */
export function placesOf(model: Model, check: Check): string[] {
  const ofPart = (part: string): string[] => {
    const point = [...model.graph.points.values()].find(({ owner, role }) => owner === part && role !== 'inner');
    return point === undefined ? [] : [point.id];
  };
  switch (check.kind) {
    case 'observe':
      return [];
    case 'volts':
    case 'lamp':
    case 'ohms':
      return [check.red, check.black].filter((point) => point !== model.graph.reference);
    case 'clamp':
      return [model.graph.elements.get(check.wire)?.a ?? check.wire];
    case 'isolation':
      return [check.point];
    case 'link':
      return [check.from, check.to];
    case 'look':
      return ofPart(check.fuse);
    case 'swap':
    case 'inspect':
    case 'wiggle':
      return ofPart(check.part);
  }
}

/** Restraint, high voltage, mains, spark: nothing. Data pairs: no lamp. Links: not on interlocks either. */
function isForbiddenCheck(model: Model, check: Check): boolean {
  const marks = marksOf(model, check);
  if (isForbidden(marks)) return true;
  if (marks.includes('data-bus')) return check.kind === 'lamp' || check.kind === 'link' || check.kind === 'volts';
  return marks.includes('movement-interlock') && (check.kind === 'link' || check.kind === 'swap');
}

function marksOf(model: Model, check: Check) {
  const points = placesOf(model, check).flatMap((id) => model.graph.points.get(id)?.marks ?? []);
  const elements = 'elements' in check ? check.elements : 'wire' in check ? [check.wire] : [];
  const fn = 'function' in check ? model.graph.functions.get(check.function) : undefined;
  return [
    ...points,
    ...endingMarks(model, check),
    ...elements.flatMap((id) => model.graph.elements.get(id)?.marks ?? []),
    ...(check.kind === 'link' ? [...(fn?.marks ?? []), ...interlockMarks(model, check.function)] : []),
  ];
}

/** What a link past the relay's contacts would leave out: the interlocks in the way of its coil. */
function interlockMarks(model: Model, id: string) {
  const fn = model.graph.functions.get(id);
  if (fn === undefined) return [];
  const { control } = model.structure.between(fn.feed, fn.return);
  return [...control].flatMap((element) => model.graph.elements.get(element)?.marks ?? []);
}

/**
 * Marks of the wires that end where the hands go: at the point itself, and anywhere on a part that is unplugged, moved or taken out. A
 * stud is at the body's potential whatever else is bolted to it.
 */
function endingMarks(model: Model, check: Check) {
  const { graph, parts } = model;
  const touched = placesOf(model, check);
  const owners = new Set(touched.map((id) => graph.points.get(id)?.owner ?? ''));
  const isWhole = MOVES_THE_PART.has(check.kind);
  const points = isWhole
    ? [...graph.points.values()].filter(({ owner }) => owners.has(owner)).map(({ id }) => id)
    : touched;
  return points
    .filter((id) => {
      const kind = parts.get(graph.points.get(id)?.owner ?? '')?.kind;
      return kind !== 'ground' && kind !== 'ground-block' && graph.graph.hasNode(id);
    })
    .flatMap((id) => graph.graph.edges(id).flatMap((edge) => graph.elements.get(edge)?.marks ?? []));
}

/** Checks for which a plug is pulled, a part taken out or its wires moved. */
const MOVES_THE_PART: ReadonlySet<Check['kind']> = new Set(['ohms', 'isolation', 'look', 'swap', 'inspect', 'wiggle']);

/** Cautions of the trade for a check, without those that hold for all. */
export function cautionsOf(model: Model, check: Check): CautionCode[] {
  const codes: CautionCode[] = [];
  if ('function' in check && model.graph.functions.get(check.function)?.law === 'motor') codes.push('moving-parts');
  switch (check.kind) {
    case 'volts':
      codes.push('live-work');
      if (takesNewFuse(check)) codes.push('fuse-size', 'pull-by-housing');
      break;
    case 'lamp':
    case 'clamp':
      codes.push('live-work');
      break;
    case 'ohms':
    case 'isolation':
      codes.push('ohms-dead-only', 'battery-off', 'pull-by-housing');
      break;
    case 'look':
      codes.push('fuse-size');
      break;
    case 'swap':
      codes.push(model.parts.get(check.part)?.kind === 'fuse' ? 'fuse-size' : 'hot-parts');
      break;
    case 'inspect':
      codes.push('pull-by-housing', 'live-pins');
      break;
    case 'link':
      codes.push('live-work', 'fuse-size');
      break;
    case 'observe':
    case 'wiggle':
      break;
  }
  return codes;
}
