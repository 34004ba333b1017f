/**
 * Checks around electronics: a coil without suppression on a module output, a sensor that shares its ground with a heavy load.
 * It must not need a solution.
 */
import type { Element } from '../../graph/element.js';
import { naturalSort } from '../../graph/natural-compare.js';
import { formatAmps } from '../../units/format.js';
import { describePart } from '../describe.js';
import type { Model } from '../model.js';
import type { Check } from './check.js';

export const unsuppressedCoil: Check = {
  code: 'coil-without-suppression',
  severity: 'warning',
  remedy: 'Fit a relay with a resistor or diode across its coil (cathode on the fed side), or one beside it.',
  *find({ model }) {
    for (const coil of model.graph.elements.values()) {
      if (coil.role !== 'coil' || isSuppressed(model, coil)) continue;
      const { feed, return: back } = model.structure.between(coil.a, coil.b);
      const outputs = [...feed, ...back].filter((id) => model.graph.elements.get(id)?.role === 'output');
      if (outputs.length === 0) continue;
      yield {
        at: [coil.owner],
        points: [coil.a, coil.b, ...outputs],
        text: `The coil of ${describePart(model, coil.owner)} is worked by a module output (${outputs.join(', ')}) and has no suppression: it kicks hundreds of volts when it lets go (from memory).`,
      };
    }
  },
};

function isSuppressed(model: Model, coil: Element): boolean {
  if (model.graph.elements.has(`${coil.owner}:suppressor`)) return true;
  const [a, b] = [netAround(model, coil.a), netAround(model, coil.b)];
  for (const part of model.graph.record.parts) {
    if (part.kind !== 'suppressor') continue;
    const ends = model.graph.graph.filterNodes((_, point) => point.owner === part.address);
    if (ends.some((end) => a.has(end)) && ends.some((end) => b.has(end))) return true;
  }
  return false;
}

/** Points tied to one by wire and plug alone. */
function netAround(model: Model, start: string): ReadonlySet<string> {
  const reached = new Set([start]);
  for (const point of reached) {
    model.graph.graph.forEachEdge(point, (_, element) => {
      if (WIRE_ROLES.has(element.role)) reached.add(element.a === point ? element.b : element.a);
    });
  }
  return reached;
}

const WIRE_ROLES: ReadonlySet<string> = new Set(['conductor', 'termination', 'double-crimp', 'mating', 'bridge']);

/** A load of this much moves a ground enough to falsify a sensor (engineering judgement: 5 A in 2 mΩ are 10 mV of 5 V). */
const HEAVY_AMPS = 5;

export const sharedSensorGround: Check = {
  code: 'sensor-shares-ground',
  severity: 'warning',
  remedy: 'Lead the sensor`s return to the module`s sensor ground, or to a stud of its own.',
  *find({ model }) {
    const studs = [...model.graph.elements.values()].filter(
      ({ role, owner }) => role === 'joint' && STUDS.has(model.parts.get(owner)?.kind ?? ''),
    );
    const returns = [...model.graph.functions.values()].map((fn) => ({
      fn,
      back: model.structure.between(fn.feed, fn.return).return,
    }));
    for (const part of model.graph.record.parts) {
      if (part.kind !== 'potentiometer' && part.kind !== 'thermistor') continue;
      const ends = naturalSort(
        model.graph.graph.filterNodes((_, point) => point.owner === part.address && point.probeable),
      );
      const back = new Set<string>();
      for (const end of ends) for (const id of model.structure.between(end, end).return) back.add(id);
      for (const stud of studs) {
        if (!back.has(stud.id)) continue;
        const heavy = returns.filter(({ fn, back: own }) => fn.ratedAmps >= HEAVY_AMPS && own.has(stud.id));
        const [most] = heavy.toSorted((one, other) => other.fn.ratedAmps - one.fn.ratedAmps);
        if (most === undefined) continue;
        yield {
          at: [part.address, stud.owner],
          points: [stud.a],
          numbers: [{ what: `rated current of ${most.fn.id}`, value: most.fn.ratedAmps, unit: 'A' }],
          limit: { value: HEAVY_AMPS, unit: 'A', source: 'engineering judgement' },
          text: `${describePart(model, part.address)} returns over ${stud.owner}, which ${heavy.length} heavy load${heavy.length > 1 ? 's share' : ' shares'} (${most.fn.id}, ${formatAmps(most.fn.ratedAmps)}).`,
        };
      }
    }
  },
};

const STUDS: ReadonlySet<string> = new Set(['ground', 'ground-block']);
