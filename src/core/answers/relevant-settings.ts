/**
 * The settings a person can change that matter to one consumer: switch positions, module commands, the engine.
 * Found from the structure, not guessed; each comes with the values it can take.
 */
import type { Gate } from '../graph/element.js';
import type { Model } from './model.js';

/** One variable of an operating state with its values; `engine` runs or not, outputs are `on` or `off`. */
export interface Setting {
  readonly kind: 'position' | 'command' | 'engine';
  /** Part, output point, or `engine`. */
  readonly name: string;
  readonly values: readonly string[];
}

/** Settings behind the gates of these elements, by kind, then in the order met. Outputs that follow an expression are not settings. */
export function settingsBehind(model: Model, elements: Iterable<string>): Setting[] {
  const found = new Map<string, Setting>();
  for (const id of elements) {
    for (const gate of model.graph.elements.get(id)?.gates ?? []) {
      const setting = settingOf(model, gate);
      if (setting !== null) found.set(`${setting.kind} ${setting.name}`, setting);
    }
  }
  return [...found.values()];
}

function settingOf(model: Model, gate: Gate): Setting | null {
  switch (gate.kind) {
    case 'position': {
      const part = model.graph.positioned.get(gate.part);
      return part === undefined ? null : { kind: 'position', name: gate.part, values: part.positions };
    }
    case 'output': {
      const pin = model.graph.modules.get(gate.module)?.outputs.find((output) => output.terminal === gate.terminal);
      return pin === undefined || pin.on !== null ? null : { kind: 'command', name: pin.point, values: ['off', 'on'] };
    }
    case 'turning':
    case 'standing':
      return { kind: 'engine', name: 'engine', values: ['stopped', 'running'] };
    case 'coil':
    case 'mated':
    case 'intact':
    case 'attached':
    case 'awake':
    case 'voltage':
    case 'lit':
      return null;
  }
}
