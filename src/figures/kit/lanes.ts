/** A stretch of places, both ends included. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The lane of each stretch such that no two in one lane touch: the first free lane in order of their starts.
 * @returns a lane from 0 for each stretch, in the given order
 */
export function lanesOf(stretches: readonly Stretch[]): readonly number[] {
  const order = stretches.map((_, index) => index).sort((a, b) => stretches[a]!.from - stretches[b]!.from || a - b);
  const ends: number[] = [];
  const lanes = stretches.map(() => 0);
  for (const index of order) {
    const { from, to } = stretches[index]!;
    const free = ends.findIndex((end) => end < from);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = to;
    lanes[index] = lane;
  }
  return lanes;
}
