// A record and a state as a network for SPICE: every part and wire expanded anew from the words of the record's schema.
// It must not import anything of the graph or the circuit; figures come from the record's own table of defaults.

import { figure } from '../../src/core/record/figure.js';
import type { Part } from '../../src/core/record/part.js';
import { isPlugIn } from '../../src/core/record/points.js';
import type { HarnessRecord, Wire } from '../../src/core/record/record.js';
import * as joints from '../../src/core/record/resolve-joints.js';
import { systemVolts } from '../../src/core/record/resolve-sources.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { terminalsOf } from '../../src/core/record/terminals.js';
import { parseWireSize } from '../../src/core/units/wire-size.js';
import { type Alteration, Sketch } from './sketch.js';
import { sketchConsumer } from './sketch-consumers.js';
import { sketchSource } from './sketch-sources.js';
import { sketchSwitching } from './sketch-switching.js';

export interface RecordSketch {
  readonly sketch: Sketch;
  readonly reference: string;
}

/** What the expansion of a part needs. */
export interface PartContext {
  readonly sketch: Sketch;
  readonly state: OperatingState;
  readonly systemVolts: number;
  /** Point of a terminal on the part's own side of its contacts. */
  at(terminal: string): string;
  readonly isPulled: boolean;
}

/**
 * `alterations` are what is wrong, by the names of the branches, which are the record's own; `factors` what each branch's
 * figure differs by from the recorded one.
 */
export function sketchRecord(
  record: HarnessRecord,
  state: OperatingState,
  alterations: readonly Alteration[] = [],
  factors: ReadonlyMap<string, number> = new Map(),
): RecordSketch {
  const sketch = new Sketch(alterations, factors);
  const unplugged = new Set(state.unplugged ?? []);
  const volts = systemVolts(record).value;
  const parts = new Map(record.parts.map((part) => [part.address, part]));
  for (const part of record.parts) {
    const inside = isPlugIn(part);
    const isPulled = unplugged.has(part.address);
    const at = (terminal: string): string =>
      inside && terminal !== 'case' ? `${part.address}.body/${terminal}` : `${part.address}/${terminal}`;
    if (inside) {
      for (const terminal of terminalsOf(part).filter((it) => it !== 'case')) {
        const ohms = joints.matingOhms(part).value;
        sketch.resistor(matingId(part, terminal), `${part.address}/${terminal}`, at(terminal), ohms, () => !isPulled);
        sketch.matings.add(matingId(part, terminal));
      }
    }
    const context = { sketch, state, systemVolts: volts, at, isPulled };
    sketchJoining(part, context);
    sketchSource(part, context);
    sketchSwitching(part, context);
    sketchConsumer(part, context);
    sketchCase(part, context);
  }
  sketchWires(record, state, parts, sketch);
  (state.links ?? []).forEach((link, i) => {
    const id = `link:${i + 1}`;
    sketch.resistor(id, link.from, link.to, link.resistanceOhms ?? figure(undefined, 'link.ohms').value);
    sketch.protect(id, link.fuseAmps ?? figure(undefined, 'link.fuseAmps').value);
  });
  sketch.drawBridges();
  const battery = record.parts.find(({ kind }) => kind === 'battery');
  return { sketch, reference: record.reference ?? `${battery?.address}/neg` };
}

/** A function of the same name as its terminal has the plain name; the contact then says what it is. */
function matingId(part: Part, terminal: string): string {
  const isTaken = part.kind === 'load' && part.functions.some(({ name }) => name === terminal);
  return `${part.address}:${terminal}${isTaken ? '.mating' : ''}`;
}

/** Three resistances in a row for each wire; in a double crimp the ends meet before the terminal. */
function sketchWires(
  record: HarnessRecord,
  state: OperatingState,
  parts: ReadonlyMap<string, Part>,
  sketch: Sketch,
): void {
  const shared = new Map<string, string>();
  for (const { point, wires } of record.doubleCrimps ?? []) {
    const inner = `@${point}:inner`;
    sketch.resistor(`@${point}`, inner, point, joints.doubleCrimpOhms().value);
    for (const label of wires) shared.set(`${label}@${point}`, inner);
  }
  const detached = new Set(state.detached ?? []);
  const celsius = state.ambientCelsius ?? record.ambientCelsius ?? 20;
  for (const wire of record.wires) {
    sketch.resistor(wire.label, `${wire.label}:from`, `${wire.label}:to`, copperOhms(wire, celsius));
    for (const side of ['from', 'to'] as const) {
      const point = wire[side];
      const part = parts.get(point.split(/[./]/)[0] ?? '');
      if (part === undefined) throw new Error(`wire ${wire.label} ends on ${point}`);
      const end = `${wire.label}@${point}`;
      const ohms = joints.terminationOhms(part, side === 'from' ? wire.fromEnd : wire.toEnd).value;
      const isOn = !detached.has(wire.label) && !detached.has(end);
      sketch.resistor(end, `${wire.label}:${side}`, shared.get(end) ?? point, ohms, () => isOn);
    }
  }
}

/** NBS Handbook 100: R = R20 (1 + 0.00393 (T - 20)). */
function copperOhms(wire: Wire, celsius: number): number {
  const size = parseWireSize(wire.size);
  if (!size.ok) throw new Error(`size ${wire.size}`);
  const metres = wire.lengthMetres ?? figure(undefined, 'wire.lengthMetres').value;
  return size.value.resistanceOhmsPerMetre * metres * (1 + 0.00393 * (celsius - 20));
}

function sketchJoining(part: Part, { sketch, isPulled }: PartContext): void {
  const { address } = part;
  switch (part.kind) {
    case 'connector':
      for (const cavity of terminalsOf(part)) {
        const ohms = joints.matingOhms(part).value;
        sketch.resistor(
          `${address}:${cavity}`,
          `${address}.plug/${cavity}`,
          `${address}.receptacle/${cavity}`,
          ohms,
          () => !isPulled,
        );
        sketch.matings.add(`${address}:${cavity}`);
      }
      for (const { half, cavities } of part.bridges ?? []) {
        for (const other of cavities.slice(1)) {
          const ohms = figure(undefined, 'mating.bridge.ohms').value;
          sketch.resistor(
            `${address}:${half}.${cavities[0]}.${other}`,
            `${address}.${half}/${cavities[0]}`,
            `${address}.${half}/${other}`,
            ohms,
          );
        }
      }
      return;
    case 'busbar':
    case 'ground-block':
      for (const terminal of terminalsOf(part)) {
        sketch.resistor(`${address}:${terminal}`, `${address}/${terminal}`, address, joints.barLegOhms(part).value);
      }
      if (part.kind === 'ground-block' && part.on !== undefined) sketchStud(part, part.on, sketch);
      return;
    case 'ground':
      sketchStud(part, part.on, sketch);
      return;
    case 'strap':
      sketch.resistor(`${address}:joint1`, part.between[0], `${address}/1`, joints.strapJointOhms(part).value);
      sketch.resistor(`${address}:strap`, `${address}/1`, `${address}/2`, joints.strapOhms(part).value);
      sketch.resistor(`${address}:joint2`, `${address}/2`, part.between[1], joints.strapJointOhms(part).value);
      return;
    case 'tie':
      sketch.resistor(`${address}:tie`, part.between[0], part.between[1], joints.tieOhms(part).value);
      return;
    default:
      return;
  }
}

type Stud = Extract<Part, { kind: 'ground' | 'ground-block' }>;

function sketchStud(part: Stud, body: string, sketch: Sketch): void {
  const inner = `${part.address}:inner`;
  sketch.resistor(`${part.address}:joint`, part.address, inner, joints.groundJointOhms(part).value);
  sketch.resistor(`${part.address}:metal`, inner, body, joints.groundPathOhms(part).value);
}

/** A case screwed to a body, whatever the part. */
function sketchCase(part: Part, { sketch }: PartContext): void {
  if (!('caseOn' in part) || part.caseOn === undefined) return;
  sketch.resistor(`${part.address}:case`, `${part.address}/case`, part.caseOn, joints.caseJointOhms(part).value);
}
