// The analysis of a pattern, done once and used for every set of values.
// It must not touch values.

import { type Assembly, assemblyOf } from './assembly.js';
import { type FrontTree, frontTree } from './fronts.js';
import { type Columns, columnsInOrder, symbolicFactor } from './symbolic.js';
import type { Pattern } from './types.js';

/** Everything about a factor that does not depend on values. Opaque outside numeric, except the counts. */
export interface Analysis {
  readonly pattern: Pattern;
  readonly columns: Columns;
  /** Nodes of the entries of the columns, parallel to columns.rows: rowNodes[p] = order[rows[p]]. */
  readonly rowNodes: Int32Array;
  readonly tree: FrontTree;
  readonly assembly: Assembly;
  readonly counts: {
    readonly nodes: number;
    readonly edges: number;
    /** Off-diagonal entries of the factor. */
    readonly entries: number;
    /** Multiplications of one factorisation, the dominant term; lets a caller refuse or budget the work. */
    readonly multiplications: number;
  };
}

export interface AnalyseOptions {
  /** Per node, 1 where x is asked for or changes far more often than elsewhere: such nodes are cheap when eliminated late. */
  readonly late?: Uint8Array;
  /** Elimination order to use as it is, when that of a pattern which lacks little is known: finding one is half the work. */
  readonly order?: Int32Array;
  /** Numbers that the factor may keep. */
  readonly mostValues?: number;
}

/** Half a gigabyte of fronts. */
const MOST_VALUES = 2 ** 26;

/**
 * Orders the nodes and lays the factor out.
 *
 * The reference that makes the matrix non-singular is written either as an edge to GROUND or as a ground weight at
 * factorisation. If there is a choice, ground the node with the most neighbours: it then leaves every column.
 *
 * Throws RangeError for an edge that ends outside the pattern, FillTooLargeError for a pattern so meshed that its
 * factor would keep more than `mostValues` numbers. (A harness of 20,000 wires keeps about a million.)
 */
export function analyse(pattern: Pattern, { late, order, mostValues = MOST_VALUES }: AnalyseOptions = {}): Analysis {
  const columns =
    order === undefined ? symbolicFactor(pattern, mostValues, late) : columnsInOrder(pattern, order, mostValues);
  const tree = frontTree(columns);
  const assembly = assemblyOf(pattern, columns, tree, mostValues);
  const rowNodes = columns.rows.map((k) => columns.order[k]);
  let multiplications = 0;
  for (let k = 0; k < pattern.nodeCount; k++) {
    const rows = columns.start[k + 1] - columns.start[k];
    multiplications += (rows * (rows + 3)) / 2;
  }
  const counts = {
    nodes: pattern.nodeCount,
    edges: pattern.from.length,
    entries: columns.rows.length,
    multiplications,
  };
  return { pattern, columns, rowNodes, tree, assembly, counts };
}
