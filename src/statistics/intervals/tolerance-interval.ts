import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { rootBetween } from "../numeric/search.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";
import type { ToleranceOptions } from "./tolerance-factors.js";
import { heldConfidence, toleranceFactorKernel } from "./tolerance-factors.js";

export interface ToleranceInterval {
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  /** The factor k of m ± k s. */
  readonly factor: number;
  readonly n: number;
}

/**
 * Two-sided tolerance interval of a normal population: m ± k s holds at least the stated share with the stated confidence.
 * @param values at least two finite numbers in any order; equal values give an interval of no width
 * @param options coverage: default 0.95; confidence: default 0.95
 * @throws Undetermined on fewer than two values; RangeError on shares outside 0 to 1
 * Source: ISO 16269-6:2014, 6.2 and Annex B.
 */
export function toleranceIntervalKernel(values: readonly number[], options: ToleranceOptions = {}): ToleranceInterval {
  checkOptions(options, ["coverage", "confidence"], "toleranceInterval");
  checkValues(values, 2, "a tolerance interval");
  const n = values.length;
  const mean = meanOf(values);
  const factor = toleranceFactorKernel(n, options);
  const half = factor * Math.sqrt(squaredDeviations(values) / (n - 1));
  return { mean, lower: mean - half, upper: mean + half, factor, n };
}

// The factor depends on n alone, so the weights are exact: those of the mean and of k times the sd.
/** Tolerance interval of a normal population from measured values. */
export const toleranceInterval = lift(
  toleranceIntervalKernel,
  { mean: "same", lower: "same", upper: "same", factor: "statistic", n: "count" },
  {
    weights: (values, options) => {
      const { mean, factor, n } = toleranceIntervalKernel(values, options);
      const sd = Math.sqrt(squaredDeviations(values) / (n - 1));
      const ofSd = values.map((value) => (sd === 0 ? 0 : (factor * (value - mean)) / ((n - 1) * sd)));
      return {
        mean: values.map(() => 1 / n),
        lower: ofSd.map((w) => 1 / n - w),
        upper: ofSd.map((w) => 1 / n + w),
      };
    },
  },
);

export interface HeldShare {
  readonly lower: number;
  readonly upper: number;
  /** Share of any continuous population that the range holds at least, with the stated confidence. */
  readonly share: number;
  readonly n: number;
}

/**
 * Range of the values and the share p of any continuous population that it holds at least, with the stated confidence:
 * 1 - n p^(n-1) + (n - 1) p^n = confidence.
 * @param values at least two finite numbers in any order
 * @param options confidence: default 0.95
 * @throws Undetermined on fewer than two values; RangeError on a confidence outside 0 to 1
 * Source: Wilks, Annals of Mathematical Statistics 12 (1941) 91; ISO 16269-6:2014, 7.
 */
export function heldShareKernel(values: readonly number[], options: { readonly confidence?: number } = {}): HeldShare {
  checkOptions(options, ["confidence"], "heldShare");
  const confidence = options.confidence ?? 0.95;
  checkProbability(confidence, "confidence");
  checkValues(values, 2, "the share held by a range");
  const n = values.length;
  const share = rootBetween((p) => heldConfidence(n, p) - confidence, 0, 1, 1e-15);
  return { lower: Math.min(...values), upper: Math.max(...values), share, n };
}

/** Range of measured values and the share of such values that it holds at least. */
export const heldShare = lift(heldShareKernel, { lower: "same", upper: "same", share: "statistic", n: "count" });
