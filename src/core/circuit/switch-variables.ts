/**
 * Everything that closes or opens by itself: coils, modules, their outputs, voltage-sensing contacts, alternators.
 * Each is one variable that is on or off and says, from a picture, what it would be next. It must not solve.
 */
import type { Element, Gate } from '../graph/element.js';
import type { HarnessGraph, ModuleInfo } from '../graph/harness-graph.js';
import { naturalCompare } from '../graph/natural-compare.js';
import { type Expression, evaluate, parseExpression } from '../record/expression.js';
import { edgeNumber, nodeNumber } from './network.js';
import type { Picture } from './picture.js';
import type { ResolvedState } from './resolved-state.js';
import type { Threshold } from './threshold.js';

export interface SwitchVariable {
  /** Coil or contact element, module, output point `M1/OUT1`, alternator. Unique. */
  readonly name: string;
  readonly kind: 'coil' | 'contact' | 'awake' | 'output' | 'excited';
  /** What it is next, given what it is now and what the picture shows. */
  decide(isOn: boolean, picture: Picture, state: ResolvedState): boolean;
  /** What it looks at, and the values at which it may be decided otherwise, on its way to where it stands included. */
  thresholds(isOn: boolean, state: ResolvedState): readonly Threshold[];
}

/** Whether it has a mechanism, which may race and chatter; the others follow at once. */
export function isMoving({ kind }: SwitchVariable): boolean {
  return kind === 'coil' || kind === 'contact';
}

/** Rotor current from which an alternator excited by its lamp begins to charge, amps: a 1 W lamp's (from memory). */
export const EXCITATION_AMPS = 0.05;

/** The variables that the gates of a graph wait for, in natural order of their names. */
export function switchVariables(graph: HarnessGraph): SwitchVariable[] {
  const found = new Map<string, SwitchVariable>();
  for (const element of graph.elements.values()) {
    for (const gate of element.gates) {
      const name = variableName(gate, element);
      if (name !== null && !found.has(name)) found.set(name, variableOf(gate, element, graph, name));
    }
  }
  return [...found.values()].sort((one, other) => naturalCompare(one.name, other.name));
}

/** Name of the variable that a gate waits for; null for gates that the state alone decides. */
export function variableName(gate: Gate, element: Element): string | null {
  switch (gate.kind) {
    case 'coil':
      return gate.coil;
    case 'output':
      return `${gate.module}/${gate.terminal}`;
    case 'awake':
      return gate.module;
    case 'voltage':
      return element.id;
    case 'turning':
    case 'standing':
      return gate.part;
    case 'position':
    case 'mated':
    case 'intact':
    case 'attached':
    case 'lit':
      return null;
  }
}

function variableOf(gate: Gate, element: Element, graph: HarnessGraph, name: string): SwitchVariable {
  switch (gate.kind) {
    case 'coil':
      return coilVariable(name, graph);
    case 'awake':
      return awakeVariable(moduleNamed(graph, gate.module));
    case 'output':
      return outputVariable(moduleNamed(graph, gate.module), gate.terminal, name);
    case 'voltage':
      return voltageVariable(name, gate);
    case 'turning':
    case 'standing':
      return excitationVariable(name, graph);
    default:
      throw new Error(`gate ${gate.kind} of ${element.id} waits for no variable`);
  }
}

/**
 * A coil pulls in at its pull-in volts and lets go below its drop-out volts; in between it stays as it is. What counts is
 * the current: a bad joint inside the coil adds volts but no pull, a shorted winding adds current but no pull.
 */
function coilVariable(name: string, graph: HarnessGraph): SwitchVariable {
  const element = graph.elements.get(name);
  const coil = element?.coil;
  if (element === undefined || coil === null || coil === undefined) throw new RangeError(`${name} is not a coil`);
  const recordedOhms = element.law.kind === 'ohmic' ? element.law.ohms : Number.POSITIVE_INFINITY;
  return {
    name,
    kind: 'coil',
    decide(isPulled, picture) {
      const edge = edgeNumber(picture.network, name);
      if (picture.closed[edge] === 0) return false;
      const volts = Math.min(
        Math.abs(picture.voltsAcross(edge)),
        Math.abs(picture.edgeAmps[edge]) * recordedOhms || Number.POSITIVE_INFINITY,
      );
      return volts >= (isPulled ? coil.dropOutVolts : coil.pullInVolts);
    },
    thresholds: (isPulled) =>
      hysteresis(element.a, element.b, { isOn: isPulled, on: coil.pullInVolts, off: coil.dropOutVolts }),
  };
}

/** One that is on had to be switched on before, from a state at rest: then both of its thresholds count. */
function hysteresis(
  plus: string,
  minus: string,
  { isOn, on, off }: { readonly isOn: boolean; readonly on: number; readonly off: number },
): Threshold[] {
  const across = { kind: 'volts', plus, minus } as const;
  return isOn && off !== on
    ? [
        { ...across, at: on },
        { ...across, at: off },
      ]
    : [{ ...across, at: on }];
}

/** Awake while any supply pin is at its least volts above any ground pin. */
function awakeVariable(module: ModuleInfo): SwitchVariable {
  return {
    name: module.part,
    kind: 'awake',
    decide(_isAwake, picture) {
      const { nodeOf } = picture.network;
      return module.supplies.some(({ point, minimumVolts }) =>
        module.grounds.some((ground) => {
          const volts = picture.voltsBetween(nodeNumber(nodeOf, point), nodeNumber(nodeOf, ground));
          return volts !== null && volts >= minimumVolts;
        }),
      );
    },
    thresholds: () => supplyThresholds(module, module.supplies),
  };
}

function supplyThresholds({ grounds }: ModuleInfo, supplies: ModuleInfo['supplies']): Threshold[] {
  return supplies.flatMap(({ point, minimumVolts }) =>
    grounds.map((ground): Threshold => ({ kind: 'volts', plus: point, minus: ground, at: minimumVolts })),
  );
}

/** On when its module is awake and it is commanded, or, without a command, when its expression of the inputs holds. */
function outputVariable(module: ModuleInfo, terminal: string, name: string): SwitchVariable {
  const output = module.outputs.find((pin) => pin.terminal === terminal);
  if (output === undefined) throw new RangeError(`${module.part} has no output ${terminal}`);
  const awake = awakeVariable(module);
  const rule = output.on === null ? null : expressionOf(output.on, name);
  return {
    name,
    kind: 'output',
    decide(_isOn, picture, state) {
      if (!awake.decide(false, picture, state)) return false;
      const commanded = state.commands.get(name);
      if (commanded !== undefined) return commanded > 0;
      return rule !== null && evaluate(rule, (pin) => pinLevel(module, pin, picture));
    },
    thresholds(_isOn, state) {
      const waking = supplyThresholds(module, module.supplies);
      if (rule === null || state.commands.has(name)) return waking;
      const inputs = module.inputs.map(
        ({ point, ground, thresholdVolts }): Threshold => ({
          kind: 'volts',
          plus: point,
          minus: ground,
          at: thresholdVolts,
        }),
      );
      return [...waking, ...inputs];
    },
  };
}

function expressionOf(text: string, output: string): Expression {
  const parsed = parseExpression(text);
  if (!parsed.ok) throw new RangeError(`output ${output}: ${text}: ${parsed.reason}`);
  return parsed.expression;
}

/** Whether an input is at its active level, or a supply pin is up. A floating pin is neither. */
function pinLevel(module: ModuleInfo, pin: string, picture: Picture): boolean {
  const { nodeOf } = picture.network;
  const input = module.inputs.find(({ terminal }) => terminal === pin);
  if (input !== undefined) {
    const volts = picture.voltsBetween(nodeNumber(nodeOf, input.point), nodeNumber(nodeOf, input.ground));
    return volts !== null && volts > input.thresholdVolts === (input.active === 'high');
  }
  return module.supplies.some(
    ({ point, minimumVolts }) =>
      (point === `${module.part}/${pin}` || point === `${module.part}.body/${pin}`) &&
      module.grounds.some((ground) => {
        const volts = picture.voltsBetween(nodeNumber(nodeOf, point), nodeNumber(nodeOf, ground));
        return volts !== null && volts >= minimumVolts;
      }),
  );
}

/** A contact that closes at one voltage and opens at a lower one (split charging), or at the same (input cut-off). */
function voltageVariable(name: string, gate: Extract<Gate, { kind: 'voltage' }>): SwitchVariable {
  return {
    name,
    kind: 'contact',
    decide(isClosed, picture) {
      const { nodeOf } = picture.network;
      const volts = picture.voltsBetween(nodeNumber(nodeOf, gate.positive), nodeNumber(nodeOf, gate.negative));
      return volts !== null && volts >= (isClosed ? gate.openVolts : gate.closeVolts);
    },
    thresholds: (isOn) => hysteresis(gate.positive, gate.negative, { isOn, on: gate.closeVolts, off: gate.openVolts }),
  };
}

/** Charges while the engine runs; one excited by its lamp only after its rotor has been fed, and from then on. */
function excitationVariable(name: string, graph: HarnessGraph): SwitchVariable {
  const part = graph.record.parts.find(({ address }) => address === name);
  const needsLamp = part?.kind === 'alternator' && part.excitedBy === 'lamp';
  const rotors = [...graph.elements.values()].filter(({ gates }) =>
    gates.some((gate) => gate.kind === 'standing' && gate.part === name),
  );
  return {
    name,
    kind: 'excited',
    decide(isCharging, picture, state) {
      if (!state.engineRuns) return false;
      if (isCharging || !needsLamp) return true;
      return rotors.some(({ id }) => picture.edgeAmps[edgeNumber(picture.network, id)] >= EXCITATION_AMPS);
    },
    // Once it charges, its rotor is fed from within: how near it came to not starting shows no more.
    thresholds: (isCharging, state) =>
      state.engineRuns && needsLamp && !isCharging
        ? rotors.map(({ id }) => ({ kind: 'amps', element: id, at: EXCITATION_AMPS }))
        : [],
  };
}

function moduleNamed(graph: HarnessGraph, name: string): ModuleInfo {
  const module = graph.modules.get(name);
  if (module === undefined) throw new RangeError(`no module ${name} in this harness`);
  return module;
}
