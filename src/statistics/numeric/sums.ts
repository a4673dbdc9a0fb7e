import { fsum } from "d3-array";

/** Sum without rounding error but the last (Shewchuk's exact partial sums); 0 of no values. */
export function sumOf(values: Iterable<number>): number {
  return fsum(values);
}

/** Arithmetic mean, corrected by the mean of the residuals so that it is right to the last place or nearly. */
export function meanOf(values: readonly number[]): number {
  const first = fsum(values) / values.length;
  return first + fsum(values.map((value) => value - first)) / values.length;
}

/**
 * Sum of squared deviations from the mean by the corrected two-pass algorithm.
 * Source: Chan, Golub and LeVeque, American Statistician 37 (1983) 242, equation 1.7.
 */
export function squaredDeviations(values: readonly number[]): number {
  const centre = meanOf(values);
  const deviations = values.map((value) => value - centre);
  const rest = fsum(deviations);
  return Math.max(0, fsum(deviations.map((d) => d * d)) - (rest * rest) / values.length);
}

/** Variance with divisor n - 1. */
export function varianceOf(values: readonly number[]): number {
  return squaredDeviations(values) / (values.length - 1);
}

/** Sum of products of deviations from the two means, by the corrected two-pass algorithm. */
export function crossDeviations(xs: readonly number[], ys: readonly number[]): number {
  const mx = meanOf(xs);
  const my = meanOf(ys);
  const dx = xs.map((x) => x - mx);
  const dy = ys.map((y) => y - my);
  return fsum(dx.map((d, i) => d * dy[i]!)) - (fsum(dx) * fsum(dy)) / xs.length;
}

/** The values in ascending order; the input stays as it is. */
export function ascending(values: readonly number[]): readonly number[] {
  return [...values].sort((a, b) => a - b);
}

/** Middle value of sorted values, or the mean of the two middle ones. */
export function medianOfSorted(sorted: readonly number[]): number {
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Median of at least one value, in any order. */
export function medianOf(values: readonly number[]): number {
  return medianOfSorted(ascending(values));
}
