// Where an entry of a packed front stands.
// It must not hold values.

/*
 * A front of size d is the upper triangle of a symmetric d x d block without its diagonal, followed in each row by the
 * row's ground weight and its right-hand side; rows follow each other without gaps:
 *
 *     row 0:   (0,1) (0,2) .. (0,d-1)  ground_0  rhs_0
 *     row 1:         (1,2) .. (1,d-1)  ground_1  rhs_1
 *     ...
 *     row d-1:                         ground    rhs
 *
 * The diagonal is never stored: it is the sum of the row, see factor.ts. The last rows of a front are laid out exactly
 * like a smaller front, so what is left of a front after its pivots can be copied out in one piece.
 */

/** Number of values in a front of `size` rows. */
export function frontLength(size: number): number {
  return (size * (size + 3)) / 2;
}

/** First value of `row`. */
export function rowStart(size: number, row: number): number {
  return row * (size + 1) - (row * (row - 1)) / 2;
}

/** Edge weight between `row` and a later row `column`. */
export function couplingPlace(size: number, row: number, column: number): number {
  return rowStart(size, row) + column - row - 1;
}

/** Ground weight of `row`; its right-hand side stands one further. */
export function groundPlace(size: number, row: number): number {
  return rowStart(size, row) + size - 1 - row;
}
