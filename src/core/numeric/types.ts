// Shapes shared by the sparse solver of symmetric diagonally dominant M-matrix systems, seen as weighted graphs.
// It must not compute anything, and must not know what the numbers stand for.

/*
 * The system.  n nodes, edges with a weight w >= 0, a ground weight s >= 0 and a right-hand side J per node:
 *
 *     for every node i:   sum over edges (i,j) of w_ij (x_i - x_j)  +  s_i x_i  =  J_i
 *
 * Public functions, in the order in which they are called:
 *
 *   analyse(pattern: Pattern, options?: AnalyseOptions): Analysis                     analyse.ts
 *       once per pattern: order, elimination tree, fronts
 *   createFactor(analysis: Analysis): Factor                                          factor.ts
 *       storage; fill factor.weights (per edge), factor.ground and factor.rhs (per node), all zero at first
 *   factorise(factor: Factor, isolated?: Isolated): Outcome                           factor.ts
 *   solve(factor: Factor, x: Float64Array): void                                      solve.ts
 *   solveRhs(factor: Factor, rhs: Float64Array, x: Float64Array): void                solve.ts
 *   solveSparseRhs(factor, nodes: Int32Array, values: Float64Array, x): void          solve.ts
 *   createPointSet(analysis: Analysis, nodes: Int32Array): PointSet                   points.ts
 *   solvePoints(factor: Factor, points: PointSet, x: Float64Array): void              points.ts
 *       x[t] belongs to nodes[t]; only what those nodes depend on is visited
 *   new ChangeSet(): setWeight(edge, w) setGround(node, s) setRhs(node, J) clear()    change-set.ts
 *                    addEdge(from, to, w): outside the pattern, for batches alone
 *   applyChanges(factor: Factor, changes: ChangeSet, isolated?: Isolated): Outcome    update.ts
 *       afterwards every solve function above sees the changed system
 *   amendChanges(factor: Factor, changes: ChangeSet): Outcome                         update.ts
 *       more changes on top of those applied; undone together
 *   undoChanges(factor: Factor): void          exactly the state before               update.ts
 *   keepChanges(factor: Factor): void          the changed system becomes the base    update.ts
 *   changeBase(factor: Factor, changes: ChangeSet): Outcome      both in one            update.ts
 *   createBatch(factor: Factor, points?: PointSet): Batch                             batch.ts
 *   addToBatch(batch: Batch, changes: ChangeSet, isolated?: Isolated): Outcome        batch.ts
 *       at most BATCH_LANES (8) change sets, each against the same base; a refused one takes no lane
 *   solveBatch(batch: Batch): void             then batchValue, and resetBatch        batch.ts
 *   batchValue(batch: Batch, lane: number, item: number): number                      batch.ts
 *       item = node, or index into the point set's nodes
 *   residualComponentwise(factor: Factor, x: Float64Array): number                    residual.ts
 *   refine(factor: Factor, x: Float64Array, work: Float64Array): void                 refine.ts
 *       one step of iterative refinement, for a solution whose residual is too large
 *   markFloating(factor: Factor, floating: Uint8Array): number                        floating.ts
 *       1 for every node without a conducting way to ground; returns how many
 */

/** End of an edge that leads to ground (x = 0) and not to a node. */
export const GROUND = -1;

/**
 * The graph: edge e joins `from[e]` and `to[e]` (node index or GROUND). Parallel edges are allowed, an edge from a node
 * to itself has no effect. Edges that are absent now and may come later belong to the pattern; their weight is 0.
 */
export interface Pattern {
  readonly nodeCount: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/** The three kinds of values of a system: per edge, per node, per node. */
export type ValueKind = 'weight' | 'ground' | 'rhs';

/** What to do with a node that, when its turn comes, has neither an edge to a later node nor ground. */
export type Isolated = 'refuse' | 'undetermined';

/**
 * Result of a factorisation. `undetermined` lists one node per part of the graph that has no ground: x is 0 there by
 * convention and the other nodes of that part are right relative to it.
 */
export type Outcome =
  | { readonly ok: true; readonly undetermined: readonly number[] }
  | { readonly ok: false; readonly kind: 'singular'; readonly node: number }
  | {
      readonly ok: false;
      readonly kind: 'badValue';
      readonly of: ValueKind;
      readonly index: number;
      readonly value: number;
    };
