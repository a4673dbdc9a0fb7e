import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { betaCdf } from "../numeric/distributions.js";
import { ascending } from "../numeric/sums.js";

/**
 * Harrell-Davis quantile: a weighted mean of all order statistics, with the weights of a beta distribution with
 * parameters (n + 1)p and (n + 1)(1 - p).
 * @param values at least two finite numbers in any order
 * @param options p between 0 and 1
 * @throws Undetermined on fewer than two values; RangeError on p outside 0 to 1
 * Source: Harrell and Davis, Biometrika 69 (1982) 635.
 */
export function harrellDavisKernel(values: readonly number[], options: { readonly p: number } = { p: NaN }): number {
  checkOptions(options, ["p"], "harrellDavis");
  checkProbability(options.p, "p");
  checkValues(values, 2, "Harrell-Davis quantile");
  const weights = harrellDavisWeights(values.length, options.p);
  return ascending(values).reduce((total, value, i) => total + weights[i]! * value, 0);
}

/** Weights of the order statistics, smallest first. */
export function harrellDavisWeights(n: number, p: number): readonly number[] {
  const a = (n + 1) * p;
  const b = (n + 1) * (1 - p);
  const at = Array.from({ length: n + 1 }, (_, i) => (i === 0 ? 0 : i === n ? 1 : betaCdf(i / n, a, b)));
  return Array.from({ length: n }, (_, i) => at[i + 1]! - at[i]!);
}

/** Harrell-Davis quantile of measured values. */
export const harrellDavis = lift(harrellDavisKernel, "same", { name: "Harrell-Davis quantile" });
