/** Rows from `from` up to, not including, `to`. */
export interface RowRange {
  readonly from: number;
  readonly to: number;
}

/** One press and, where it was recorded, the release after it. */
export interface StreamCycle {
  readonly press: RowRange;
  readonly release: RowRange | null;
}

export interface StreamSplit {
  readonly cycles: readonly StreamCycle[];
  /** Rows before, between and after the strokes: a dwell at the deepest point, for example. */
  readonly leftRows: number;
  /** Why there is no cycle; empty where there is one. */
  readonly reason: string;
}

/** A turn counts when the probe has come back by this share of the whole range of displacement. */
const turnShare = 0.25;
/** ... and by this many of the smallest steps. */
const turnSteps = 6;

/**
 * Splits one stream of a tester into presses and releases, by the turning points of its displacement.
 *
 * A turning point counts only once the probe has moved back by a quarter of the range (and six steps), so that a dwell, a
 * repeated reading, a small step back or a quantised reading does not start a stroke. A run of displacement towards larger
 * force is a press, one towards smaller force a release, whichever way the axis counts. A press begins with its approach
 * (the first row after the last turning point) and ends where the furthest displacement is first reached; a release
 * begins where it is last held and ends at the next turning point, or with the stream. The rows of a dwell between them
 * belong to neither.
 *
 * @param displacementMm file order, finite; @param forceCn as long
 * @returns no cycles, with the reason, for a stream without a press
 * @throws RangeError where the lengths differ or a number is not finite, with its row
 */
export function splitStream(displacementMm: Float64Array, forceCn: Float64Array): StreamSplit {
  const rows = displacementMm.length;
  if (forceCn.length !== rows) throw new RangeError(`${rows} displacements but ${forceCn.length} forces`);
  for (let i = 0; i < rows; i++) {
    if (!Number.isFinite(displacementMm[i]!) || !Number.isFinite(forceCn[i]!)) {
      throw new RangeError(`row ${i + 1} of the stream is (${displacementMm[i]} mm, ${forceCn[i]} cN)`);
    }
  }
  const none = (reason: string): StreamSplit => ({ cycles: [], leftRows: rows, reason });
  if (rows < 3) return none(`the stream holds only ${rows} rows`);
  const turns = turningPoints(displacementMm);
  if (turns.length < 2) return none("the displacement does not move");
  const runs = turns.slice(1).map((to, i) => describeRun(displacementMm, forceCn, turns[i]!, to));
  const cycles: StreamCycle[] = [];
  runs.forEach((run, i) => {
    if (!run.isPress) return;
    const next = runs[i + 1];
    const isRelease = next !== undefined && !next.isPress;
    cycles.push({
      press: { from: run.from, to: run.to },
      release: isRelease ? { from: next.from, to: next.to } : null,
    });
  });
  if (cycles.length === 0) return none("the force never rises along the displacement: the stream holds no press");
  const taken = cycles.reduce(
    (total, { press, release }) => total + press.to - press.from + (release === null ? 0 : release.to - release.from),
    0,
  );
  return { cycles, leftRows: rows - taken, reason: "" };
}

/** Rows at which the displacement turns, the first and last row included. */
function turningPoints(displacementMm: Float64Array): readonly number[] {
  const rows = displacementMm.length;
  let least = Infinity;
  let most = -Infinity;
  let step = Infinity;
  for (let i = 0; i < rows; i++) {
    const x = displacementMm[i]!;
    least = Math.min(least, x);
    most = Math.max(most, x);
    const moved = i === 0 ? 0 : Math.abs(x - displacementMm[i - 1]!);
    if (moved > 0) step = Math.min(step, moved);
  }
  if (!(most > least)) return [];
  const enough = Math.max(turnShare * (most - least), Math.min(turnSteps * step, 0.5 * (most - least)));
  const turns = [0];
  let low = 0;
  let high = 0;
  let direction = 0;
  for (let i = 1; i < rows; i++) {
    const x = displacementMm[i]!;
    if (x > displacementMm[high]!) high = i;
    if (x < displacementMm[low]!) low = i;
    if (direction >= 0 && displacementMm[high]! - x >= enough) {
      if (direction > 0) turns.push(high);
      direction = -1;
      low = i;
    } else if (direction <= 0 && x - displacementMm[low]! >= enough) {
      if (direction < 0) turns.push(low);
      direction = 1;
      high = i;
    }
  }
  if (direction === 0) return [];
  turns.push(rows - 1);
  return turns;
}

interface Run extends RowRange {
  readonly isPress: boolean;
}

/** A run between two turning points: which stroke it is, and its rows without the dwells at its ends. */
function describeRun(displacementMm: Float64Array, forceCn: Float64Array, first: number, last: number): Run {
  const isDeeperUp = displacementMm[last]! > displacementMm[first]!;
  const sign = isDeeperUp ? 1 : -1;
  const isPress = forceAround(forceCn, last) > forceAround(forceCn, first);
  let end = first;
  for (let i = first; i <= last; i++) if (sign * displacementMm[i]! > sign * displacementMm[end]!) end = i;
  let start = first === 0 ? 0 : first + 1;
  if (!isPress) {
    for (let i = first; i <= end && displacementMm[i] === displacementMm[first]; i++) {
      start = Math.max(start, i);
    }
  }
  return { isPress, from: start, to: (isPress ? end : last) + 1 };
}

/** Median of the forces of up to five rows about one. */
function forceAround(forceCn: Float64Array, row: number): number {
  const near = forceCn.slice(Math.max(0, row - 2), row + 3).sort();
  return near[near.length >> 1]!;
}
