/**
 * Checks an operating state against the graph: every name becomes canonical, or the state is refused with all its issues.
 * It must not settle anything.
 */
import type { HarnessGraph } from '../graph/harness-graph.js';
import { defaultById } from '../record/defaults.js';
import type { PartKind } from '../record/part.js';
import type { OperatingState } from '../record/state.js';
import type { ResolvedLink, ResolvedState, StateIssue, StateResolution } from './resolved-state.js';

/** Resolves a state, and by `after` the states before it. All issues are told at once; paths lead into the state asked. */
export function resolveState(graph: HarnessGraph, state: OperatingState): StateResolution {
  return resolveChain(graph, state, []);
}

/** Resolves a state that the record names, whatever the case. */
export function namedState(graph: HarnessGraph, name: string): StateResolution {
  const state = findState(graph, name);
  return state === undefined ? { ok: false, issues: [unknownState(graph, '', name)] } : resolveState(graph, state);
}

/** Every part at rest, engine stopped, nothing commanded, attached or unplugged. */
export function restState(graph: HarnessGraph): ResolvedState {
  const resolution = resolveState(graph, { name: 'at rest' });
  if (!resolution.ok) throw new Error('the state at rest names nothing and cannot fail');
  return resolution.state;
}

function resolveChain(graph: HarnessGraph, state: OperatingState, chain: readonly string[]): StateResolution {
  const issues: StateIssue[] = [];
  const reader = new StateReader(graph, issues);
  const after = state.after === undefined ? null : stateBefore(graph, state.after, [...chain, state.name], issues);
  const resolved: ResolvedState = {
    source: state,
    after,
    engineRuns: state.engine === 'running',
    // A lamp is looked at while it is lit, unless the state says otherwise.
    flashersLit: state.flash !== 'dark',
    positions: reader.positions(state.positions ?? {}),
    commands: reader.commands(state.commands ?? {}),
    unplugged: reader.unplugged(state.unplugged ?? []),
    detached: reader.detached(state.detached ?? []),
    restored: reader.restored(state.restored ?? []),
    links: reader.links(state.links ?? []),
    attached: reader.byPart('attached', state.attached ?? {}, ['external-supply', 'jump-posts'], (supply) => ({
      outputVolts: supply.outputVolts ?? null,
      limitAmps: supply.limitAmps ?? null,
    })),
    measured: reader.byPart('measured', state.measured ?? {}, ['battery'], (volts) => volts),
    celsius: reader.byPart('celsius', state.celsius ?? {}, ['thermistor'], (celsius) => celsius),
    travel: reader.byPart('travel', state.travel ?? {}, ['potentiometer'], (travel) => travel),
    ambientCelsius: state.ambientCelsius ?? null,
  };
  return issues.length === 0 ? { ok: true, state: resolved } : { ok: false, issues };
}

function stateBefore(
  graph: HarnessGraph,
  name: string,
  chain: readonly string[],
  issues: StateIssue[],
): ResolvedState | null {
  const before = findState(graph, name);
  if (before === undefined) {
    issues.push(unknownState(graph, '/after', name));
    return null;
  }
  if (chain.some((it) => sameText(it, before.name))) {
    const reason = `comes after itself: ${[...chain, before.name].join(', after ')}`;
    issues.push({ code: 'state-ring', path: '/after', value: name, reason, accepted: [] });
    return null;
  }
  const resolution = resolveChain(graph, before, chain);
  if (resolution.ok) return resolution.state;
  for (const issue of resolution.issues) {
    issues.push({ ...issue, path: '/after', reason: `in state ${before.name}${issue.path}: ${issue.reason}` });
  }
  return null;
}

function findState(graph: HarnessGraph, name: string): OperatingState | undefined {
  return (graph.record.states ?? []).find((state) => sameText(state.name, name));
}

function unknownState(graph: HarnessGraph, path: string, value: string): StateIssue {
  const accepted = (graph.record.states ?? []).map(({ name }) => name);
  return { code: 'unknown-state', path, value, reason: 'no such state in the record', accepted };
}

const sameText = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

/** Reads the lists of a state; what it cannot read becomes an issue and is left out. */
class StateReader {
  constructor(
    private readonly graph: HarnessGraph,
    private readonly issues: StateIssue[],
  ) {}

  positions(entries: Readonly<Record<string, string>>): ReadonlyMap<string, string> {
    const resolved = new Map([...this.graph.positioned.values()].map(({ part, rest }) => [part, rest]));
    this.eachOnce('positions', Object.entries(entries), (path, name, position) => {
      const part = this.part(path, name);
      if (part === null) return null;
      const positioned = this.graph.positioned.get(part);
      if (positioned === undefined) {
        this.refuse('wrong-kind', path, name, 'stands in no positions', [...this.graph.positioned.keys()]);
        return null;
      }
      const found = positioned.positions.find((it) => sameText(it, position));
      if (found === undefined) {
        this.refuse('unknown-position', path, position, `${part} has no such position`, positioned.positions);
        return null;
      }
      resolved.set(part, found);
      return part;
    });
    return resolved;
  }

  commands(entries: Readonly<Record<string, boolean | number>>): ReadonlyMap<string, number> {
    const resolved = new Map<string, number>();
    this.eachOnce('commands', Object.entries(entries), (path, name, command) => {
      const output = this.output(path, name);
      if (output === null) return null;
      const duty = Number(command);
      if (!output.pulsed && duty > 0 && duty < 1) {
        this.refuse('out-of-range', path, String(command), `${output.id} is not pulsed`, ['true', 'false', '0', '1']);
        return null;
      }
      resolved.set(output.id, duty);
      return output.id;
    });
    return resolved;
  }

  unplugged(names: readonly string[]): ReadonlySet<string> {
    if (names.length === 0) return new Set();
    const pluggable = new Set(
      [...this.graph.elements.values()].flatMap(({ gates }) =>
        gates.flatMap((gate) => (gate.kind === 'mated' ? [gate.part] : [])),
      ),
    );
    const resolved = new Set<string>();
    names.forEach((name, i) => {
      const part = this.part(`/unplugged/${i}`, name);
      if (part === null) return;
      if (pluggable.has(part)) resolved.add(part);
      else this.refuse('wrong-kind', `/unplugged/${i}`, name, 'is not plugged in', [...pluggable]);
    });
    return resolved;
  }

  /** A wire comes off at both ends, `L1@P` at one. */
  detached(names: readonly string[]): ReadonlySet<string> {
    const resolved = new Set<string>();
    names.forEach((name, i) => {
      const wire = this.graph.resolveAs('wire', name);
      const element = this.graph.resolveAs('element', name);
      const ends = [...this.graph.elements.values()].filter(
        ({ id, role, owner }) => role === 'termination' && (wire === null ? id === element : owner === wire),
      );
      if (ends.length === 0) {
        this.refuse('unknown-name', `/detached/${i}`, name, 'no such wire or wire end', ['L1', 'L1@BAT1/neg']);
      }
      for (const { id } of ends) resolved.add(id);
    });
    return resolved;
  }

  restored(names: readonly string[]): ReadonlySet<string> {
    const protecting = new Set(
      [...this.graph.elements.values()].filter(({ protection }) => protection !== null).map(({ owner }) => owner),
    );
    const resolved = new Set<string>();
    names.forEach((name, i) => {
      const part = this.part(`/restored/${i}`, name);
      if (part === null) return;
      if (protecting.has(part)) resolved.add(part);
      else this.refuse('wrong-kind', `/restored/${i}`, name, 'is no fuse or breaker', [...protecting]);
    });
    return resolved;
  }

  links(links: NonNullable<OperatingState['links']>): readonly ResolvedLink[] {
    return links.flatMap((link, i) => {
      const from = this.point(`/links/${i}/from`, link.from);
      const to = this.point(`/links/${i}/to`, link.to);
      if (from === null || to === null) return [];
      if (from === to) {
        this.refuse('out-of-range', `/links/${i}/to`, link.to, 'a link needs two different points', []);
        return [];
      }
      const resistanceOhms = link.resistanceOhms ?? defaultById('link.ohms').value;
      return [{ from, to, resistanceOhms, fuseAmps: link.fuseAmps ?? defaultById('link.fuseAmps').value }];
    });
  }

  /** A list by part, all of certain kinds. */
  byPart<T, R>(
    list: string,
    entries: Readonly<Record<string, T>>,
    kinds: readonly PartKind[],
    read: (value: T) => R,
  ): ReadonlyMap<string, R> {
    const resolved = new Map<string, R>();
    const { parts } = this.graph.record;
    this.eachOnce(list, Object.entries(entries), (path, name, value) => {
      const address = this.part(path, name);
      if (address === null) return null;
      const part = parts.find((it) => it.address === address);
      if (part === undefined || !kinds.includes(part.kind)) {
        const accepted = parts.filter(({ kind }) => kinds.includes(kind)).map((it) => it.address);
        this.refuse('wrong-kind', path, name, `is not a ${kinds.join(' or ')}`, accepted);
        return null;
      }
      resolved.set(address, read(value));
      return address;
    });
    return resolved;
  }

  /** Reads entries one by one; `read` gives the canonical name, which may come only once. */
  private eachOnce<T>(
    list: string,
    entries: readonly (readonly [string, T])[],
    read: (path: string, name: string, value: T) => string | null,
  ): void {
    const seen = new Set<string>();
    for (const [name, value] of entries) {
      const path = `/${list}/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`;
      const canonical = read(path, name, value);
      if (canonical === null) continue;
      if (seen.has(canonical)) this.refuse('named-twice', path, name, `${canonical} is named twice`, []);
      seen.add(canonical);
    }
  }

  private part(path: string, name: string): string | null {
    const part = this.graph.resolveAs('part', name);
    if (part === null) this.refuse('unknown-name', path, name, 'no such part in the record', []);
    return part;
  }

  private point(path: string, name: string): string | null {
    const point = this.graph.resolveAs('point', name);
    if (point === null) this.refuse('unknown-name', path, name, 'no such point in the record', []);
    return point;
  }

  private output(path: string, name: string): { readonly id: string; readonly pulsed: boolean } | null {
    const outputs = [...this.graph.modules.values()].flatMap((module) =>
      module.outputs.map(({ terminal, point, pulsed }) => ({ id: `${module.part}/${terminal}`, point, pulsed })),
    );
    const point = this.graph.resolveAs('point', name);
    const found = outputs.find((output) => sameText(output.id, name) || output.point === point || output.id === point);
    if (found !== undefined) return found;
    const accepted = outputs.map(({ id }) => id);
    if (point === null) this.refuse('unknown-name', path, name, 'no such point in the record', accepted);
    else this.refuse('wrong-kind', path, name, 'is not the output of a module', accepted);
    return null;
  }

  private refuse(
    code: StateIssue['code'],
    path: string,
    value: string,
    reason: string,
    accepted: readonly string[],
  ): void {
    this.issues.push({ code, path, value, reason, accepted });
  }
}
