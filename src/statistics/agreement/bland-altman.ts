import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs, checkProbability, checkValues } from "../numeric/guards.js";
import { normalQuantile, tQuantile, tTwoSided } from "../numeric/distributions.js";
import { crossDeviations, meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";
import { modifiedLargeSampleKernel } from "../variance/modified-large-sample.js";

export interface AgreementOptions {
  /** Share of the differences that the limits hold; default 0.95 (bias ± 1.96 s). */
  readonly coverage?: number;
  /** Level of the intervals of bias and limits; default 0.95. */
  readonly level?: number;
}

export interface Bounded {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

export interface BlandAltman {
  /** Mean of second less first. */
  readonly bias: Bounded;
  readonly sd: number;
  readonly lowerLimit: Bounded;
  readonly upperLimit: Bounded;
  /** Slope of the difference on the mean of the two, and its p-value; null where the means or differences do not vary. */
  readonly proportional: { readonly slope: number; readonly pValue: number } | null;
  readonly n: number;
}

/**
 * Limits of agreement of two methods: bias = mean of second less first, limits bias ± z s; intervals ± t s/√n for the bias and
 * ± t s √(1/n + z²/(2(n - 1))) for each limit; proportional bias by the slope of the difference on the mean.
 * @param xs first method, at least three finite numbers
 * @param ys second method, paired with them
 * @param options coverage: default 0.95; level: default 0.95
 * @throws Undetermined on fewer than three pairs; RangeError on lengths that differ
 * Source: Bland and Altman, Statistical Methods in Medical Research 8 (1999) 135, 2 and 3.
 */
export function blandAltmanKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: AgreementOptions = {},
): BlandAltman {
  checkOptions(options, ["coverage", "level"], "blandAltman");
  const { coverage = 0.95, level = 0.95 } = options;
  checkProbability(coverage, "coverage");
  checkProbability(level, "level");
  checkPairs(xs, ys, 3, "limits of agreement");
  const n = xs.length;
  const differences = ys.map((y, i) => y - xs[i]!);
  const bias = meanOf(differences);
  const sd = Math.sqrt(squaredDeviations(differences) / (n - 1));
  const z = normalQuantile((1 + coverage) / 2);
  const t = tQuantile((1 + level) / 2, n - 1);
  const ofBias = (t * sd) / Math.sqrt(n);
  const ofLimit = t * sd * Math.sqrt(1 / n + (z * z) / (2 * (n - 1)));
  const bounded = (value: number, half: number): Bounded => ({ value, lower: value - half, upper: value + half });
  return {
    bias: bounded(bias, ofBias),
    sd,
    lowerLimit: bounded(bias - z * sd, ofLimit),
    upperLimit: bounded(bias + z * sd, ofLimit),
    proportional: proportionalBias(
      xs.map((x, i) => (x + ys[i]!) / 2),
      differences,
    ),
    n,
  };
}

function proportionalBias(means: readonly number[], differences: readonly number[]): BlandAltman["proportional"] {
  const xx = squaredDeviations(means);
  const yy = squaredDeviations(differences);
  if (xx === 0 || yy === 0) return null;
  const slope = crossDeviations(means, differences) / xx;
  const rest = Math.max(0, yy - slope * slope * xx);
  const dof = means.length - 2;
  const error = Math.sqrt(rest / dof / xx);
  return { slope, pValue: error === 0 ? 0 : tTwoSided(slope / error, dof) };
}

const bounded = { value: "same", lower: "same", upper: "same" } as const;

/** Limits of agreement of two measured values of each item. */
export const blandAltman = liftPaired(
  blandAltmanKernel,
  {
    bias: bounded,
    sd: "same",
    lowerLimit: bounded,
    upperLimit: bounded,
    proportional: { slope: "ratio", pValue: "statistic" },
    n: "count",
  },
  { name: "limits of agreement" },
);

export interface ReplicateAgreement {
  readonly bias: Bounded;
  /** Sd of the difference of single readings. */
  readonly sd: number;
  readonly lowerLimit: Bounded;
  readonly upperLimit: Bounded;
  readonly withinFirst: number;
  readonly withinSecond: number;
  readonly sdOfMeanDifferences: number;
}

/**
 * Limits of agreement with replicates: variance of a single difference = variance of the differences of means + (1 - mean(1/m))
 * s_w² of each method, m its numbers of replicates; intervals of the limits by combining those of the bias and of that variance.
 * @param first first[subject][replicate], at least three subjects, some with two or more replicates
 * @param second second[subject][replicate] of the same subjects
 * @param options coverage: default 0.95; level: default 0.95
 * @throws Undetermined on too few subjects or no replicates; RangeError on lengths that differ
 * Source: Bland and Altman, Statistical Methods in Medical Research 8 (1999) 135, 5.1 and 5.2; Zou, Statistical
 * Methods in Medical Research 22 (2013) 630 (intervals).
 */
export function replicateAgreementKernel(
  first: readonly (readonly number[])[],
  second: readonly (readonly number[])[],
  options: AgreementOptions = {},
): ReplicateAgreement {
  checkOptions(options, ["coverage", "level"], "replicateAgreement");
  const { coverage = 0.95, level = 0.95 } = options;
  checkProbability(coverage, "coverage");
  checkProbability(level, "level");
  const dofOf = (groups: readonly (readonly number[])[]): number =>
    groups.reduce((total, group) => total + group.length - 1, 0);
  const within = (groups: readonly (readonly number[])[]): number => {
    groups.forEach((group) => checkValues(group, 1, "agreement with replicates"));
    if (dofOf(groups) < 1) throw new Undetermined("agreement with replicates needs two or more in some subject");
    return sumOf(groups.map(squaredDeviations)) / dofOf(groups);
  };
  const missing = (groups: readonly (readonly number[])[]): number =>
    1 - meanOf(groups.map((group) => 1 / group.length));
  const withinFirst = within(first);
  const withinSecond = within(second);
  const firstMeans = first.map(meanOf);
  const secondMeans = second.map(meanOf);
  checkPairs(firstMeans, secondMeans, 3, "agreement with replicates");
  const differences = secondMeans.map((mean, i) => mean - firstMeans[i]!);
  const bias = meanOf(differences);
  const n = differences.length;
  const ofMeans = squaredDeviations(differences) / (n - 1);
  const total = modifiedLargeSampleKernel(
    [
      { coefficient: 1, meanSquare: ofMeans, dof: n - 1 },
      { coefficient: missing(first), meanSquare: withinFirst, dof: dofOf(first) },
      { coefficient: missing(second), meanSquare: withinSecond, dof: dofOf(second) },
    ],
    { level },
  );
  const z = normalQuantile((1 + coverage) / 2);
  const half = tQuantile((1 + level) / 2, n - 1) * Math.sqrt(ofMeans / n);
  const below = Math.hypot(half, z * (total.sd - Math.sqrt(total.lower ?? 0)));
  const above = Math.hypot(half, z * (Math.sqrt(total.upper ?? 0) - total.sd));
  const [low, high] = [bias - z * total.sd, bias + z * total.sd];
  return {
    bias: { value: bias, lower: bias - half, upper: bias + half },
    sd: total.sd,
    lowerLimit: { value: low, lower: low - above, upper: low + below },
    upperLimit: { value: high, lower: high - below, upper: high + above },
    withinFirst,
    withinSecond,
    sdOfMeanDifferences: Math.sqrt(ofMeans),
  };
}

export interface RatioAgreement {
  /** Geometric mean of second over first. */
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
  readonly logBias: number;
  readonly logSd: number;
}

/**
 * Limits of agreement of a ratio: those of the differences of logarithms, taken back by exp.
 * @param xs first method, at least three numbers above 0
 * @param ys second method, paired with them, above 0
 * @param options coverage: default 0.95
 * @throws Undetermined on fewer than three pairs; RangeError on a value that is not above 0
 * Source: Bland and Altman, Statistical Methods in Medical Research 8 (1999) 135, 3.1.
 */
export function ratioAgreementKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly coverage?: number } = {},
): RatioAgreement {
  const bad = [...xs, ...ys].find((value) => !(value > 0));
  if (bad !== undefined) throw new RangeError(`a ratio needs values above 0, got ${bad}`);
  const { bias, sd, lowerLimit, upperLimit } = blandAltmanKernel(xs.map(Math.log), ys.map(Math.log), options);
  return {
    ratio: Math.exp(bias.value),
    lower: Math.exp(lowerLimit.value),
    upper: Math.exp(upperLimit.value),
    logBias: bias.value,
    logSd: sd,
  };
}

/** Limits of agreement of the ratio of two measured values of each item. */
export const ratioAgreement = liftPaired(
  ratioAgreementKernel,
  { ratio: "ratio", lower: "ratio", upper: "ratio", logBias: "ratio", logSd: "ratio" },
  { name: "limits of agreement of a ratio" },
);
