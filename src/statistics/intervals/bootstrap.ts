import { lift } from "../lift/lift.js";
import {
  Undetermined,
  checkChoice,
  checkOptions,
  checkProbability,
  checkValues,
  checkWhole,
} from "../numeric/guards.js";
import { normalCdf, normalQuantile } from "../numeric/distributions.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { resample, seededRandom } from "../numeric/random.js";
import { ascending, meanOf, sumOf, varianceOf } from "../numeric/sums.js";

export interface BootstrapOptions {
  /** What is estimated, from at least one value; it must give a finite number for every resample. */
  readonly statistic: (values: readonly number[]) => number;
  /** "bca" (bias-corrected and accelerated, default) or "percentile". */
  readonly method?: "bca" | "percentile";
  /** Confidence level; default 0.95. */
  readonly level?: number;
  /** Number of resamples, at least 100; default 2000. */
  readonly draws?: number;
  /** Seed of the resampling; default 1. */
  readonly seed?: number;
}

export interface BootstrapInterval {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  readonly standardError: number;
  readonly n: number;
}

/**
 * Bootstrap confidence interval of any statistic from seeded resamples: percentile, or bias-corrected and accelerated (BCa)
 * with z0 from the share of resamples below the estimate (ties half) and the acceleration from the jackknife.
 * @param values at least three finite numbers in any order
 * @param options statistic; method: default "bca"; level: default 0.95; draws: default 2000; seed: default 1
 * @throws Undetermined on fewer than three values, and where every resample gives the same value on one side (BCa)
 * Source: Efron and Tibshirani, An Introduction to the Bootstrap (1993), 13.3 and 14.3.
 */
export function bootstrapIntervalKernel(
  values: readonly number[],
  options: BootstrapOptions = { statistic: meanOf },
): BootstrapInterval {
  checkOptions(options, ["statistic", "method", "level", "draws", "seed"], "bootstrapInterval");
  const { statistic, method = "bca", level = 0.95, draws = 2000, seed = 1 } = options;
  checkChoice(method, ["bca", "percentile"], "method");
  checkProbability(level, "level");
  checkWhole(draws, 100, "draws");
  checkValues(values, 3, "a bootstrap interval");
  const estimate = finite(statistic(values));
  const random = seededRandom(seed);
  const sorted = ascending(Array.from({ length: draws }, () => finite(statistic(resample(values, random)))));
  const tails = [(1 - level) / 2, (1 + level) / 2] as const;
  const [low, high] = method === "percentile" ? tails : bcaTails(values, statistic, estimate, sorted, tails);
  return {
    estimate,
    lower: quantileOfSorted(sorted, low, 6),
    upper: quantileOfSorted(sorted, high, 6),
    standardError: Math.sqrt(varianceOf(sorted)),
    n: values.length,
  };
}

function bcaTails(
  values: readonly number[],
  statistic: (values: readonly number[]) => number,
  estimate: number,
  sorted: readonly number[],
  tails: readonly [number, number],
): readonly [number, number] {
  let below = 0;
  for (const value of sorted) below += value < estimate ? 1 : value === estimate ? 0.5 : 0;
  const share = below / sorted.length;
  if (share === 0 || share === 1)
    throw new Undetermined("every resample lies on one side of the estimate; BCa has no interval");
  const bias = normalQuantile(share);
  const acceleration = jackknifeAcceleration(values, statistic);
  const adjusted = (tail: number): number => {
    const z = bias + normalQuantile(tail);
    return normalCdf(bias + z / (1 - acceleration * z));
  };
  return [adjusted(tails[0]), adjusted(tails[1])];
}

/**
 * Acceleration Σd³/(6(Σd²)^1.5) of the jackknife values, d their mean less each; 0 where they are all equal.
 * Source: Efron and Tibshirani 1993, equation 14.15.
 */
export function jackknifeAcceleration(
  values: readonly number[],
  statistic: (values: readonly number[]) => number,
): number {
  const left = values.map((_, i) => finite(statistic(values.filter((_, j) => j !== i))));
  const centre = meanOf(left);
  const d = left.map((value) => centre - value);
  const squares = sumOf(d.map((v) => v * v));
  return squares === 0 ? 0 : sumOf(d.map((v) => v ** 3)) / (6 * squares ** 1.5);
}

function finite(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`the statistic gave ${value} for a resample; it must be finite`);
  return value;
}

/** Bootstrap interval of a statistic of measured values, in their unit of measure. */
export const bootstrapInterval = lift(bootstrapIntervalKernel, {
  estimate: "same",
  lower: "same",
  upper: "same",
  standardError: "same",
  n: "count",
});
