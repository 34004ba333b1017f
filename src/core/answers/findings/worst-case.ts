/**
 * The most that each element carries and the least that each function gets, over the record's states and over switch positions.
 * It must not judge; a budget bounds the search, and the answer says when it was too small.
 */
import { namedState, restState } from '../../circuit/resolve-state.js';
import type { ResolvedState } from '../../circuit/resolved-state.js';
import { settle } from '../../circuit/settle.js';
import { type Solution, solutionsOf } from '../../circuit/solution.js';
import { withSettings } from '../conditions.js';
import type { Model } from '../model.js';
import { type Setting, settingsBehind } from '../relevant-settings.js';

export interface WorstAmps {
  readonly amps: number;
  readonly state: string;
}

export interface WorstCase {
  /** Largest current of an element, amps without sign; null when it never carried any. */
  amps(element: string): WorstAmps | null;
  /** Everything that was solved, with the name to show. */
  readonly looks: readonly Look[];
  readonly complete: boolean;
  readonly note: string | null;
}

export interface Look {
  readonly name: string;
  readonly state: ResolvedState;
  readonly solution: Solution;
}

/** Solves allowed, times elements: keeps the search of any harness within a few seconds. */
const SOLVED_ELEMENTS = 150_000;
const MOST_SOLVES = 120;
const LEAST_SOLVES = 10;

/**
 * The record's states first, then from the one with the largest source current every other position of every setting, kept when
 * it draws more: a greedy climb to the busiest state, and a look at each single departure on the way.
 */
export function worstCase(model: Model): WorstCase {
  const search = new Search(model);
  for (const { name } of model.graph.record.states ?? []) {
    const resolved = namedState(model.graph, name);
    if (resolved.ok) search.look(name, resolved.state);
  }
  if (search.looks.length === 0) search.look('everything at rest', restState(model.graph));
  search.climb(settingsBehind(model, model.graph.elements.keys()));
  return search.result();
}

class Search {
  readonly looks: Look[] = [];
  private readonly worst = new Map<string, WorstAmps>();
  private solves = 0;
  private skipped = 0;
  private unsettled: string[] = [];
  private readonly budget: number;

  constructor(private readonly model: Model) {
    const byElements = Math.floor(SOLVED_ELEMENTS / Math.max(1, model.graph.elements.size));
    this.budget = Math.max(LEAST_SOLVES, Math.min(MOST_SOLVES, byElements));
  }

  look(name: string, state: ResolvedState): Look | null {
    if (this.solves >= this.budget) {
      this.skipped += 1;
      return null;
    }
    this.solves += 1;
    const solutions = solutionsOf(settle(this.model.circuit, state));
    if (solutions.length === 0) {
      this.unsettled.push(name);
      return null;
    }
    for (const solution of solutions) this.take(name, solution);
    const look = { name, state, solution: solutions[0] };
    this.looks.push(look);
    return look;
  }

  climb(settings: readonly Setting[]): void {
    let top = this.looks.reduce<Look | null>(
      (most, it) => (most === null || drawn(this.model, it.solution) > drawn(this.model, most.solution) ? it : most),
      null,
    );
    if (top === null) return;
    for (const setting of settings) {
      for (const [index, value] of setting.values.entries()) {
        if (value === valueIn(top.state, setting)) continue;
        const name: string = `${top.name}, ${setting.name} ${value}`;
        const next = this.look(name, withSettings(top.state, [setting], [index]));
        if (next !== null && drawn(this.model, next.solution) > drawn(this.model, top.solution)) top = next;
      }
    }
  }

  result(): WorstCase {
    const notes = [
      this.skipped > 0 ? `${this.skipped} states were left out: the search stops at ${this.budget} states` : null,
      this.unsettled.length > 0 ? `no rest in ${this.unsettled.slice(0, 5).join('; ')}` : null,
    ].filter((note) => note !== null);
    return {
      amps: (element) => this.worst.get(element) ?? null,
      looks: this.looks,
      complete: notes.length === 0,
      note: notes.length === 0 ? null : notes.join('; '),
    };
  }

  private take(state: string, solution: Solution): void {
    for (const id of this.model.graph.elements.keys()) {
      const amps = Math.abs(solution.amps(id));
      if (amps > 1e-6 && amps > (this.worst.get(id)?.amps ?? 0)) this.worst.set(id, { amps, state });
    }
    // what had to open carried more than any picture shows
    for (const { element, amps } of solution.blown) {
      if (Math.abs(amps) > (this.worst.get(element)?.amps ?? 0))
        this.worst.set(element, { amps: Math.abs(amps), state });
    }
  }
}

function valueIn(state: ResolvedState, setting: Setting): string {
  switch (setting.kind) {
    case 'position':
      return state.positions.get(setting.name) ?? '';
    case 'command':
      return (state.commands.get(setting.name) ?? 0) > 0 ? 'on' : 'off';
    case 'engine':
      return state.engineRuns ? 'running' : 'stopped';
  }
}

/** Amps that all loads take together: what the climb makes as large as it can. */
function drawn(model: Model, solution: Solution): number {
  let sum = 0;
  for (const fn of model.graph.functions.values()) sum += Math.abs(solution.amps(fn.element));
  return sum;
}
