import { liftSamples } from "../lift/lift-paired.js";
import { checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { harrellDavisWeights } from "../describe/harrell-davis.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { resample, seededRandom } from "../numeric/random.js";
import { ascending } from "../numeric/sums.js";

export interface ShiftOptions {
  /** Probabilities of the quantiles compared; default the nine deciles. */
  readonly probabilities?: readonly number[];
  /** Level of all intervals together (Bonferroni); default 0.95. */
  readonly level?: number;
  /** Seeded resamples, at least 100; default 2000. */
  readonly draws?: number;
  /** Seed; default 1. */
  readonly seed?: number;
}

export interface ShiftPoint {
  readonly probability: number;
  readonly first: number;
  readonly second: number;
  /** Second less first. */
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Shift function: differences of Harrell-Davis quantiles, second less first, with percentile bootstrap intervals that hold
 * together at the stated level (Bonferroni).
 * @param xs first sample, at least five finite numbers
 * @param ys second sample, at least five
 * @param options probabilities: default 0.1 to 0.9; level: default 0.95; draws: default 2000; seed: default 1
 * @throws Undetermined on fewer than five values in either; RangeError on options out of range
 * Source: Doksum 1974; Wilcox, Introduction to Robust Estimation (3rd ed. 2012), 5.1.5.
 */
export function shiftFunctionKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: ShiftOptions = {},
): readonly ShiftPoint[] {
  checkOptions(options, ["probabilities", "level", "draws", "seed"], "shiftFunction");
  const { level = 0.95, draws = 2000, seed = 1 } = options;
  const probabilities = options.probabilities ?? [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
  probabilities.forEach((p) => checkProbability(p, "a probability of the shift function"));
  checkProbability(level, "level");
  checkWhole(draws, 100, "draws");
  checkValues(xs, 5, "a shift function");
  checkValues(ys, 5, "a shift function");
  const ofFirst = probabilities.map((p) => harrellDavisWeights(xs.length, p));
  const ofSecond = probabilities.map((p) => harrellDavisWeights(ys.length, p));
  const at = (values: readonly number[], weights: readonly (readonly number[])[]): readonly number[] => {
    const sorted = ascending(values);
    return weights.map((list) => list.reduce((total, w, i) => total + w * sorted[i]!, 0));
  };
  const first = at(xs, ofFirst);
  const second = at(ys, ofSecond);
  const random = seededRandom(seed);
  const drawn = Array.from({ length: draws }, () => {
    const a = at(resample(xs, random), ofFirst);
    return at(resample(ys, random), ofSecond).map((value, i) => value - a[i]!);
  });
  const tail = (1 - level) / probabilities.length / 2;
  return probabilities.map((probability, i) => {
    const sorted = ascending(drawn.map((list) => list[i]!));
    return {
      probability,
      first: first[i]!,
      second: second[i]!,
      difference: second[i]! - first[i]!,
      lower: quantileOfSorted(sorted, tail, 6),
      upper: quantileOfSorted(sorted, 1 - tail, 6),
    };
  });
}

/** Shift function of measured values of two lists. */
export const shiftFunction = liftSamples(
  shiftFunctionKernel,
  [{ probability: "statistic", first: "same", second: "same", difference: "same", lower: "same", upper: "same" }],
  { name: "shift function" },
);
