/**
 * The faults of one element by its role: what it does instead of what is recorded.
 * It must not look beyond the element; shorts, swaps and whole modules are the catalogue's.
 */

import { describeElement } from '../answers/describe.js';
import type { Model } from '../answers/model.js';
import type { Change } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import type { Fault, FaultMode } from './fault.js';
import { priorRow } from './priors.js';

/** Bad joints are looked at on this grid, ohms, even on a logarithmic scale; real ones lie between (engineering judgement). */
export const HIGH_RESISTANCE_OHMS: readonly number[] = [0.15, 0.6, 2.4, 10, 40, 160, 640];
/** A burnt contact. */
const BURNT_OHMS: readonly number[] = [0.15, 0.6, 2.4, 10];
/** What is left of a shorted load. */
const SHORTED_OHMS = 0.05;

/** `weightOf` gives the weight of a prior row for this element; an element without a row has no faults of its own. */
export function elementFaults(model: Model, element: Element, weightOf: (row: string) => number): Fault[] {
  const named = describeElement(model, element);
  return modeWeights(model, element, weightOf).flatMap(([mode, weight]) =>
    variants(element, mode).map(
      ({ ohms, changes }, _, all): Fault => ({
        id: `${element.id}:${mode}${ohms === null ? '' : ` ${ohms}`}`,
        mode,
        element: element.id,
        owner: element.owner,
        changes,
        ohms,
        weight: weight / all.length,
        repair: repairKey(element, mode),
        description: `${named}: ${MODE_WORDS[mode]}${ohms === null ? '' : ` (about ${ohms} Ω)`}`,
      }),
    ),
  );
}

/** Weight of each mode over all rows of the element: a wire has one share for its ends' sake and one by the metre. */
function modeWeights(model: Model, element: Element, weightOf: (row: string) => number): [FaultMode, number][] {
  const weights = new Map<FaultMode, number>();
  for (const id of priorRowsFor(model, element)) {
    const weight = weightOf(id) * share(model, element, id);
    for (const [mode, part] of Object.entries(priorRow(id).modes) as [FaultMode, number][]) {
      weights.set(mode, (weights.get(mode) ?? 0) + weight * part);
    }
  }
  return [...weights];
}

const IN_A_BOX: ReadonlySet<string> = new Set(['relay', 'flasher', 'fuse', 'breaker', 'fusible-link']);

/** Rows of the table of priors that an element has faults of. */
export function priorRowsFor(model: Model, element: Element): string[] {
  const kind = model.parts.get(element.owner)?.kind;
  switch (element.role) {
    case 'conductor':
      return ['conductor', 'conductor-metre'];
    case 'termination':
      return [endsOnSplice(model, element) ? 'splice-leg' : 'termination'];
    case 'double-crimp':
    case 'bridge':
      return ['termination'];
    case 'mating':
      return [IN_A_BOX.has(kind ?? '') ? 'socket' : 'mating'];
    case 'joint':
      return ['joint'];
    case 'contact':
      if (kind === 'breaker') return ['fuse'];
      return [
        kind === 'relay' || kind === 'flasher' || kind === 'starter' || kind === 'split-charge-relay'
          ? 'relay'
          : 'switch',
      ];
    case 'coil':
      return kind === 'relay' || kind === 'starter' ? ['relay'] : [];
    case 'fuse':
      return ['fuse'];
    case 'load':
      return [loadRow(element)];
    case 'component':
      return [element.law.kind === 'diode' ? 'diode' : 'component'];
    case 'output':
      return ['output'];
    case 'source':
      return kind === 'battery' ? ['battery'] : kind === 'alternator' ? ['alternator'] : [];
    case 'metal':
      return kind === 'strap' ? ['metal'] : [];
    case 'tie':
    case 'bias':
    case 'link':
      return [];
  }
}

function endsOnSplice(model: Model, element: Element): boolean {
  return [element.a, element.b].some((point) => model.graph.points.get(point)?.role === 'splice');
}

function loadRow(element: Element): string {
  switch (element.law.kind) {
    case 'filament':
      return 'lamp';
    case 'motor':
      return 'motor';
    case 'constant-power':
    case 'diode':
      return 'electronics';
    default:
      return 'load';
  }
}

/** The metres of a wire, and what of a part's row falls to this one of its contacts. */
function share(model: Model, element: Element, row: string): number {
  if (row === 'conductor-metre') return model.wires.get(element.owner)?.lengthMetres ?? 1;
  if (element.role !== 'contact') return 1;
  const siblings = [...model.graph.elements.values()].filter(
    ({ owner, role }) => owner === element.owner && role === 'contact',
  );
  return 1 / siblings.length;
}

interface Variant {
  readonly ohms: number | null;
  readonly changes: readonly Change[];
}

/** How a mode shows in the circuit of this element; none when the mode does not apply to its role. */
function variants(element: Element, mode: FaultMode): Variant[] {
  const one = (...changes: Change[]): Variant[] => [{ ohms: null, changes }];
  const open: Change = { kind: 'open', element: element.id };
  const series = (list: readonly number[]): Variant[] =>
    list.map((ohms) => ({ ohms, changes: [{ kind: 'series', element: element.id, ohms }] }));
  switch (mode) {
    case 'open':
    case 'premature-open':
    case 'missing':
    // Too small a fuse goes with the load's own current; too large a one shows nothing until the day of a short.
    case 'wrong-rating':
    case 'intermittent':
    case 'load-open':
    case 'diode-open':
    case 'not-charging':
      return one(open);
    case 'high-resistance':
      return series(HIGH_RESISTANCE_OHMS);
    case 'coil-open':
      return element.role === 'coil' ? one(open) : [];
    case 'stuck-open':
      return element.role === 'contact' ? one({ kind: 'stuck', element: element.id, closed: false }) : [];
    case 'stuck-closed':
      return element.role === 'contact' ? one({ kind: 'stuck', element: element.id, closed: true }) : [];
    case 'burnt-contact':
      return element.role === 'contact' ? series(BURNT_OHMS) : [];
    case 'load-shorted':
    case 'diode-shorted':
      return one({ kind: 'law', element: element.id, law: { kind: 'ohmic', ohms: SHORTED_OHMS } });
    case 'load-part-shorted':
      return one({ kind: 'bridge', from: element.a, to: element.b, ohms: halfOhms(element) });
    case 'diode-reversed':
      return reversed(element);
    case 'output-dead':
      return one({ kind: 'stuck', element: element.id, closed: false });
    case 'output-stuck-on':
      return one({ kind: 'stuck', element: element.id, closed: true });
    case 'battery-flat':
      return element.law.kind === 'battery'
        ? one({ kind: 'law', element: element.id, law: { ...element.law, volts: element.law.volts * 0.88 } })
        : [];
    case 'battery-weak':
      return element.law.kind === 'battery'
        ? one({
            kind: 'law',
            element: element.id,
            law: { ...element.law, dischargeOhms: element.law.dischargeOhms * 20 },
          })
        : [];
    case 'module-dead':
    case 'short-to-body':
    case 'short-to-neighbour':
    case 'swapped-cavities':
    case 'record-wrong':
    case 'unknown':
      return [];
  }
}

/** Half of the winding or chain left: the rest of the load is bridged by as much as it has itself. */
function halfOhms(element: Element): number {
  const { law } = element;
  if (law.kind === 'ohmic') return law.ohms;
  if ('ratedVolts' in law && 'ratedAmps' in law) return law.ratedVolts / law.ratedAmps;
  return 10;
}

function reversed(element: Element): Variant[] {
  return [
    {
      ohms: null,
      changes: [
        { kind: 'moved', element: element.id, end: 'a', to: element.b },
        { kind: 'moved', element: element.id, end: 'b', to: element.a },
      ],
    },
  ];
}

/** Mending an open crimp and a bad one is the same act; a stuck relay and its burnt contact are one relay. */
function repairKey(element: Element, mode: FaultMode): string {
  switch (mode) {
    case 'open':
    case 'intermittent':
    case 'high-resistance':
      return `remake ${element.id}`;
    case 'premature-open':
    case 'missing':
    case 'wrong-rating':
      return `fuse ${element.owner}`;
    default:
      return `replace ${element.owner}`;
  }
}

/** What is the matter, in the words of the trade. */
export const MODE_WORDS: Readonly<Record<FaultMode, string>> = {
  open: 'open',
  intermittent: 'comes and goes',
  'module-dead': 'dead',
  'high-resistance': 'high resistance',
  'short-to-body': 'shorted to a body',
  'short-to-neighbour': 'touches its neighbour',
  'swapped-cavities': 'swapped with its neighbour',
  missing: 'not fitted',
  'wrong-rating': 'too small a fuse fitted, blown by the load’s own current',
  'premature-open': 'blown without overload',
  'coil-open': 'coil open',
  'stuck-open': 'does not close',
  'stuck-closed': 'does not open',
  'burnt-contact': 'contact burnt',
  'load-open': 'open inside',
  'load-shorted': 'shorted inside',
  'load-part-shorted': 'part shorted inside',
  'diode-open': 'open',
  'diode-shorted': 'shorted',
  'diode-reversed': 'fitted the wrong way round',
  'output-dead': 'output does not switch on',
  'output-stuck-on': 'output does not switch off',
  'battery-flat': 'flat',
  'battery-weak': 'high internal resistance',
  'not-charging': 'does not charge',
  'record-wrong': 'record wrong',
  unknown: 'unknown',
};
