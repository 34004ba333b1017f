/**
 * Shortest sum of products over many-valued variables. Knows nothing of switches: a truth table in, cubes out.
 */
import { irredundantSum } from './irredundant-sum.js';
import { type Cube, TruthTable } from './truth-table.js';

export interface Minimised {
  readonly cubes: readonly Cube[];
  /** True when no shorter sum exists (fewest cubes, then fewest limited variables). */
  readonly exact: boolean;
}

/** Search steps of the covering before it settles for an irredundant sum. */
const COVER_BUDGET = 20_000;
const CONSENSUS_BUDGET = 200_000;
const MOST_CUBES = 60_000;
/** Combinations of the variables that matter up to which the shortest sum is sought. */
const MOST_COMBINATIONS = 4_096;

/**
 * @param sizes number of values per variable (1..30); their product is the number of combinations that are asked for
 * @param isOn truth of one combination (one value index per variable)
 * Variables that never matter are dropped first. Then prime implicants by merging (Quine 1952, McCluskey 1956) and consensus, and
 * a minimum cover by branch and bound; a table too large for that gets an irredundant sum, which is not called exact.
 */
export function minimise(sizes: readonly number[], isOn: (values: readonly number[]) => boolean): Minimised {
  const whole = TruthTable.of(sizes, isOn);
  const mattering = sizes.map((_, variable) => variable).filter((variable) => whole.dependsOn(variable));
  const table = whole.only(mattering);
  const { cubes, exact } =
    table.length > MOST_COMBINATIONS ? { cubes: irredundantSum(table), exact: false } : shortestSum(table);
  return { cubes: cubes.map((cube) => overAll(cube, mattering, sizes)), exact };
}

function shortestSum(table: TruthTable): Minimised {
  const { sizes } = table;
  const minterms: number[][] = [];
  for (let at = 0; at < table.length; at++) {
    if (table.isOn(at)) minterms.push(sizes.map((_, variable) => table.value(at, variable)));
  }
  if (minterms.length === 0) return { cubes: [], exact: true };
  const { primes, complete } = primeCubes(minterms, sizes);
  const cover = minimumCover(primes, minterms, sizes);
  return { cubes: cover.cubes, exact: complete && cover.exact };
}

/** A cube over some variables as one over all: the others do not matter. */
function overAll(cube: Cube, variables: readonly number[], sizes: readonly number[]): Cube {
  const wide = sizes.map((size) => (1 << size) - 1);
  variables.forEach((variable, i) => {
    wide[variable] = cube[i];
  });
  return wide;
}

/** All prime implicants: merging finds them when every variable has two values; otherwise consensus completes them. */
function primeCubes(
  minterms: readonly (readonly number[])[],
  sizes: readonly number[],
): { primes: Cube[]; complete: boolean } {
  const merged = mergeByVariable(minterms, sizes.length);
  if (merged === null) return { primes: minterms.map((term) => term.map((value) => 1 << value)), complete: false };
  return sizes.every((size) => size === 2) ? { primes: merged, complete: true } : byConsensus(merged);
}

/** Joins cubes that are equal in all variables but one; null when there are too many. */
function mergeByVariable(minterms: readonly (readonly number[])[], variables: number): Cube[] | null {
  const cubes = new Map<string, Cube>();
  for (const term of minterms) {
    const cube = term.map((value) => 1 << value);
    cubes.set(cube.join(), cube);
  }
  for (let variable = 0; variable < variables; variable++) {
    const unions = new Map<string, { rest: Cube; union: number }>();
    for (const cube of cubes.values()) {
      const rest = cube.map((mask, i) => (i === variable ? 0 : mask));
      const group = unions.get(rest.join());
      if (group === undefined) unions.set(rest.join(), { rest, union: cube[variable] });
      else group.union |= cube[variable];
    }
    for (const { rest, union } of unions.values()) {
      const wide = rest.map((mask, i) => (i === variable ? union : mask));
      cubes.set(wide.join(), wide);
    }
    if (cubes.size > MOST_CUBES) return null;
  }
  return maximal(cubes.values());
}

/** Iterated consensus with absorption (Quine 1955): from any cover to all prime implicants. */
function byConsensus(cover: readonly Cube[]): { primes: Cube[]; complete: boolean } {
  let primes = [...cover];
  let budget = CONSENSUS_BUDGET;
  for (let one = 1; one < primes.length; one++) {
    for (let other = 0; other < one; other++) {
      for (let variable = 0; variable < primes[one].length; variable++) {
        if (budget-- <= 0) return { primes, complete: false };
        const between = primes[one].map((mask, i) =>
          i === variable ? mask | primes[other][i] : mask & primes[other][i],
        );
        if (between.includes(0) || primes.some((wide) => contains(wide, between))) continue;
        primes.push(between);
      }
    }
  }
  primes = maximal(primes);
  return { primes, complete: true };
}

/** Drops every cube that lies inside another. */
function maximal(cubes: Iterable<Cube>): Cube[] {
  const wideFirst = [...cubes].sort((one, other) => volume(other) - volume(one));
  const kept: Cube[] = [];
  for (const cube of wideFirst) if (!kept.some((wide) => contains(wide, cube))) kept.push(cube);
  return kept;
}

function volume(cube: Cube): number {
  return cube.reduce((product, mask) => product * bitCount(mask), 1);
}

function contains(wide: Cube, cube: Cube): boolean {
  return cube.every((mask, i) => (mask & ~wide[i]) === 0);
}

/** How many variables the cube limits: the literals of its product. */
export function literals(cube: Cube, sizes: readonly number[]): number {
  return cube.filter((mask, i) => mask !== (1 << sizes[i]) - 1).length;
}

function bitCount(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** Fewest cubes, then fewest literals, that cover every minterm. */
function minimumCover(
  primes: readonly Cube[],
  minterms: readonly (readonly number[])[],
  sizes: readonly number[],
): { cubes: Cube[]; exact: boolean } {
  const covering = minterms.map((term) =>
    primes.map((_, p) => p).filter((p) => primes[p].every((mask, i) => (mask & (1 << term[i])) !== 0)),
  );
  const cost = primes.map((cube) => 1 + literals(cube, sizes) / 1_000);
  let best: number[] = greedyCover(covering, cost);
  let bestCost = total(best, cost);
  let budget = COVER_BUDGET;
  const search = (chosen: number[], spent: number): void => {
    if (budget-- <= 0 || spent >= bestCost) return;
    const open = covering.filter((options) => !options.some((p) => chosen.includes(p)));
    if (open.length === 0) {
      best = [...chosen];
      bestCost = spent;
      return;
    }
    if (spent + 1 >= bestCost) return;
    const hardest = open.reduce((least, options) => (options.length < least.length ? options : least));
    for (const p of [...hardest].sort((one, other) => cost[one] - cost[other])) search([...chosen, p], spent + cost[p]);
  };
  search([], 0);
  return { cubes: withoutRedundant(best, covering).map((p) => primes[p]), exact: budget > 0 };
}

function greedyCover(covering: readonly (readonly number[])[], cost: readonly number[]): number[] {
  const chosen: number[] = [];
  let open = [...covering];
  while (open.length > 0) {
    const gain = new Map<number, number>();
    for (const options of open) for (const p of options) gain.set(p, (gain.get(p) ?? 0) + 1);
    const [pick] = [...gain].reduce((top, next) =>
      next[1] > top[1] || (next[1] === top[1] && cost[next[0]] < cost[top[0]]) ? next : top,
    );
    chosen.push(pick);
    open = open.filter((options) => !options.includes(pick));
  }
  return withoutRedundant(chosen, covering);
}

/** Drops, last chosen first, each cube whose terms the others cover. */
function withoutRedundant(chosen: readonly number[], covering: readonly (readonly number[])[]): number[] {
  let kept = [...chosen];
  for (const candidate of [...chosen].reverse()) {
    const rest = kept.filter((p) => p !== candidate);
    if (covering.every((options) => options.some((p) => rest.includes(p)))) kept = rest;
  }
  return kept;
}

function total(chosen: readonly number[], cost: readonly number[]): number {
  return chosen.reduce((sum, p) => sum + cost[p], 0);
}
