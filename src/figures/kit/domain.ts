import { extent, nice } from "d3-array";

export interface SpanOptions {
  /** Let the span start or end at zero: for bars and other lengths that are read from a base line. */
  readonly zero?: boolean;
  /** Room beyond the outermost values, as a share of the span; 0.04 unless given. */
  readonly pad?: number;
}

/**
 * The domain of an axis that holds all values, widened to round numbers. Values that are all equal get room of a tenth
 * of their size on either side. @throws RangeError without a finite value
 */
export function spanOf(values: readonly number[], options: SpanOptions = {}): readonly [number, number] {
  const finite = values.filter(Number.isFinite);
  const [low, high] = extent(options.zero === true ? [0, ...finite] : finite);
  if (low === undefined || high === undefined) throw new RangeError("an axis needs at least one finite value");
  const room = high > low ? (high - low) * (options.pad ?? 0.04) : Math.abs(high) / 10 || 1;
  const below = options.zero === true && low === 0 ? 0 : low - room;
  const above = options.zero === true && high === 0 ? 0 : high + room;
  return nice(below, above, 5);
}

/** The least and greatest value, unrounded: for the axis along which curves run. Equal values get room as in `spanOf`. */
export function extentOf(values: readonly number[]): readonly [number, number] {
  const [low, high] = extent(values.filter(Number.isFinite));
  return low !== undefined && high !== undefined && high > low ? [low, high] : spanOf(values);
}

/**
 * The domain of heights of curves: from zero, or from the least height below it, to a round number above the greatest one,
 * or exactly to `highest` where curves rise beyond it. @throws RangeError where `highest` is not above the least height
 */
export function heightSpanOf(heights: readonly number[], highest = Infinity): readonly [number, number] {
  const low = Math.min(0, ...heights.filter(Number.isFinite));
  const greatest = Math.max(...heights.filter(Number.isFinite));
  if (!(highest > low)) throw new RangeError(`curves cannot be cut off at ${highest}: the lowest point lies at ${low}`);
  return greatest > highest ? [low, highest] : [low, spanOf([low, greatest], { zero: true, pad: 0.02 })[1]];
}
