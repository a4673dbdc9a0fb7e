import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { chiSquaredQuantile, tQuantile } from "../numeric/distributions.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface LevelOptions {
  /** Confidence level between 0 and 1; default 0.95. */
  readonly level?: number;
}

export interface MeanInterval {
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  readonly n: number;
}

/**
 * Confidence interval of a mean from normal values: m ± t_(n-1) s/√n.
 * @param values at least two finite numbers in any order; equal values give an interval of no width
 * @param options level: default 0.95
 * @throws Undetermined on fewer than two values; RangeError on a level outside 0 to 1
 * Source: NIST/SEMATECH e-Handbook, 1.3.5.2.
 */
export function meanIntervalKernel(values: readonly number[], options: LevelOptions = {}): MeanInterval {
  checkOptions(options, ["level"], "meanInterval");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkValues(values, 2, "the interval of a mean");
  const n = values.length;
  const mean = meanOf(values);
  const half = tQuantile((1 + level) / 2, n - 1) * Math.sqrt(squaredDeviations(values) / (n - 1) / n);
  return { mean, lower: mean - half, upper: mean + half, n };
}

/** Confidence interval of the mean of measured values. */
export const meanInterval = lift(meanIntervalKernel, { mean: "same", lower: "same", upper: "same", n: "count" });

export interface SdInterval {
  readonly sd: number;
  readonly lower: number;
  readonly upper: number;
  readonly n: number;
}

/**
 * Confidence interval of a standard deviation from normal values: s √((n - 1)/χ²) at the two equal tails.
 * @param values at least two finite numbers in any order; equal values give 0 to 0
 * @param options level: default 0.95
 * @throws Undetermined on fewer than two values; RangeError on a level outside 0 to 1
 * Source: NIST/SEMATECH e-Handbook, 1.3.5.8 (chi-square test of a variance, inverted).
 */
export function sdIntervalKernel(values: readonly number[], options: LevelOptions = {}): SdInterval {
  checkOptions(options, ["level"], "sdInterval");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkValues(values, 2, "the interval of a standard deviation");
  const dof = values.length - 1;
  const total = squaredDeviations(values);
  return {
    sd: Math.sqrt(total / dof),
    lower: Math.sqrt(total / chiSquaredQuantile((1 + level) / 2, dof)),
    upper: Math.sqrt(total / chiSquaredQuantile((1 - level) / 2, dof)),
    n: values.length,
  };
}

/** Confidence interval of the standard deviation of measured values. */
export const sdInterval = lift(sdIntervalKernel, { sd: "same", lower: "same", upper: "same", n: "count" });
