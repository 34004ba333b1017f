// Times of pieces of work by the processor time of this process, so that other work on the machine counts little.
// It must not print.

const PIECE_MILLISECONDS = 120;

/** Milliseconds of processor time that this process has used. */
export function processorMillis(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Median microseconds of `run`, over pieces that each repeat it for a while; one piece of warm-up is left out. */
export function medianMicros(run: () => void, pieces = 5): number {
  piece(run);
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

/** Median milliseconds of a few single runs, the first left out: for work of many milliseconds. */
export function medianMillis(run: () => void, runs = 5): number {
  run();
  return median(
    Array.from({ length: runs }, () => {
      const begin = processorMillis();
      run();
      return processorMillis() - begin;
    }),
  );
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}
