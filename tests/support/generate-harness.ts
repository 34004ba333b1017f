// Makes a realistic harness of a given number of wires from a seed: for benchmarks, property tests and hunts.
// It must stay free of the code under test: of `src` it takes types alone.

import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { type Circuit, layBoxLamp, PLAIN_CIRCUITS } from './harness/circuits.js';
import { HarnessDraft } from './harness/draft.js';
import { COUPLED_CIRCUIT, MODULE_CIRCUITS } from './harness/module-circuits.js';
import type { Unit } from './harness/unit.js';
import { buildUnit, CORE_WIRES } from './harness/unit-core.js';
import { type Random, seededRandom } from './random.js';

export interface GenerateOptions {
  readonly seed: number;
  /** Exact number of wires, at least 24. */
  readonly wires: number;
  readonly systemVolts?: 12 | 24;
}

const UNIT_WIRES = 250;
const LEAST_WIRES = 24;
/** Fuse, master switch and two bars: what joins the permanent bars of two units. */
const JOIN_WIRES = 3;
const MIXED_STATES = 4;

/**
 * A harness of exactly `wires` wires with named states; the same seed gives the same record. Every 250 wires or so are a
 * unit with its own battery, alternator and fuse box, so that buses stay near battery voltage at any size.
 * Functions carry in `runsIn` the states in which they must run. Throws RangeError below 24 wires.
 */
export function generateHarness(options: GenerateOptions): HarnessRecord {
  const { seed, wires, systemVolts = 12 } = options;
  if (wires < LEAST_WIRES) throw new RangeError(`a generated harness has at least ${LEAST_WIRES} wires, not ${wires}`);
  const draft = new HarnessDraft(seededRandom(seed), systemVolts);
  const count = Math.max(1, Math.round(wires / UNIT_WIRES));
  const share = Math.ceil(wires / count);
  const units = Array.from({ length: count }, (_, i) =>
    buildUnit(draft, i + 1, Math.min(60, 8 + Math.ceil(share / 5))),
  );
  const joins = units.slice(1).map((next, i) => joinUnits(draft, units[i]!, next));
  const laid = count * CORE_WIRES[systemVolts] + joins.length * JOIN_WIRES;
  if (draft.wires.length !== laid) throw new Error(`the cores took ${draft.wires.length} wires, not ${laid}`);
  for (const [index, unit] of units.entries()) {
    const until = laid + Math.floor(((wires - laid) * (index + 1)) / count);
    fill(unit, until);
    unit.plugs.close();
  }
  const ignitions = new Set(units.map((unit) => unit.ignition));
  const states = nameStates(draft, ignitions, joins);
  draft.stateExpectations(states, ignitions);
  return {
    format: 'lastgood-record/1',
    name: `Generated harness ${seed}, ${wires} wires`,
    invented: true,
    systemVolts,
    ambientCelsius: 20,
    profile: 'in-service',
    ageYears: 3,
    reference: 'BAT1/neg',
    parts: draft.parts,
    wires: draft.wires,
    segments: draft.segments,
    assemblies: draft.assemblies,
    doubleCrimps: draft.doubleCrimps(),
    states,
  };
}

/** Adds circuits until the harness has so many wires: large ones while they fit, then the smallest. */
function fill(unit: Unit, until: number): void {
  const { draft } = unit;
  const menu = [...PLAIN_CIRCUITS, ...MODULE_CIRCUITS, ...(unit.coupling === null ? [] : [COUPLED_CIRCUIT])];
  const barsLeft = (): number => Math.min(unit.terminalsLeft('permanent'), unit.terminalsLeft('ignition'));
  const left = (): number => until - draft.wires.length;
  for (;;) {
    const fitting = menu.filter((circuit) => circuit.most <= left() && circuit.bars + 3 <= barsLeft());
    if (fitting.length === 0) break;
    pickWeighted(draft.random, fitting).lay(unit);
  }
  while (left() >= 3 && unit.terminalsLeft('permanent') > 0) layBoxLamp(unit);
  while (left() > 0) unit.bond();
}

function pickWeighted(random: Random, circuits: readonly Circuit[]): Circuit {
  let mark = random.next() * circuits.reduce((sum, circuit) => sum + circuit.weight, 0);
  for (const circuit of circuits) {
    mark -= circuit.weight;
    if (mark < 0) return circuit;
  }
  return circuits[circuits.length - 1]!;
}

/** Couples two units: a strap between the frames and a switch, open at rest, between the permanent bars. */
function joinUnits(draft: HarnessDraft, unit: Unit, next: Unit): string {
  unit.strap(unit.frame, next.frame);
  unit.couple(next);
  const fuse = draft.address('FM');
  const master = draft.address('MS');
  const place = unit.placing(unit.box);
  draft.add({ address: fuse, kind: 'fuse', ratingAmps: 100, style: 'midi', ...place });
  draft.add({ address: master, kind: 'master-switch', rest: 'off', contactRatingAmps: 250, ...place });
  const net = { circuit: 'Joined bars', amps: 40, fuseAmps: 100, colour: 'RD' };
  const lugs = { fromEnd: 'lug', toEnd: 'lug' } as const;
  draft.wire(unit.terminal('permanent'), `${fuse}/in`, 0.4, net, [], lugs);
  draft.wire(`${fuse}/out`, `${master}/1`, 0.4, net, [], lugs);
  draft.wire(`${master}/2`, next.terminal('permanent'), 5, net, [], lugs);
  return master;
}

function nameStates(draft: HarnessDraft, ignitions: ReadonlySet<string>, joins: readonly string[]): OperatingState[] {
  const keys = Object.fromEntries([...ignitions].map((address) => [address, 'run']));
  const chosen = (share: number): Record<string, string> =>
    Object.fromEntries(
      draft.switches
        .filter(() => draft.random.chance(share))
        .map(({ address, positions }) => [address, draft.random.pick(positions)]),
    );
  const commanded = (share: number): Record<string, boolean> =>
    Object.fromEntries(draft.outputs.map((output) => [output, draft.random.chance(share)]));
  const everything = { ...keys, ...chosen(1) };
  const commands = commanded(1);
  const states: OperatingState[] = [
    { name: 'Key off', engine: 'stopped', positions: {} },
    { name: 'Key on', engine: 'stopped', positions: keys },
    { name: 'Engine running', engine: 'running', positions: keys },
    { name: 'Everything on', engine: 'running', flash: 'lit', positions: everything, commands },
    { name: 'Everything on, engine stopped', engine: 'stopped', flash: 'lit', positions: everything, commands },
  ];
  if (joins.length > 0) {
    const joined = Object.fromEntries(joins.map((address) => [address, 'on']));
    states.push({ name: 'Bars joined', engine: 'stopped', positions: { ...keys, ...joined } });
  }
  for (let mixed = 1; mixed <= MIXED_STATES; mixed += 1) {
    const key = draft.random.chance(0.75);
    states.push({
      name: `Mixed ${mixed}`,
      engine: key && draft.random.chance(0.5) ? 'running' : 'stopped',
      flash: draft.random.chance(0.5) ? 'lit' : 'dark',
      positions: { ...(key ? keys : {}), ...chosen(0.4) },
      commands: commanded(0.4),
    });
  }
  return states;
}
