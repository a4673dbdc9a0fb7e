import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { fQuantile, tQuantile } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { groupsOf, levelsOf, onlyFactor } from "../numeric/layout.js";
import { meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";

export interface MandelOptions {
  /** Level of the indicator lines; default 0.05 (the standard draws 0.01 too). */
  readonly alpha?: number;
}

export interface Mandel {
  /** Each group's deviation of its mean, in sds of the means. */
  readonly h: readonly number[];
  /** Each group's sd, in pooled sds. */
  readonly k: readonly number[];
  readonly hCritical: number;
  /** By group, since groups may differ in size. */
  readonly kCritical: readonly number[];
}

/**
 * Mandel's consistency statistics: h = (group mean - mean of means)/sd of the means, and k = group sd/pooled sd, with indicator
 * lines h = (p - 1) t/√(p(t² + p - 2)) and k = √(p F/(F + p - 1)).
 * @param groups at least three groups of at least two finite numbers (one group a laboratory, unit or day)
 * @param options alpha: default 0.05
 * @throws Undetermined on too few groups or values, and where all means or all groups have no scatter
 * Source: ISO 5725-2:2019, 8.3.3; Mandel 1991.
 */
export function mandelKernel(groups: readonly (readonly number[])[], options: MandelOptions = {}): Mandel {
  checkOptions(options, ["alpha"], "mandel");
  const alpha = options.alpha ?? 0.05;
  checkProbability(alpha, "alpha");
  if (groups.length < 3) throw new Undetermined(`Mandel's h needs at least 3 groups, got ${groups.length}`);
  groups.forEach((group) => checkValues(group, 2, "Mandel's k"));
  const means = groups.map(meanOf);
  const centre = meanOf(means);
  const between = Math.sqrt(squaredDeviations(means) / (means.length - 1));
  const squares = groups.map(squaredDeviations);
  const pooled = Math.sqrt(sumOf(squares) / sumOf(groups.map((group) => group.length - 1)));
  if (between === 0 || pooled === 0) throw new Undetermined("Mandel's statistics have no meaning without scatter");
  const p = groups.length;
  return {
    h: means.map((m) => (m - centre) / between),
    k: groups.map((group, i) => Math.sqrt(squares[i]! / (group.length - 1)) / pooled),
    hCritical: mandelHCritical(p, alpha),
    kCritical: groups.map((group) => mandelKCritical(p, group.length, alpha)),
  };
}

/** Indicator line of |h| for p groups. */
export function mandelHCritical(p: number, alpha: number): number {
  checkWhole(p, 3, "the number of groups");
  const t = -tQuantile(alpha / 2, p - 2);
  return ((p - 1) * t) / Math.sqrt(p * (t * t + p - 2));
}

/** Indicator line of k for p groups of n values. */
export function mandelKCritical(p: number, n: number, alpha: number): number {
  const f = fQuantile(1 - alpha, n - 1, (p - 1) * (n - 1));
  return Math.sqrt((p * f) / (f + p - 1));
}

/** Mandel's h and k of measured values by one factor. */
export const mandel = liftFactors(
  function mandelByFactor(values: readonly number[], factors: Levels, options: MandelOptions = {}) {
    const levels = levelsOf(factors, onlyFactor(factors, "Mandel's h and k"), values.length, "Mandel's h and k");
    const { names, groups } = groupsOf(values, levels);
    const { h, k, hCritical, kCritical } = mandelKernel(groups, options);
    return {
      groups: names.map((name, i) => ({ name, h: h[i]!, k: k[i]!, kCritical: kCritical[i]! })),
      hCritical,
    };
  },
  {
    groups: [{ name: "text", h: "statistic", k: "statistic", kCritical: "statistic" }],
    hCritical: "statistic",
  },
  { name: "Mandel's h and k" },
);
