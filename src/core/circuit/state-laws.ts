/**
 * Laws that a state sets: temperature of wires and thermistors, travel of potentiometers, volts of attached supplies, windings
 * under pulses.
 * It must not hold formulas of its own; they belong to the graph and to the wire tables.
 */
import type { Element, Law } from '../graph/element.js';
import { potentiometerOhms, thermistorOhms } from '../graph/expand/sensor-ohms.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import { figure } from '../record/figure.js';
import type { Part } from '../record/part.js';
import { copperTemperatureFactor } from '../units/wire-tables.js';
import { windingLaw } from './laws.js';
import type { ResolvedState } from './resolved-state.js';

/** Element -> law for every element whose law the state sets; empty for most states. */
export function lawsOfState(graph: HarnessGraph, state: ResolvedState): ReadonlyMap<string, Law> {
  const laws = new Map<string, Law>();
  const { ambientCelsius } = state;
  if (ambientCelsius !== null) {
    for (const element of graph.elements.values()) {
      const law = element.role === 'conductor' ? conductorAt(graph, element, ambientCelsius) : null;
      if (law !== null) laws.set(element.id, law);
    }
  }
  if ([...state.commands.values()].some((duty) => duty > 0 && duty < 1)) {
    for (const { id, role, law } of graph.elements.values()) {
      if (law.kind === 'ohmic' && (role === 'coil' || role === 'load')) laws.set(id, windingLaw(law.ohms, 0));
    }
  }
  for (const part of partsSet(graph, state)) {
    for (const element of graph.elements.values()) {
      const law = element.owner === part.address ? lawOfPart(part, element, state) : null;
      if (law !== null) laws.set(element.id, law);
    }
  }
  return laws;
}

function partsSet(graph: HarnessGraph, state: ResolvedState): readonly Part[] {
  const names = new Set([...state.celsius.keys(), ...state.travel.keys(), ...state.attached.keys()]);
  return names.size === 0 ? [] : graph.record.parts.filter(({ address }) => names.has(address));
}

/** Copper at another temperature than the record's. */
function conductorAt(graph: HarnessGraph, element: Element, celsius: number): Law | null {
  if (element.law.kind !== 'ohmic') return null;
  const recorded = figure(graph.record.ambientCelsius, 'system.ambientCelsius').value;
  const ohms = (element.law.ohms * copperTemperatureFactor(celsius)) / copperTemperatureFactor(recorded);
  return { kind: 'ohmic', ohms };
}

function lawOfPart(part: Part, { id, law }: Element, state: ResolvedState): Law | null {
  switch (part.kind) {
    case 'thermistor':
      return id === `${part.address}:thermistor`
        ? { kind: 'ohmic', ohms: thermistorOhms(part, state.celsius.get(part.address)).value }
        : null;
    case 'potentiometer': {
      const { upper, lower } = potentiometerOhms(part, state.travel.get(part.address));
      if (id === `${part.address}:upper`) return { kind: 'ohmic', ohms: upper.value };
      return id === `${part.address}:lower` ? { kind: 'ohmic', ohms: lower.value } : null;
    }
    case 'external-supply':
    case 'jump-posts': {
      const supply = state.attached.get(part.address);
      if (law.kind !== 'regulated' || supply === undefined) return null;
      return { ...law, volts: supply.outputVolts ?? law.volts, limitAmps: supply.limitAmps ?? law.limitAmps };
    }
    default:
      return null;
  }
}
