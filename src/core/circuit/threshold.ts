/**
 * A value at which something in the circuit behaves otherwise than before: a coil lets go, a fuse opens, a supply cuts off.
 * Type only; whatever has thresholds states its own (variables, laws, protection), and `may-flip` compares them with bands.
 */

/** `at` in V or A; the sign of what is sensed does not matter. */
export type Threshold =
  | { readonly kind: 'volts'; readonly plus: string; readonly minus: string; readonly at: number }
  | { readonly kind: 'amps'; readonly element: string; readonly at: number };
