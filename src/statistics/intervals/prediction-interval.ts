import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { normalCdf, normalDensity, tQuantile } from "../numeric/distributions.js";
import { integral, overSdRatio } from "../numeric/quadrature.js";
import { rootBetween } from "../numeric/search.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface PredictionOptions {
  /** How many further values all lie inside, at least 1; default 1. */
  readonly further?: number;
  /** Probability that they do; default 0.95. */
  readonly level?: number;
  /** Standard deviation of the noise in each value, which the further ones are meant without; default 0. */
  readonly noiseSd?: number;
}

export interface PredictionInterval {
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  /** The factor r of m ± r s. */
  readonly factor: number;
  readonly n: number;
}

/**
 * Interval m ± r s that holds all of m further values of the same normal population with the stated probability.
 * With `noiseSd`, for further true values: the half-width is r s √((s_b² + s²/n)/(s² + s²/n)) with
 * s_b² = max(0, s² - noise²), exact without noise and a good approximation with little.
 * @param values at least two finite numbers in any order; equal values give an interval of no width
 * @param options further: default 1; level: default 0.95; noiseSd: default 0, in the unit of the values
 * @throws Undetermined on fewer than two values; RangeError on options out of range
 * Source: Hahn and Meeker, Statistical Intervals (1991), 4.8 and A.13.
 */
export function predictionIntervalKernel(
  values: readonly number[],
  options: PredictionOptions = {},
): PredictionInterval {
  checkOptions(options, ["further", "level", "noiseSd"], "predictionInterval");
  const { further = 1, level = 0.95, noiseSd = 0 } = options;
  checkValues(values, 2, "a prediction interval");
  if (!(noiseSd >= 0)) throw new RangeError(`noiseSd is ${noiseSd}; it must be at least 0`);
  const n = values.length;
  const mean = meanOf(values);
  const variance = squaredDeviations(values) / (n - 1);
  const factor = predictionFactorKernel(n, { further, level });
  const clean = Math.max(0, variance - noiseSd * noiseSd);
  const shrink = variance === 0 ? 1 : Math.sqrt((clean + variance / n) / (variance + variance / n));
  const half = factor * Math.sqrt(variance) * shrink;
  return { mean, lower: mean - half, upper: mean + half, factor, n };
}

/**
 * Factor r for which m ± r s holds all of k further normal values with the stated probability:
 * ∫∫ [Φ(z + r s) - Φ(z - r s)]^k f(s) ds dΦ(z√n) = level; for one further value r = t_(n-1) √(1 + 1/n).
 * @param n sample size of at least 2
 * @param options further: number of further values, default 1; level: default 0.95
 * @throws RangeError on sizes that are not whole, and on a level outside 0 to 1
 * Source: Hahn, Journal of the American Statistical Association 64 (1969) 878.
 */
export function predictionFactorKernel(
  n: number,
  options: { readonly further?: number; readonly level?: number } = {},
): number {
  const { further = 1, level = 0.95 } = options;
  checkWhole(n, 2, "the sample size");
  checkWhole(further, 1, "further");
  checkProbability(level, "level");
  const single = tQuantile((1 + level) / 2, n - 1) * Math.sqrt(1 + 1 / n);
  if (further === 1) return single;
  const dof = n - 1;
  const root = Math.sqrt(n);
  const reached = (r: number): number =>
    overSdRatio(
      (s) =>
        2 *
        integral(
          (z) => (normalCdf(z + r * s) - normalCdf(z - r * s)) ** further * normalDensity(z * root) * root,
          0,
          7 / root,
          1,
        ),
      dof,
      dof < 8 ? 8 : 4,
    );
  // Bonferroni's factor is never too small.
  const bound = tQuantile(1 - (1 - level) / (2 * further), dof) * Math.sqrt(1 + 1 / n);
  return rootBetween((r) => reached(r) - level, single * 0.999, bound * 1.001, 1e-9);
}

/** Prediction interval for all of some further values, from measured values. */
export const predictionInterval = lift(
  predictionIntervalKernel,
  { mean: "same", lower: "same", upper: "same", factor: "statistic", n: "count" },
  {
    weights: (values, options) => {
      const { mean, factor, n } = predictionIntervalKernel(values, options);
      const variance = squaredDeviations(values) / (n - 1);
      const clean = Math.max(0, variance - (options.noiseSd ?? 0) ** 2);
      const half = factor * Math.sqrt((clean + variance / n) / (1 + 1 / n));
      const slope = half === 0 ? 0 : (factor * factor * (clean > 0 ? 1 : 1 / (n + 1))) / (half * (n - 1));
      const ofHalf = values.map((value) => slope * (value - mean));
      return {
        mean: values.map(() => 1 / n),
        lower: ofHalf.map((w) => 1 / n - w),
        upper: ofHalf.map((w) => 1 / n + w),
      };
    },
  },
);
