/**
 * Checks of voltage drop: of each element against what is customary for its class, and of each circuit as a whole.
 * It must not look for the worst state itself.
 */
import type { Element } from '../../graph/element.js';
import { formatVolts } from '../../units/format.js';
import { conditionOf, isActive } from '../condition.js';
import { describeElement, describePart } from '../describe.js';
import { dropLimitVolts } from '../drop-limits.js';
import type { Model } from '../model.js';
import type { Check } from './check.js';

/** From here on a conductor counts as a starter or winch cable: 0.5 V (training pages, common practice). */
const CABLE_AMPS = 80;
const CABLE_VOLTS = 0.5;

export const dropOverElement: Check = {
  code: 'drop-over-element',
  severity: 'warning',
  remedy: 'Thicker or shorter wire, a better contact, or a relay near the load.',
  *find({ model, worst }) {
    for (const element of model.graph.elements.values()) {
      const limit = limitOf(model, element, worst().amps(element.id)?.amps ?? 0);
      const most = worst().amps(element.id);
      if (limit === null || most === null || element.law.kind !== 'ohmic') continue;
      const volts = most.amps * element.law.ohms;
      if (volts <= limit) continue;
      yield {
        at: [element.id],
        points: [element.a, element.b],
        numbers: [
          { what: 'drop', value: volts, unit: 'V' },
          { what: 'current', value: most.amps, unit: 'A' },
        ],
        limit: {
          value: limit,
          unit: 'V',
          source: 'workshop limits by class (common practice, SAE recommendation as quoted in manuals)',
        },
        state: most.state,
        text: `${describeElement(model, element)} drops ${formatVolts(volts)} in ${most.state}; up to ${formatVolts(limit)} is customary.`,
      };
    }
  },
};

function limitOf(model: Model, element: Element, amps: number): number | null {
  const limit = dropLimitVolts(model, element);
  if (limit === null || element.role !== 'conductor' || amps < CABLE_AMPS) return limit;
  return (CABLE_VOLTS * (model.graph.record.systemVolts ?? 12)) / 12;
}

/** Drop from source to load and back, of nominal volts. */
const CIRCUIT_SHARE = 0.1;
const CIRCUIT_SOURCE =
  'ABYC E-11 (seen second-hand) and ISO 10133 annex A (from memory): 10 % for circuits that are not critical';

export const dropOverCircuit: Check = {
  code: 'drop-over-circuit',
  severity: 'warning',
  remedy: 'Look at the voltage profile of the circuit: the largest steps are the wires or joints to improve.',
  *find({ model, worst }) {
    const limit = CIRCUIT_SHARE * (model.graph.record.systemVolts ?? 12);
    const sources = [...model.graph.elements.values()].filter(({ role }) => role === 'source');
    for (const fn of model.graph.functions.values()) {
      if (model.parts.get(fn.part)?.kind === 'starter') continue;
      const { feed, return: back } = model.structure.between(fn.feed, fn.return);
      const own = [...feed, ...back].map((id) => model.graph.elements.get(id));
      // a recorded resistor or diode, or a converter, drops volts on purpose
      if (own.some((element) => element?.role === 'component' || isSmallSource(model, element))) continue;
      let most: { volts: number; state: string } | null = null;
      for (const { name, state, solution } of worst().looks) {
        if (!runsIn(model, fn.part, fn.name, state.source.name) || !isActive(conditionOf(fn, solution))) continue;
        const across = solution.voltsBetween(fn.feed, fn.return);
        const supply = Math.max(
          ...sources.map((source) =>
            feed.has(source.id) || isFeeding(model, feed, source)
              ? (solution.voltsBetween(source.a, source.b) ?? 0)
              : 0,
          ),
        );
        if (across === null || supply < fn.ratedVolts * 0.7) continue;
        const volts = supply - Math.abs(across);
        if (most === null || volts > most.volts) most = { volts, state: name };
      }
      if (most === null || most.volts <= limit) continue;
      yield {
        at: [fn.id],
        points: [fn.feed, fn.return],
        numbers: [{ what: 'drop from source to load and back', value: most.volts, unit: 'V' }],
        limit: { value: limit, unit: 'V', source: CIRCUIT_SOURCE },
        state: most.state,
        text: `${describePart(model, fn.part)}, ${fn.name}: ${formatVolts(most.volts)} are lost on the way in ${most.state}.`,
      };
    }
  },
};

/** Whether the record expects the function to run in this state; a record that says nothing leaves it open. */
function runsIn(model: Model, part: string, name: string, state: string): boolean {
  const recorded = model.parts.get(part);
  const states = recorded?.kind === 'load' ? recorded.functions.find((fn) => fn.name === name)?.runsIn : undefined;
  return states === undefined || states.includes(state);
}

function isSmallSource(model: Model, element: Element | undefined): boolean {
  return element?.role === 'source' && model.parts.get(element.owner)?.kind !== 'battery';
}

/** A source whose positive post some element of the feed begins at. */
function isFeeding(model: Model, feed: ReadonlySet<string>, source: Element): boolean {
  return model.graph.graph.edges(source.a).some((edge) => feed.has(edge));
}
