// Carries the continuity and isolation plans out as a person would, with one fault in a simulated harness, and says what was found.
// Of the core it uses the plans and what they say to do next; what the meter shows comes from the record alone.

import type { Model } from '../../src/core/answers/model.js';
import { planContinuity } from '../../src/core/answers/plans/continuity.js';
import { crossReadings, explainContinuity } from '../../src/core/answers/plans/explain-continuity.js';
import { harnessNets } from '../../src/core/answers/plans/harness-nets.js';
import { planIsolation } from '../../src/core/answers/plans/isolation.js';
import { locateShort } from '../../src/core/answers/plans/locate-short.js';
import type { Plan } from '../../src/core/answers/shapes/plans.js';
import { BareHarnessMeter } from './bare-harness-meter.js';
import { bareHarnessNetlist, type Conductor, type InjectedFault } from './bare-harness-netlist.js';

/** Ohms of the leads, as the plans assume. */
export const LEAD_OHMS = 0.2;

/** Kinds that are no device: the same list as the trade has, written down again. */
const LOOM: ReadonlySet<string> = new Set([
  'connector',
  'splice',
  'busbar',
  'ground',
  'ground-block',
  'body',
  'strap',
  'tie',
]);

export class ProvedHarness {
  readonly continuity: Plan;
  readonly isolation: Plan;
  private readonly lifted: ReadonlySet<string>;
  private readonly healthy: BareHarnessMeter;
  private readonly healthyConductors: readonly Conductor[];
  /** Points where the harness meets a device, or a bare end. */
  private readonly ends: ReadonlySet<string>;
  private readonly readOf = new Map<string, number | null>();

  constructor(private readonly model: Model) {
    const { record } = model.graph;
    this.continuity = planContinuity(model);
    this.isolation = planIsolation(model, 'two-tie-bars');
    const points = this.continuity.steps.flatMap(({ red, black }) => [...red, ...black]);
    const offParts = new Set(this.continuity.remove.map(({ part }) => part));
    this.lifted = new Set(
      points.filter((point) => point.includes('@') || (/\/[12]$/.test(point) && this.isStrap(point, offParts))),
    );
    const netlist = bareHarnessNetlist(record, { kind: 'none' }, this.lifted);
    this.healthyConductors = netlist.conductors;
    this.healthy = new BareHarnessMeter(netlist.conductors);
    for (const step of this.continuity.steps) this.readOf.set(step.id, this.healthy.ohms(step.red[0], step.black[0]));
    const kinds = new Map(record.parts.map(({ address, kind }) => [address, kind]));
    const isDevice = (point: string): boolean => !LOOM.has(kinds.get(point.split(/[./]/)[0]) ?? 'body');
    const untouched = new Set(harnessNets(model).forbidden);
    const touched = record.wires.filter(({ label }) => !untouched.has(label));
    this.ends = new Set([...touched.flatMap(({ from, to }) => [from, to]).filter(isDevice), ...this.lifted, ...points]);
  }

  /** A harness without fault passes every line. */
  healthyFailures(): number {
    const low = this.isolation.steps.filter(({ red, black }) => this.healthy.conducts(red, black));
    return this.failing(this.readOf).size + low.length;
  }

  /** Every conductor whose loss parts two ends of the harness, but those that no plan touches. */
  opens(): string[] {
    const touched = new Set(this.isolation.steps.flatMap(({ red, black }) => [...red, ...black]));
    const pieces = new Set([...touched].map((point) => this.healthy.pieceOf(point)));
    const byPiece = new Map<number | string, Conductor[]>();
    for (const conductor of this.healthyConductors) {
      const piece = this.healthy.pieceOf(conductor.a);
      byPiece.set(piece, [...(byPiece.get(piece) ?? []), conductor]);
    }
    return this.healthyConductors
      .filter(({ a }) => pieces.has(this.healthy.pieceOf(a)))
      .filter(({ name, a, b }) => {
        const metal = byPiece.get(this.healthy.pieceOf(a)) ?? [];
        const without = new BareHarnessMeter(metal.filter((it) => it.name !== name));
        const hasEnd = (point: string): boolean => [...without.walk(point)].some((it) => this.ends.has(it));
        return without.pieceOf(a) !== without.pieceOf(b) && hasEnd(a) && hasEnd(b);
      })
      .map(({ name }) => name);
  }

  /** Found when exactly those lines fail whose way, as the plan prints it, runs through the fault. */
  foundOpen(name: string): boolean {
    const touched = this.endsOf([name]);
    const ohms = this.read(this.faulty({ kind: 'open', name }, touched), touched);
    const failing = this.failing(ohms);
    const isIt = (id: string): boolean => {
      const [owner, element] = id.split(/[@:]/);
      return id === name || (owner === name && (id.includes('@') || /^(joint|metal|strap|tie)/.test(element)));
    };
    const isOn = (elements: readonly string[]): boolean => elements.some(isIt);
    return failing.size > 0 && this.continuity.steps.every(({ id, elements }) => isOn(elements) === failing.has(id));
  }

  /** Every two nets, joined at one terminal of each. */
  shorts(): { readonly a: string; readonly b: string }[] {
    const clips = this.clips();
    return clips.flatMap((a, i) => clips.slice(i + 1).map((b) => ({ a, b })));
  }

  foundShort({ a, b }: { readonly a: string; readonly b: string }): boolean {
    const meter = this.faulty({ kind: 'short', a, b }, [a, b]);
    const failing = this.isolation.steps.find(({ red, black }) => meter.conducts(red, black));
    if (failing === undefined) return false;
    const answers: boolean[] = [];
    let search = locateShort(failing.red, failing.black, answers);
    while (search.kind === 'ask') {
      answers.push(meter.conducts(search.red, search.black));
      search = locateShort(failing.red, failing.black, answers);
    }
    return [search.red, search.black].sort().join(' ') === [a, b].sort().join(' ');
  }

  /** Every two wire ends on one half of a plug or on one part, of two nets that the plans touch. */
  swaps(): Extract<InjectedFault, { kind: 'swap' }>[] {
    const pieces = new Set(this.clips().map((clip) => this.healthy.pieceOf(clip)));
    const byHolder = new Map<string, { wire: string; end: 'from' | 'to'; point: string }[]>();
    for (const { label, from, to } of this.model.graph.record.wires) {
      for (const [end, point] of [
        ['from', from],
        ['to', to],
      ] as const) {
        const holder = point.slice(0, point.lastIndexOf('/'));
        if (holder === '' || this.lifted.has(`${label}@${point}`) || !pieces.has(this.healthy.pieceOf(point))) continue;
        byHolder.set(holder, [...(byHolder.get(holder) ?? []), { wire: label, end, point }]);
      }
    }
    const swaps: Extract<InjectedFault, { kind: 'swap' }>[] = [];
    for (const ends of byHolder.values()) {
      ends.forEach((a, i) => {
        for (const b of ends.slice(i + 1)) {
          if (a.wire !== b.wire && this.healthy.pieceOf(a.point) !== this.healthy.pieceOf(b.point))
            swaps.push({ kind: 'swap', a: { wire: a.wire, end: a.end }, b: { wire: b.wire, end: b.end } });
        }
      });
    }
    return swaps;
  }

  /** `named`: told as a swap of these two nets. `seen`: some line fails. */
  foundSwap(fault: Extract<InjectedFault, { kind: 'swap' }>): 'named' | 'seen' | 'missed' {
    const touched = this.endsOf([fault.a.wire, fault.b.wire]);
    const meter = this.faulty(fault, touched);
    const ohms = this.read(meter, touched);
    const failing = this.failing(ohms);
    const verdicts = explainContinuity(this.continuity, ohms, (red, black) => asRead(meter.ohms(red, black)));
    const nets = new Set(touched.map((point) => this.healthy.pieceOf(point)));
    const isNamed =
      crossReadings(this.continuity, failing).length > 0 &&
      verdicts.some(
        (it) =>
          it.kind === 'swapped' &&
          [it.a, it.b].every((point) => nets.has(this.healthy.pieceOf(point))) &&
          this.healthy.pieceOf(it.a) !== this.healthy.pieceOf(it.b),
      );
    if (isNamed) return 'named';
    const isSeen = failing.size > 0 || this.isolation.steps.some(({ red, black }) => meter.conducts(red, black));
    return isSeen ? 'seen' : 'missed';
  }

  /** Ids of the continuity lines that fail, with the ohms read. */
  continuityUnder(fault: InjectedFault): ReadonlyMap<string, number | null> {
    const meter = new BareHarnessMeter(this.netlist(fault).conductors);
    return new Map(this.continuity.steps.map(({ id, red, black }) => [id, asRead(meter.ohms(red[0], black[0]))]));
  }

  netlist(fault: InjectedFault): ReturnType<typeof bareHarnessNetlist> {
    return bareHarnessNetlist(this.model.graph.record, fault, this.lifted);
  }

  failing(ohms: ReadonlyMap<string, number | null>): ReadonlySet<string> {
    return new Set(
      this.continuity.steps
        .filter(({ id, most }) => {
          const value = ohms.get(id) ?? null;
          return value === null || value > (most ?? 0);
        })
        .map(({ id }) => id),
    );
  }

  private clips(): string[] {
    return [...new Set(this.isolation.steps.flatMap(({ red, black }) => [...red, ...black]))];
  }

  private isStrap(point: string, off: ReadonlySet<string>): boolean {
    const [owner] = point.split('/');
    return off.has(owner) && this.model.parts.get(owner)?.kind === 'strap';
  }

  /** The faulty harness, of which only the metal around the fault is kept: a net has one clip, so all others stay apart. */
  private faulty(fault: InjectedFault, touched: readonly string[]): BareHarnessMeter {
    const pieces = new Set(touched.map((point) => this.healthy.pieceOf(point)));
    return new BareHarnessMeter(this.netlist(fault).conductors.filter(({ a }) => pieces.has(this.healthy.pieceOf(a))));
  }

  private endsOf(names: readonly string[]): string[] {
    return this.healthyConductors.filter(({ name }) => names.includes(name)).flatMap(({ a, b }) => [a, b]);
  }

  /** Lines on metal that the fault does not touch read as on the sound harness. */
  private read(meter: BareHarnessMeter, touched: readonly string[]): ReadonlyMap<string, number | null> {
    const pieces = new Set(touched.map((point) => this.healthy.pieceOf(point)));
    return new Map(
      this.continuity.steps.map(({ id, red, black }) => [
        id,
        asRead(pieces.has(this.healthy.pieceOf(red[0])) ? meter.ohms(red[0], black[0]) : (this.readOf.get(id) ?? null)),
      ]),
    );
  }
}

function asRead(ohms: number | null): number | null {
  return ohms === null ? null : ohms + LEAD_OHMS;
}
