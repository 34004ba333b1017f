// Times of pieces of work by the processor time of this process, so that other work on the machine counts little.
// It must not print.

const PIECE_MILLISECONDS = 120;

/**
 * Processor time for which work is repeated before it is timed. In a fresh process the first second or two goes into
 * compiling what runs: three quarters of the time of a fault at 200 wires.
 */
const WARM_UP_MILLISECONDS = 2_000;

/** Milliseconds of processor time that this process has used. */
export function processorMillis(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Repeats `run`, at least once, until it is warm. */
export function warmUp(run: () => void): void {
  const begin = processorMillis();
  do run();
  while (processorMillis() - begin < WARM_UP_MILLISECONDS);
}

/** Milliseconds of one run. */
export function millisOf(run: () => void): number {
  const begin = processorMillis();
  run();
  return processorMillis() - begin;
}

/** Median microseconds of `run` when warm, over pieces that each repeat it for a while. */
export function medianMicros(run: () => void, pieces = 5): number {
  warmUp(run);
  return median(Array.from({ length: pieces }, () => piece(run)));
}

function piece(run: () => void): number {
  const begin = processorMillis();
  let runs = 0;
  let elapsed = 0;
  do {
    run();
    runs += 1;
    elapsed = processorMillis() - begin;
  } while (elapsed < PIECE_MILLISECONDS);
  return (1000 * elapsed) / runs;
}

/** Median milliseconds of a few single runs when warm: for work of many milliseconds. */
export function medianMillis(run: () => void, runs = 5): number {
  warmUp(run);
  return median(Array.from({ length: runs }, () => millisOf(run)));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}
