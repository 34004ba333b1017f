/**
 * Conduction without numbers: rails, closed contacts, and coils that pull in when both their ends are supplied.
 * Fast enough for thousands of switch combinations; the solver has the last word on whatever is shown.
 */
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Element, Gate, LoadFunction } from '../graph/element.js';
import { evaluate, parseExpression } from '../record/expression.js';
import type { Model } from './model.js';
import { consumerBehind, RAIL_LIMIT_OHMS } from './structure.js';
import { type Reached, Ties } from './ties.js';

type Consumer = Pick<LoadFunction, 'feed' | 'return' | 'law'>;

/** Points that conduct to the sources' positive side and to the reference, and what is energised because of it. */
interface Picture {
  readonly plus: Reached;
  readonly minus: Reached;
  readonly energised: ReadonlySet<string>;
}

export class SwitchWorld {
  /** Everything that passes current, and that which passes so much that it makes a rail; the latter made when first needed. */
  private readonly ties: Ties;
  private madeRails: Ties | undefined;
  private readonly there: Element[] = [];
  /** Coils, outputs, modules and sensing pairs that the gates wait for, by the id of `consumerBehind`. */
  private readonly consumers = new Map<string, Gate>();

  /**
   * Looks at the given elements alone: feed, return and control of the consumer asked about. Plugs and supplies in use are those of
   * `base`; only positions, commands and the engine may differ in the states asked about.
   */
  constructor(
    private readonly model: Model,
    elements: Iterable<string>,
    base: ResolvedState,
  ) {
    for (const id of new Set(elements)) {
      const element = model.graph.elements.get(id);
      if (element === undefined || !model.structure.passable(element)) continue;
      this.watch(element);
      if (element.gates.every((gate) => maySet(gate) || this.holds(gate, base, new Set()))) this.there.push(element);
    }
    this.ties = new Ties(this.there, moves);
    for (const source of model.structure.sources) this.watch(source);
  }

  private get rails(): Ties {
    const isLow = ({ law }: Element): boolean => law.kind !== 'ohmic' || law.ohms <= RAIL_LIMIT_OHMS;
    this.madeRails ??= new Ties(this.there.filter(isLow), moves);
    return this.madeRails;
  }

  private watch(element: Element): void {
    for (const gate of element.gates) {
      const consumer = consumerBehind(this.model.graph, gate);
      if (consumer !== null) this.consumers.set(consumer.id, gate);
    }
  }

  /** From all released, all at once, until nothing moves. What never comes to rest (a ring that clicks) runs nothing. */
  runs(consumer: Consumer, state: ResolvedState): boolean {
    let energised: ReadonlySet<string> = new Set();
    for (let round = 0; round <= this.consumers.size + 1; round++) {
      const picture = this.pictureOf(state, energised);
      const next = new Set(
        [...this.consumers].filter(([, gate]) => this.isEnergised(gate, state, picture)).map(([id]) => id),
      );
      if (sameSet(next, energised)) return supplied(consumer, picture);
      energised = next;
    }
    return false;
  }

  private pictureOf(state: ResolvedState, energised: ReadonlySet<string>): Picture {
    const { graph, structure } = this.model;
    const closed = (element: Element): boolean => element.gates.every((gate) => this.holds(gate, state, energised));
    const working = structure.sources.filter(closed);
    const positives = working.map((source) => source.a).filter((point) => !structure.minusRail.has(point));
    const negatives = working.map((source) => source.b).filter((point) => !structure.plusRail.has(point));
    const plus = (ties: Ties): Reached => ties.reach(positives, closed, 'a');
    const minus = (ties: Ties): Reached => ties.reach([graph.reference, ...negatives], closed, 'b');
    const [anyPlus, anyMinus] = [plus(this.ties), minus(this.ties)];
    let rails: { readonly plus: Reached; readonly minus: Reached } | undefined;
    const hard = (): { readonly plus: Reached; readonly minus: Reached } => {
      rails ??= { plus: plus(this.rails), minus: minus(this.rails) };
      return rails;
    };
    // Through a resistor a consumer is fed, but against a rail a resistor does not count: a rotor to ground is no short.
    return {
      plus: { has: (point) => anyPlus.has(point) && !(anyMinus.has(point) && hard().minus.has(point)) },
      minus: { has: (point) => anyMinus.has(point) && !(anyPlus.has(point) && hard().plus.has(point)) },
      energised,
    };
  }

  private holds(gate: Gate, state: ResolvedState, energised: ReadonlySet<string>): boolean {
    switch (gate.kind) {
      case 'position':
        return gate.closedIn.includes(state.positions.get(gate.part) ?? '');
      case 'coil':
        return energised.has(gate.coil) === (gate.when === 'pulled');
      case 'output':
      case 'awake':
      case 'voltage':
        return energised.has(consumerBehind(this.model.graph, gate)?.id ?? '');
      case 'mated':
        return !state.unplugged.has(gate.part);
      case 'attached':
        return state.attached.has(gate.part);
      case 'turning':
        return state.engineRuns;
      case 'standing':
        return !state.engineRuns;
      case 'intact':
      case 'lit':
        return true;
    }
  }

  private isEnergised(gate: Gate, state: ResolvedState, picture: Picture): boolean {
    if (gate.kind === 'coil') {
      const coil = this.model.graph.elements.get(gate.coil);
      return coil !== undefined && supplied({ feed: coil.a, return: coil.b, law: 'ohmic' }, picture);
    }
    if (gate.kind === 'voltage') return picture.plus.has(gate.positive) && picture.minus.has(gate.negative);
    if (gate.kind === 'awake') return this.isAwake(gate.module, picture);
    return (
      gate.kind === 'output' &&
      this.isAwake(gate.module, picture) &&
      this.isCommanded(gate.module, gate.terminal, state, picture)
    );
  }

  private isAwake(address: string, picture: Picture): boolean {
    const module = this.model.graph.modules.get(address);
    if (module === undefined) return false;
    return (
      module.supplies.some((pin) => picture.plus.has(pin.point)) &&
      module.grounds.some((point) => picture.minus.has(point))
    );
  }

  private isCommanded(address: string, terminal: string, state: ResolvedState, picture: Picture): boolean {
    const module = this.model.graph.modules.get(address);
    const pin = module?.outputs.find((output) => output.terminal === terminal);
    if (module === undefined || pin === undefined) return false;
    const command = state.commands.get(pin.point);
    if (command !== undefined) return command > 0;
    if (pin.on === null) return false;
    const parsed = parseExpression(pin.on);
    if (!parsed.ok) return false;
    return evaluate(parsed.expression, (name) => {
      const input = module.inputs.find((candidate) => candidate.terminal === name);
      if (input !== undefined)
        return input.active === 'low' ? picture.minus.has(input.point) : picture.plus.has(input.point);
      return module.supplies.some((supply) => supply.point.endsWith(`/${name}`) && picture.plus.has(supply.point));
    });
  }
}

/** Feed on one rail, return on the other; all but diodes take either polarity. An end on both rails is a short, and on neither here. */
function supplied(consumer: Consumer, { plus, minus }: Picture): boolean {
  const { feed, return: back } = consumer;
  if (plus.has(feed) && minus.has(back)) return true;
  return consumer.law !== 'diode' && minus.has(feed) && plus.has(back);
}

function sameSet(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  return one.size === other.size && [...one].every((member) => other.has(member));
}

/** Whether a setting or another consumer decides it: all but plugs, supplies in use, fuses and the phase of a flasher. */
function maySet({ kind }: Gate): boolean {
  return kind !== 'mated' && kind !== 'attached' && kind !== 'intact' && kind !== 'lit';
}

const moves = ({ gates }: Element): boolean => gates.some(maySet);
