import type { SamplingError } from "../lift/carry.js";
import { liftPaired, liftSamples } from "../lift/lift-paired.js";
import {
  Undetermined,
  checkOptions,
  checkPairs,
  checkPositive,
  checkProbability,
  checkValues,
} from "../numeric/guards.js";
import { tCdf, tQuantile, tTwoSided } from "../numeric/distributions.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface TTest {
  /** Second less first. */
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
  readonly standardError: number;
  readonly t: number;
  readonly dof: number;
  /** Two-sided. */
  readonly pValue: number;
}

function tTest(difference: number, standardError: number, dof: number, level: number): TTest {
  if (standardError === 0) throw new Undetermined("a t test needs scatter; these differences have none");
  const t = difference / standardError;
  const half = tQuantile((1 + level) / 2, dof) * standardError;
  return {
    difference,
    lower: difference - half,
    upper: difference + half,
    standardError,
    t,
    dof,
    pValue: tTwoSided(t, dof),
  };
}

/**
 * Paired t test of second less first: t = mean difference/(s_d/√n) with n - 1 degrees of freedom, and its interval.
 * @param xs first values, at least two finite numbers
 * @param ys second values, paired with them
 * @param options level: default 0.95
 * @throws Undetermined on fewer than two pairs, and where the differences have no scatter
 * Source: Student, Biometrika 6 (1908) 1; NIST/SEMATECH e-Handbook, 7.3.1.1.
 */
export function pairedTKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly level?: number } = {},
): TTest {
  checkOptions(options, ["level"], "pairedT");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkPairs(xs, ys, 2, "a paired t test");
  const differences = ys.map((y, i) => y - xs[i]!);
  const n = differences.length;
  return tTest(meanOf(differences), Math.sqrt(squaredDeviations(differences) / (n - 1) / n), n - 1, level);
}

export interface TwoSampleOptions {
  /** Level of the interval; default 0.95. */
  readonly level?: number;
  /** Whether the two variances are taken as equal; default false (Welch). */
  readonly equalVariances?: boolean;
}

/**
 * Two-sample t test of the mean of the second less that of the first: Welch's with Satterthwaite's degrees of freedom (default),
 * or pooled.
 * @param xs first sample, at least two finite numbers
 * @param ys second sample, at least two
 * @param options level: default 0.95; equalVariances: default false
 * @throws Undetermined on fewer than two values in either, and where neither has scatter
 * Source: Welch, Biometrika 34 (1947) 28; NIST/SEMATECH e-Handbook, 1.3.5.3.
 */
export function twoSampleTKernel(xs: readonly number[], ys: readonly number[], options: TwoSampleOptions = {}): TTest {
  checkOptions(options, ["level", "equalVariances"], "twoSampleT");
  const { level = 0.95, equalVariances = false } = options;
  checkProbability(level, "level");
  checkValues(xs, 2, "a two-sample t test");
  checkValues(ys, 2, "a two-sample t test");
  const [n, m] = [xs.length, ys.length];
  const sx = squaredDeviations(xs);
  const sy = squaredDeviations(ys);
  const difference = meanOf(ys) - meanOf(xs);
  if (equalVariances) {
    const pooled = (sx + sy) / (n + m - 2);
    return tTest(difference, Math.sqrt(pooled * (1 / n + 1 / m)), n + m - 2, level);
  }
  const a = sx / (n - 1) / n;
  const b = sy / (m - 1) / m;
  return tTest(difference, Math.sqrt(a + b), (a + b) ** 2 / (a ** 2 / (n - 1) + b ** 2 / (m - 1)), level);
}

const shape = {
  difference: "same",
  lower: "same",
  upper: "same",
  standardError: "same",
  t: "statistic",
  dof: "statistic",
  pValue: "statistic",
} as const;

const sampling = ({ standardError, dof }: TTest): Readonly<Record<string, SamplingError>> => ({
  difference: { u: standardError, dof },
});

/**
 * Paired t test of two measured values of each item. With `sampling`, the difference carries its standard error with the
 * test's degrees of freedom; without, its ± is that of the values themselves, and `lower` and `upper` bound it.
 */
export const pairedT = liftPaired(pairedTKernel, shape, { name: "paired t test", sampling });
/** Two-sample t test of measured values of two lists, second less first; `sampling` as for `pairedT`. */
export const twoSampleT = liftSamples(twoSampleTKernel, shape, { name: "two-sample t test", sampling });

export interface EquivalenceOptions {
  /** Smallest change that matters, above 0, in the unit of the difference. */
  readonly margin: number;
  /** Level of each one-sided test; default 0.05. */
  readonly alpha?: number;
}

export interface Equivalence {
  readonly difference: number;
  /** Interval of level 1 - 2 alpha, which lies inside the margins where the two are equivalent. */
  readonly lower: number;
  readonly upper: number;
  /** One-sided p-values of "not below -margin" and "not above margin", and the larger of them. */
  readonly pLower: number;
  readonly pUpper: number;
  readonly pValue: number;
  readonly equivalent: boolean;
}

/**
 * Two one-sided tests of equivalence from a difference, its standard uncertainty and degrees of freedom: equivalent where both
 * (d + margin)/u and (margin - d)/u exceed t at 1 - alpha.
 * @param difference finite, in the unit of the margin
 * @param u its standard uncertainty, above 0
 * @param dof degrees of freedom above 0; Infinity for a known u
 * @param options margin above 0; alpha: default 0.05
 * @throws RangeError on arguments out of range
 * Source: Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987) 657.
 */
export function equivalenceOfKernel(
  difference: number,
  u: number,
  dof: number,
  options: EquivalenceOptions,
): Equivalence {
  checkOptions(options, ["margin", "alpha"], "equivalence");
  const { margin, alpha = 0.05 } = options;
  checkPositive(margin, "margin");
  checkProbability(alpha, "alpha");
  checkPositive(u, "the standard uncertainty of the difference");
  if (!Number.isFinite(difference)) throw new RangeError(`the difference is ${difference}; it must be finite`);
  if (!(dof > 0)) throw new RangeError(`the degrees of freedom are ${dof}; they must be above 0`);
  const pLower = tCdf(-(difference + margin) / u, dof);
  const pUpper = tCdf(-(margin - difference) / u, dof);
  const half = tQuantile(1 - alpha, dof) * u;
  const pValue = Math.max(pLower, pUpper);
  return {
    difference,
    lower: difference - half,
    upper: difference + half,
    pLower,
    pUpper,
    pValue,
    equivalent: pValue <= alpha,
  };
}

/**
 * Two one-sided tests of the equivalence of paired values, second less first, against a margin.
 * @param xs first values, at least two finite numbers
 * @param ys second values, paired with them
 * @param options margin above 0, in the unit of the values; alpha: default 0.05
 * @throws Undetermined on fewer than two pairs, and where the differences have no scatter; RangeError on options out of range
 * Source: Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987) 657; Lakens 2017.
 */
export function equivalenceKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: EquivalenceOptions = { margin: NaN },
): Equivalence {
  const { difference, standardError, dof } = pairedTKernel(xs, ys);
  return equivalenceOfKernel(difference, standardError, dof, options);
}

/** Equivalence of two measured values of each item. */
export const equivalence = liftPaired(
  equivalenceKernel,
  {
    difference: "same",
    lower: "same",
    upper: "same",
    pLower: "statistic",
    pUpper: "statistic",
    pValue: "statistic",
    equivalent: "flag",
  },
  { name: "two one-sided tests" },
);
