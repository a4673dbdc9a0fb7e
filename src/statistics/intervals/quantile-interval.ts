import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { binomialCdf } from "../numeric/distributions.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { ascending } from "../numeric/sums.js";

export interface QuantileIntervalOptions {
  /** Probability of the quantile, between 0 and 1; default 0.5, the median. */
  readonly p?: number;
  /** Confidence level, at least reached; default 0.95. */
  readonly level?: number;
}

export interface QuantileInterval {
  /** The sample's quantile, type 7. */
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** Level that the two order statistics reach for any continuous distribution; at least the one asked for. */
  readonly attainedLevel: number;
  readonly n: number;
}

/**
 * Distribution-free confidence interval of a quantile between two order statistics x_(l) and x_(u): l is the largest with
 * P(B < l) ≤ α/2 and u the smallest with P(B ≥ u) ≤ α/2 for B binomial with n and p.
 * @param values finite numbers in any order; with ties the level is at least the one stated
 * @param options p: default 0.5; level: default 0.95
 * @throws Undetermined where no two order statistics reach the level, with the number of values needed (6 for a median at 95 %)
 * Source: Conover, Practical Nonparametric Statistics (3rd ed. 1999), 3.2.
 */
export function quantileIntervalKernel(
  values: readonly number[],
  options: QuantileIntervalOptions = {},
): QuantileInterval {
  checkOptions(options, ["p", "level"], "quantileInterval");
  const p = options.p ?? 0.5;
  const level = options.level ?? 0.95;
  checkProbability(p, "p");
  checkProbability(level, "level");
  checkValues(values, 1, "the interval of a quantile");
  const n = values.length;
  const alpha = 1 - level;
  const ranks = quantileRanks(n, p, alpha);
  if (ranks === undefined) {
    const needed = Math.ceil(Math.max(Math.log(alpha / 2) / Math.log(1 - p), Math.log(alpha / 2) / Math.log(p)) - 1e-9);
    throw new Undetermined(
      `the interval of the ${p} quantile at level ${level} needs at least ${needed} values, got ${n}`,
    );
  }
  const [l, u] = ranks;
  const sorted = ascending(values);
  return {
    estimate: quantileOfSorted(sorted, p, 7),
    lower: sorted[l - 1]!,
    upper: sorted[u - 1]!,
    attainedLevel: binomialCdf(u - 1, n, p) - binomialCdf(l - 1, n, p),
    n,
  };
}

/** Ranks from 1 of the two order statistics, or undefined where the sample is too small. */
export function quantileRanks(n: number, p: number, alpha: number): readonly [number, number] | undefined {
  let l = 0;
  while (l < n && binomialCdf(l, n, p) <= alpha / 2) l++;
  let u = l;
  while (u <= n && 1 - binomialCdf(u - 1, n, p) > alpha / 2) u++;
  return l < 1 || u > n ? undefined : [l, u];
}

/** Confidence interval of a quantile of measured values; default the median. */
export const quantileInterval = lift(quantileIntervalKernel, {
  estimate: "same",
  lower: "same",
  upper: "same",
  attainedLevel: "statistic",
  n: "count",
});
