/**
 * The fault catalogue of a harness: every single fault of every part, wire, termination, contact and joint, with prior weights.
 * Reads the record and the graph; it does not solve anything and knows no symptom.
 */

import type { Model } from '../answers/model.js';
import type { Change } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import { adjacentCavities, bodiesBeside, neighbouringWires } from '../graph/neighbours.js';
import { elementFaults } from './element-faults.js';
import type { Fault, FaultMode } from './fault.js';
import { EXPOSURE_FACTOR, HAZARD_FACTOR, priorRow } from './priors.js';

export type Profile = 'just-built' | 'in-service';

export interface CatalogueOptions {
  readonly profile: Profile;
  /** Factors on weights by prior row id, learned from closed hunts; 1 when absent. */
  readonly learned?: ReadonlyMap<string, number>;
  /** Elements that matter; faults of others are left out. All when absent. */
  readonly within?: ReadonlySet<string>;
}

/** A short through damp, chafe or a strand: low enough to blow a fuse, high enough to be one contact. Engineering judgement. */
const SHORT_OHMS = 0.05;

/** Single faults in element order, then shorts, swaps and modules. Weights are relative; what stays possible besides is added by `hypotheses`. */
export function faultCatalogue(model: Model, options: CatalogueOptions): readonly Fault[] {
  const isWithin = (element: string): boolean => options.within === undefined || options.within.has(element);
  const faults: Fault[] = [];
  for (const element of model.graph.elements.values()) {
    if (isWithin(element.id))
      faults.push(...elementFaults(model, element, (row) => weightOf(model, element, row, options)));
  }
  faults.push(
    ...chafes(model, options, isWithin),
    ...cavityBridges(model, options, isWithin),
    ...swaps(model, options, isWithin),
    ...deadModules(model, options, isWithin),
  );
  return faults.filter((fault) => fault.weight > 0);
}

/** Prior weight of a row for one element: profile, exposure, hazards of its route. */
function weightOf(model: Model, element: Element, id: string, { profile, learned }: CatalogueOptions): number {
  const row = priorRow(id);
  const base = profile === 'just-built' ? row.justBuilt : row.inService;
  const lived = profile === 'just-built' ? 1 : EXPOSURE_FACTOR[element.exposure];
  const hazard = element.role === 'conductor' && profile === 'in-service' ? routeFactor(model, element.owner) : 1;
  return base * lived * hazard * (learned?.get(id) ?? 1);
}

function routeFactor(model: Model, label: string): number {
  const route = model.wires.get(label)?.route ?? [];
  const hazards = route.flatMap(
    (address) => model.graph.record.segments?.find((segment) => segment.address === address)?.hazards ?? [],
  );
  return Math.max(1, ...hazards.map((hazard) => HAZARD_FACTOR[hazard]));
}

/** A wire chafed through to a body that it runs along, or to a wire in the same bundle. */
function chafes(model: Model, options: CatalogueOptions, isWithin: (element: string) => boolean): Fault[] {
  const faults: Fault[] = [];
  const split = priorRow('chafe').modes;
  const main = mainBody(model);
  for (const [label, along] of bodiesBeside(model.graph.record)) {
    // Where nobody wrote down how a wire runs, it still runs somewhere.
    const bodies =
      along.length === 0 && main !== null && (model.wires.get(label)?.route ?? []).length === 0 ? [main] : along;
    const element = model.graph.elements.get(label);
    if (element === undefined || !isWithin(label)) continue;
    const weight =
      (weightOf(model, element, 'chafe', options) * (split['short-to-body'] ?? 0)) / Math.max(1, bodies.length);
    for (const body of bodies) {
      faults.push(
        shortFault(label, 'short-to-body', element.b, body, weight, `wire ${label} chafed through to ${body}`),
      );
    }
  }
  const { pairs } = neighbouringWires(model.graph.record);
  const partners = new Map<string, number>();
  for (const { a, b } of pairs) for (const label of [a, b]) partners.set(label, (partners.get(label) ?? 0) + 1);
  for (const { a, b } of pairs) {
    const [one, other] = [model.graph.elements.get(a), model.graph.elements.get(b)];
    if (one === undefined || other === undefined || !(isWithin(a) || isWithin(b))) continue;
    const weight =
      (weightOf(model, one, 'chafe', options) * (split['short-to-neighbour'] ?? 0)) / (partners.get(a) ?? 1);
    faults.push(shortFault(a, 'short-to-neighbour', one.b, other.b, weight, `wires ${a} and ${b} touch in the loom`));
  }
  return faults;
}

/** The body that most of the harness is grounded to, by studs and cases; null: there is none. */
function mainBody({ graph: { record } }: Model): string | null {
  const bodies = record.parts.filter(({ kind }) => kind === 'body').map(({ address }) => address);
  const standing = (body: string): number =>
    record.parts.filter((part) => ('on' in part && part.on === body) || ('caseOn' in part && part.caseOn === body))
      .length;
  return bodies.toSorted((a, b) => standing(b) - standing(a))[0] ?? null;
}

/** Two neighbouring cavities of one half joined by damp, a strand or a bent pin. */
function cavityBridges(model: Model, options: CatalogueOptions, isWithin: (element: string) => boolean): Fault[] {
  return connectorPairs(model, 'plug', isWithin).map(({ a, b, mating }) =>
    shortFault(
      mating.owner,
      'short-to-neighbour',
      a,
      b,
      weightOf(model, mating, 'cavity-bridge', options),
      `cavities ${a} and ${b} bridged by damp, a strand or a bent pin`,
    ),
  );
}

/** The wires of two neighbouring cavities of one half sit in each other's place. */
function swaps(model: Model, options: CatalogueOptions, isWithin: (element: string) => boolean): Fault[] {
  return (['plug', 'receptacle'] as const).flatMap((half) =>
    connectorPairs(model, half, isWithin).flatMap(({ a, b, mating }) => {
      const changes = swapChanges(model, a, b);
      const fault: Fault = {
        id: `${a}:swapped-cavities ${b}`,
        mode: 'swapped-cavities',
        element: mating.id,
        owner: mating.owner,
        changes,
        ohms: null,
        // One pair of wires can be swapped on either half.
        weight: weightOf(model, mating, 'connector-swap', options) / 2,
        repair: `swap ${a} ${b}`,
        description: `wires of ${a} and ${b} sit in each other’s cavity`,
      };
      return changes.length === 0 ? [] : [fault];
    }),
  );
}

function connectorPairs(
  model: Model,
  half: 'plug' | 'receptacle',
  isWithin: (element: string) => boolean,
): { a: string; b: string; mating: Element }[] {
  return model.graph.record.parts.flatMap((part) => {
    if (part.kind !== 'connector') return [];
    return adjacentCavities(part)
      .filter((pair) => pair.half === half)
      .flatMap(({ a, b }) => {
        const [one, other] = [a, b].map((point) =>
          model.graph.elements.get(`${part.address}:${point.slice(point.lastIndexOf('/') + 1)}`),
        );
        if (one === undefined || other === undefined || !(isWithin(one.id) || isWithin(other.id))) return [];
        return [{ a, b, mating: one }];
      });
  });
}

/** Every termination at `a` ends on `b` and the other way round. */
function swapChanges(model: Model, a: string, b: string): Change[] {
  const moves = (from: string, to: string): Change[] =>
    model.graph.graph.edges(from).flatMap((id): Change[] => {
      const element = model.graph.elements.get(id);
      if (element === undefined || (element.role !== 'termination' && element.role !== 'double-crimp')) return [];
      return [{ kind: 'moved', element: id, end: element.a === from ? 'a' : 'b', to }];
    });
  return [...moves(a, b), ...moves(b, a)];
}

function shortFault(
  owner: string,
  mode: FaultMode,
  from: string,
  to: string,
  weight: number,
  description: string,
): Fault {
  return {
    id: `${owner}:${mode} ${from} ${to}`,
    mode,
    element: owner,
    owner,
    changes: [{ kind: 'bridge', from, to, ohms: SHORT_OHMS }],
    ohms: null,
    weight,
    repair: `insulate ${owner}`,
    description,
  };
}

/** A module that does nothing any more: all of its outputs stay off, its idle draw is gone. */
function deadModules(model: Model, options: CatalogueOptions, isWithin: (element: string) => boolean): Fault[] {
  return [...model.graph.modules.values()].flatMap(({ part, outputs }): Fault[] => {
    const [first] = outputs.map((output) => model.graph.elements.get(output.element));
    if (first === undefined || !outputs.some((output) => isWithin(output.element))) return [];
    return [
      {
        id: `${part}:module-dead`,
        mode: 'module-dead',
        element: first.id,
        owner: part,
        changes: outputs.map(({ element }) => ({ kind: 'stuck', element, closed: false })),
        ohms: null,
        weight: weightOf(model, first, 'module', options),
        repair: `replace ${part}`,
        description: `module ${part}: dead`,
      },
    ];
  });
}
