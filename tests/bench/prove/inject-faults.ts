// Every single open, short and swap of a harness, one at a time, searched for by carrying its plans out; a sample is read by ngspice too.
// It must not count a fault as found when the plan names another one.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Model } from '../../../src/core/answers/model.js';
import { type InjectedFault, ohmsPrinted, readingDeck } from '../../support/bare-harness-netlist.js';
import { LEAD_OHMS, ProvedHarness } from '../../support/carry-out.js';

export interface Injected {
  readonly opens: number;
  readonly shorts: number;
  readonly swaps: number;
  readonly found: number;
  /** Shorts of all possible that were put in: large harnesses are sampled evenly. */
  readonly shortsOf: number;
  readonly swapsOf: number;
  readonly missed: readonly string[];
}

/** At most so many of a kind; beyond, evenly spread ones. */
export function injectFaults(model: Model, most: number): Injected {
  const harness = new ProvedHarness(model);
  const missed: string[] = [];
  if (harness.healthyFailures() > 0) missed.push('a sound harness fails');
  const opens = sampled(harness.opens(), most);
  for (const name of opens) if (!harness.foundOpen(name)) missed.push(`open ${name}`);
  const allShorts = harness.shorts();
  const shorts = sampled(allShorts, most);
  for (const short of shorts) if (!harness.foundShort(short)) missed.push(`short ${short.a} to ${short.b}`);
  const allSwaps = harness.swaps();
  const swaps = sampled(allSwaps, most);
  for (const swap of swaps) {
    if (harness.foundSwap(swap) !== 'named')
      missed.push(`swap of ${swap.a.wire} ${swap.a.end} and ${swap.b.wire} ${swap.b.end}`);
  }
  const injected = opens.length + shorts.length + swaps.length;
  return {
    opens: opens.length,
    shorts: shorts.length,
    swaps: swaps.length,
    found: injected - missed.length,
    shortsOf: allShorts.length,
    swapsOf: allSwaps.length,
    missed,
  };
}

/** Of those that fail, and of those that pass. */
const MOST_READINGS = 15;

/** Lines of the continuity plan that ngspice and the meter of the test judge differently, over an even sample of opens and swaps. */
export function disagreementsWithSpice(
  model: Model,
  ngspice: string,
  most: number,
): { readonly faults: number; readonly readings: number; readonly differ: number; readonly worstOhms: number } {
  const harness = new ProvedHarness(model);
  const faults: InjectedFault[] = [
    ...sampled(harness.opens(), most).map((name): InjectedFault => ({ kind: 'open', name })),
    ...sampled(harness.swaps(), most),
  ];
  const folder = mkdtempSync(join(tmpdir(), 'prove-'));
  let readings = 0;
  let differ = 0;
  let worstOhms = 0;
  for (const fault of faults) {
    const file = join(folder, 'harness.cir');
    const ours = harness.continuityUnder(fault);
    // the lines that fail, and an even sample of the others: ngspice solves the whole harness for each
    const failing = harness.failing(ours);
    const isFailing = ({ id }: { readonly id: string }): boolean => failing.has(id);
    const steps = [
      ...sampled(harness.continuity.steps.filter(isFailing), MOST_READINGS),
      ...sampled(
        harness.continuity.steps.filter((step) => !isFailing(step)),
        MOST_READINGS,
      ),
    ];
    writeFileSync(file, readingDeck(harness.netlist(fault), steps));
    const ohms = ohmsPrinted(spawnSync(ngspice, ['-b', file], { encoding: 'utf8', maxBuffer: 1 << 28 }).stdout);
    steps.forEach(({ id }, i) => {
      const value = ours.get(id) ?? null;
      const theirs = ohms[i] ?? null;
      readings += 1;
      if ((value === null) !== (theirs === null)) differ += 1;
      else if (value !== null && theirs !== null) worstOhms = Math.max(worstOhms, Math.abs(value - LEAD_OHMS - theirs));
    });
  }
  rmSync(folder, { recursive: true, force: true });
  return { faults: faults.length, readings, differ, worstOhms };
}

function sampled<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)]);
}
