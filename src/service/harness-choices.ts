// What can be asked about and set in one harness: functions, plugs, positions, outputs, states, assemblies.
// It must not solve anything.

import type { HarnessGraph } from '../core/graph/harness-graph.js';

export interface HarnessChoices {
  readonly functions: {
    readonly id: string;
    readonly part: string;
    readonly name: string;
    readonly location: string | null;
    readonly runsIn: readonly string[];
  }[];
  readonly plugs: {
    readonly address: string;
    readonly kind: string;
    readonly name: string | null;
    readonly location: string | null;
  }[];
  readonly positions: {
    readonly part: string;
    readonly name: string | null;
    readonly positions: readonly string[];
    readonly rest: string;
  }[];
  readonly outputs: {
    readonly point: string;
    readonly name: string | null;
    readonly pulsed: boolean;
  }[];
  readonly states: { readonly name: string; readonly description: string | null }[];
  readonly assemblies: { readonly address: string; readonly name: string | null }[];
  /** Where the black lead stays. */
  readonly reference: string;
}

/** Parts that can be pulled: connectors and plug-in parts, in the order of the record. */
export function pluggableParts(graph: HarnessGraph): ReadonlySet<string> {
  const known = pluggable.get(graph);
  if (known !== undefined) return known;
  const mated = new Set(
    [...graph.elements.values()].flatMap(({ gates }) =>
      gates.flatMap((gate) => (gate.kind === 'mated' ? [gate.part] : [])),
    ),
  );
  const plugs = new Set(graph.record.parts.map(({ address }) => address).filter((address) => mated.has(address)));
  pluggable.set(graph, plugs);
  return plugs;
}

/** A graph never changes, so what was found once holds as long as it lives. */
const pluggable = new WeakMap<HarnessGraph, ReadonlySet<string>>();

export function harnessChoices(graph: HarnessGraph): HarnessChoices {
  const { parts, states = [], assemblies = [] } = graph.record;
  const partByAddress = new Map(parts.map((part) => [part.address, part]));
  const plugs = pluggableParts(graph);
  return {
    functions: [...graph.functions.values()].map(({ id, part, name }) => {
      const load = partByAddress.get(part);
      const recorded = load?.kind === 'load' ? load.functions.find((fn) => fn.name === name) : undefined;
      const isOnly = id === part;
      return {
        id,
        part,
        name: [load?.name ?? part, isOnly ? null : name].filter((word) => word !== null).join(', '),
        location: load?.location ?? null,
        runsIn: recorded?.runsIn ?? [],
      };
    }),
    plugs: parts
      .filter(({ address }) => plugs.has(address))
      .map(({ address, kind, name, location }) => ({ address, kind, name: name ?? null, location: location ?? null })),
    positions: [...graph.positioned.values()].map(({ part, positions, rest }) => ({
      part,
      name: partByAddress.get(part)?.name ?? null,
      positions,
      rest,
    })),
    outputs: [...graph.modules.values()].flatMap((module) => {
      const part = partByAddress.get(module.part);
      const pins = part?.kind === 'module' ? (part.outputs ?? []) : [];
      return module.outputs.map(({ terminal, point, pulsed }) => ({
        point,
        name: pins.find((pin) => pin.terminal === terminal)?.name ?? null,
        pulsed,
      }));
    }),
    states: states.map(({ name, description }) => ({ name, description: description ?? null })),
    assemblies: assemblies.map(({ address, name }) => ({ address, name: name ?? null })),
    reference: graph.reference,
  };
}
