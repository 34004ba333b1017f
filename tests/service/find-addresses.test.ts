// The search behind the one field of the page: what a person types with cold fingers, and what they mean by it.
// It must not fix the whole order of results, only what must come first and what must not come at all.

import { describe, expect, it } from 'vitest';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import { findAddresses } from '../../src/service/find-addresses.js';
import { fixtureRecord } from '../support/fixture-records.js';

const tern = buildHarnessGraph(fixtureRecord('tern'));
const found = (query: string, limit = 20) => findAddresses(tern, query, limit);
const first = (query: string) => found(query, 1).map(({ kind, address }) => `${kind} ${address}`)[0];

describe('the search', () => {
  it('finds a load by what it is called', () => {
    expect(first('left dip')).toBe('function E1:dip');
    expect(first('DIP left')).toBe('function E1:dip');
  });

  it('finds an address exactly, in any case', () => {
    expect(first('x4')).toBe('connector X4');
    expect(first('g2')).toBe('part G2');
    expect(first('K1/87')).toBe('point K1/87');
  });

  it('finds a cavity by plug and number', () => {
    const points = found('x4 3').filter(({ kind }) => kind === 'point');
    expect(points.map(({ address }) => address).sort()).toEqual(['X4.plug/3', 'X4.receptacle/3']);
  });

  it('finds wires by label and states by name', () => {
    const { label } = tern.record.wires[0];
    expect(first(label.toLowerCase())).toBe(`wire ${label}`);
    expect(found('everything on').some(({ kind, address }) => kind === 'state' && address === 'Everything on')).toBe(
      true,
    );
  });

  it('finds nothing when one word stands nowhere', () => {
    expect(found('left dip zzz')).toEqual([]);
    expect(found('')).toEqual([]);
    expect(found(' /.- ')).toEqual([]);
  });

  it('finds beginnings of words as they are typed', () => {
    expect(found('le di').map(({ address }) => address)).toContain('E1:dip');
  });

  it('keeps to the limit and never shows a thing twice', () => {
    const many = found('e', 200);
    expect(many.length).toBe(200);
    expect(new Set(many.map(({ kind, address }) => `${kind} ${address}`)).size).toBe(200);
    expect(found('e', 3)).toEqual(many.slice(0, 3));
  });

  it('shows no point that a probe cannot touch', () => {
    const points = found('left', 10_000).filter(({ kind }) => kind === 'point');
    expect(points.length).toBeGreaterThan(0);
    for (const { address } of points) expect(tern.points.get(address)?.probeable).toBe(true);
  });
});
