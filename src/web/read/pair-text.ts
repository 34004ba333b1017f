// A pair of probe points as one text for the address bar: `K2/87` or `K2/87~G1`.
// It must not check the points.

export interface Pair {
  readonly red: string;
  /** Absent: the reference of the record. */
  readonly black?: string;
}

export function readPair(text: string): Pair {
  const [red, black] = text.split('~');
  return black === undefined ? { red } : { red, black };
}

export const pairText = ({ red, black }: Pair): string => (black === undefined ? red : `${red}~${black}`);
