import { betaCdf } from "../numeric/distributions.js";
import { checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { ascending, sumOf } from "../numeric/sums.js";

/**
 * Standard error of a sample quantile by Maritz and Jarrett: the sd of the order statistic under resampling, with weights of a beta
 * distribution with parameters k and n - k + 1, k = np + 1/2 rounded down; for the median of an odd number it is the ideal
 * bootstrap's.
 * @param values at least two finite numbers in any order; 0 where all are equal
 * @param options p: probability, default 0.5
 * @throws Undetermined on fewer than two values; RangeError on p outside 0 to 1
 * Source: Maritz and Jarrett, Journal of the American Statistical Association 73 (1978) 194.
 */
export function quantileErrorKernel(values: readonly number[], options: { readonly p?: number } = {}): number {
  checkOptions(options, ["p"], "quantileError");
  const p = options.p ?? 0.5;
  checkProbability(p, "p");
  checkValues(values, 2, "the standard error of a quantile");
  const n = values.length;
  const k = Math.min(n, Math.max(1, Math.floor(n * p + 0.5)));
  const at = Array.from({ length: n + 1 }, (_, i) => (i === 0 ? 0 : i === n ? 1 : betaCdf(i / n, k, n - k + 1)));
  const sorted = ascending(values);
  const centre = sumOf(sorted.map((value, i) => (at[i + 1]! - at[i]!) * value));
  return Math.sqrt(sumOf(sorted.map((value, i) => (at[i + 1]! - at[i]!) * (value - centre) ** 2)));
}
