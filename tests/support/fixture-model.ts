// Models of the fixtures, built once per test file.
// It must not change what it hands out.

import { readFileSync } from 'node:fs';
import { buildModel, type Model } from '../../src/core/answers/model.js';
import { namedState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import type { LoadFunction } from '../../src/core/graph/element.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';

const models = new Map<string, Model>();

/** The record of `fixtures/<name>/record.json`, checked as any record is. */
export function fixtureRecord(name: string): HarnessRecord {
  const parsed = parseRecord(
    JSON.parse(readFileSync(new URL(`../../fixtures/${name}/record.json`, import.meta.url), 'utf8')),
  );
  if (!parsed.ok) throw new Error(`fixture ${name}: ${JSON.stringify(parsed.issues.slice(0, 3))}`);
  return parsed.record;
}

export function fixtureModel(name: string): Model {
  const known = models.get(name);
  if (known !== undefined) return known;
  const model = buildModel(fixtureRecord(name));
  models.set(name, model);
  return model;
}

export function stateOf(model: Model, name: string): ResolvedState {
  const resolved = namedState(model.graph, name);
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  return resolved.state;
}

export function functionOf(model: Model, id: string): LoadFunction {
  const fn = model.graph.functions.get(id);
  if (fn === undefined) throw new Error(`no function ${id}`);
  return fn;
}
