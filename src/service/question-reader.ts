// Reads the names in a question against the graph: each becomes canonical, or an issue says what is accepted.
// It must not answer anything; all issues of a question are told at once.

import { namedState, resolveState, restState } from '../core/circuit/resolve-state.js';
import type { ResolvedState } from '../core/circuit/resolved-state.js';
import type { LoadFunction } from '../core/graph/element.js';
import type { HarnessGraph } from '../core/graph/harness-graph.js';
import { shortList } from '../core/record/record-issue.js';
import type { OperatingState } from '../core/record/state.js';
import { type Issue, refusal } from './errors.js';
import { pluggableParts } from './harness-choices.js';

/** The name of a recorded state, a state spelled out, or null: everything at rest. */
export type StateChoice = string | OperatingState | null;

export class QuestionReader {
  readonly #graph: HarnessGraph;
  readonly #issues: Issue[] = [];

  constructor(graph: HarnessGraph) {
    this.#graph = graph;
  }

  /** Throws `question-invalid` when anything read so far was refused. */
  finish(): void {
    const issues = this.#issues;
    if (issues.length > 0) throw refusal('question-invalid', { count: issues.length }, { issues });
  }

  state(choice: StateChoice): ResolvedState {
    if (choice === null) return restState(this.#graph);
    const resolution = typeof choice === 'string' ? namedState(this.#graph, choice) : resolveState(this.#graph, choice);
    if (resolution.ok) return resolution.state;
    for (const { code, path, value, reason, accepted } of resolution.issues) {
      this.#refuse(code, `/state${path}`, value, reason, accepted);
    }
    return restState(this.#graph);
  }

  /** Null only when refused; `finish` throws then. */
  function(path: string, text: string): LoadFunction | null {
    const { functions } = this.#graph;
    const id = this.#graph.resolveAs('function', text);
    const found = id === null ? undefined : functions.get(id);
    if (found !== undefined) return found;
    const part = this.#graph.resolveAs('part', text);
    const own = [...functions.values()].filter((fn) => fn.part === part).map((fn) => fn.id);
    if (own.length > 0) this.#refuse('several-functions', path, text, `${part} has several functions`, own);
    else this.#refuse('unknown-function', path, text, 'no load has this function', [...functions.keys()]);
    return null;
  }

  /** A connector or plug-in part. */
  plug(path: string, text: string): string {
    const part = this.#graph.resolveAs('part', text);
    const plugs = pluggableParts(this.#graph);
    if (part !== null && plugs.has(part)) return part;
    const reason = part === null ? 'no such part in the record' : `${part} is not plugged in`;
    this.#refuse(part === null ? 'unknown-name' : 'wrong-kind', path, text, reason, [...plugs]);
    return text;
  }

  point(path: string, text: string): string {
    const point = this.#graph.resolveAs('point', text);
    if (point !== null) return point;
    const part = this.#graph.record.parts.find(({ address }) => address === this.#graph.resolveAs('part', text));
    const own = [...this.#graph.points.values()].filter(({ owner }) => owner === part?.address).map(({ id }) => id);
    this.#refuse('unknown-point', path, text, 'no such point in the record', own);
    return text;
  }

  battery(path: string, text: string): string {
    const batteries = this.#graph.record.parts.filter(({ kind }) => kind === 'battery').map(({ address }) => address);
    const part = this.#graph.resolveAs('part', text);
    if (part !== null && batteries.includes(part)) return part;
    const reason = part === null ? 'no such part in the record' : `${part} is not a battery`;
    this.#refuse(part === null ? 'unknown-name' : 'wrong-kind', path, text, reason, batteries);
    return text;
  }

  /** What a clamp goes round: a wire, or one element. */
  conductor(path: string, text: string): string {
    const found = this.#graph.resolveAs('wire', text) ?? this.#graph.resolveAs('element', text);
    if (found !== null) return found;
    const accepted = this.#graph.record.wires.map(({ label }) => label);
    this.#refuse('unknown-wire', path, text, 'a clamp goes round a wire, and the record has no such wire', accepted);
    return text;
  }

  /** A part of any kind, or a wire: what a hand goes to. */
  part(path: string, text: string): string {
    const found = this.#graph.resolveAs('part', text) ?? this.#graph.resolveAs('wire', text);
    if (found !== null) return found;
    this.#refuse('unknown-name', path, text, 'no such part or wire in the record', []);
    return text;
  }

  /** Elements by their exact ids, as an answer gave them. */
  elements(path: string, ids: readonly string[]): void {
    ids.forEach((id, i) => {
      if (!this.#graph.elements.has(id))
        this.#refuse('unknown-name', `${path}/${i}`, id, 'no such element in the record', []);
    });
  }

  assembly(path: string, text: string): string {
    const assemblies = (this.#graph.record.assemblies ?? []).map(({ address }) => address);
    const found = assemblies.find((address) => address.toLowerCase() === text.trim().toLowerCase());
    if (found !== undefined) return found;
    this.#refuse('unknown-assembly', path, text, 'no such assembly in the record', assemblies);
    return text;
  }

  #refuse(code: string, path: string, value: string, reason: string, accepted: readonly string[]): void {
    this.#issues.push({
      code,
      path,
      value,
      reason,
      accepted: accepted.length === 0 ? 'an address of the record' : shortList(accepted),
    });
  }
}
