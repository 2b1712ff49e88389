interface Pool {
  sum: number;
  count: number;
}

/**
 * Sets things side by side on a line, each as near to where it belongs as the others let it, in the order given.
 * Least squares under "at least so far apart" (pooling of adjacent violators, then clamped to the line).
 * @param wanted where each belongs, ascending
 * @param offsets how far each stands from the first where all stand as close as they may; starts with 0
 * @param line first and last place there is; stretched to the right where it is too short
 */
export function spread(
  wanted: readonly number[],
  offsets: readonly number[],
  line: readonly [number, number],
): readonly number[] {
  const pools: Pool[] = [];
  wanted.forEach((place, index) => {
    pools.push({ sum: place - (offsets[index] ?? 0), count: 1 });
    for (;;) {
      const last = pools.at(-1);
      const before = pools.at(-2);
      if (last === undefined || before === undefined || before.sum / before.count <= last.sum / last.count) return;
      pools.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  });
  const [from, to] = line;
  const highest = Math.max(from, to - (offsets.at(-1) ?? 0));
  return pools
    .flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count))
    .map((place, index) => Math.min(Math.max(place, from), highest) + (offsets[index] ?? 0));
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The first row, counted from 0, in which each piece has room; pieces of one row never touch. */
export function intoRows(pieces: readonly Stretch[], apart: number): readonly number[] {
  const ends: number[] = [];
  return pieces.map(({ from, to }) => {
    const free = ends.findIndex((end) => end + apart <= from);
    const row = free === -1 ? ends.length : free;
    ends[row] = to;
    return row;
  });
}
