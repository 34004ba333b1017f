/**
 * A circuit as it stands in one state and with imposed changes: other laws, links, bridges, moved ends, forced contacts.
 * It must not decide what conducts through gates, nor solve.
 */
import type { Element, Law } from '../graph/element.js';
import type { Circuit } from './compile.js';
import type { Forced } from './conduction.js';
import type { MeasuredVolts } from './curve-lines.js';
import { edgeNumber, extended, type Network, nodeNumber, withLaws } from './network.js';
import type { ResolvedLink, ResolvedState } from './resolved-state.js';
import type { Change } from './solution.js';
import { lawsOfState } from './state-laws.js';

export interface Situation {
  readonly network: Network;
  readonly forced: Forced;
  readonly measured: MeasuredVolts;
}

/** Two conductors pressed together still have this much between them, ohms: bridges of 0 ohms are taken as this. */
export const LEAST_BRIDGE_OHMS = 1e-6;

/** Throws a RangeError on a change that names an element or point that the harness lacks. */
export function situationOf(circuit: Circuit, state: ResolvedState, changes: readonly Change[]): Situation {
  const draft = new Draft(circuit, state);
  state.links.forEach((link, i) => {
    draft.add(linkElement(`link:${i + 1}`, link));
  });
  for (const element of state.detached) draft.forced.set(edgeNumber(circuit.network, element), false);
  let bridges = 0;
  for (const change of changes) {
    switch (change.kind) {
      case 'open':
        draft.forced.set(draft.edge(change.element), false);
        break;
      case 'stuck':
        draft.forced.set(draft.edge(change.element), change.closed);
        break;
      case 'law':
        draft.replace(change.element, (element) => ({ ...element, law: change.law }));
        break;
      case 'series':
        draft.putInSeries(change.element, change.ohms);
        break;
      case 'moved':
        draft.move(change.element, change.end, change.to);
        break;
      case 'bridge':
        bridges += 1;
        draft.add(linkElement(`bridge:${bridges}`, { ...change, resistanceOhms: change.ohms, fuseAmps: null }));
        break;
      default:
        change satisfies never;
    }
  }
  return draft.finish();
}

/** The circuit's elements, copied when first changed. */
class Draft {
  readonly forced = new Map<number, boolean>();
  /** The circuit's own list until the first change. */
  private elements: readonly Element[];
  private readonly innerPoints: string[] = [];
  private hasOtherLaws: boolean;
  private hasOtherPattern = false;

  constructor(
    private readonly circuit: Circuit,
    private readonly state: ResolvedState,
  ) {
    const laws = lawsOfState(circuit.graph, state);
    this.hasOtherLaws = laws.size > 0;
    const { elements } = circuit.network;
    this.elements = this.hasOtherLaws ? elements.map((it) => ({ ...it, law: laws.get(it.id) ?? it.law })) : elements;
  }

  edge(element: string): number {
    return edgeNumber(this.circuit.network, element);
  }

  add(element: Element): void {
    nodeNumber(this.circuit.network.nodeOf, element.a);
    nodeNumber(this.circuit.network.nodeOf, element.b);
    this.elements = [...this.elements, element];
    this.hasOtherPattern = true;
  }

  replace(element: string, change: (element: Element) => Element): void {
    const edge = this.edge(element);
    this.elements = this.elements.with(edge, change(this.elements[edge]));
    this.hasOtherLaws = true;
  }

  move(element: string, end: 'a' | 'b', to: string): void {
    nodeNumber(this.circuit.network.nodeOf, to);
    this.replace(element, (it) => ({ ...it, [end]: to }));
    this.hasOtherPattern = true;
  }

  /** An ohmic element takes the ohms into its own; any other gets a resistor in front of its first end. */
  putInSeries(element: string, ohms: number): void {
    const { law, a } = this.elements[this.edge(element)];
    if (law.kind === 'ohmic') {
      this.replace(element, (it) => ({ ...it, law: { kind: 'ohmic', ohms: law.ohms + ohms } }));
      return;
    }
    const inner = `${element}:series`;
    this.innerPoints.push(inner);
    this.replace(element, (it) => ({ ...it, a: inner }));
    const resistor = linkElement(inner, { from: a, to: inner, resistanceOhms: ohms, fuseAmps: null });
    this.elements = [...this.elements, resistor];
    this.hasOtherPattern = true;
  }

  finish(): Situation {
    const { network, limits } = this.circuit;
    const changed = this.hasOtherPattern
      ? extended(network, this.innerPoints, this.elements, limits)
      : this.hasOtherLaws
        ? withLaws(network, this.elements, limits)
        : network;
    return { network: changed, forced: this.forced, measured: this.measuredEdges() };
  }

  private measuredEdges(): Map<number, number> {
    const measured = new Map<number, number>();
    if (this.state.measured.size === 0) return measured;
    this.elements.forEach(({ owner, law }, edge) => {
      const volts = this.state.measured.get(owner);
      if (law.kind === 'battery' && volts !== undefined) measured.set(edge, volts);
    });
    return measured;
  }
}

function linkElement(id: string, link: ResolvedLink): Element {
  const law: Law = { kind: 'ohmic', ohms: Math.max(link.resistanceOhms, LEAST_BRIDGE_OHMS) };
  return {
    id,
    role: 'link',
    owner: id,
    a: link.from,
    b: link.to,
    law,
    gates: link.fuseAmps === null ? [] : [{ kind: 'intact' }],
    coil: null,
    protection: link.fuseAmps === null ? null : { ratingAmps: link.fuseAmps, style: 'fuse' },
    spread: null,
    exposure: 'dry',
    marks: [],
    defaults: [],
  };
}
