import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { fQuantile, fUpper } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { groupsOf, levelsOf, onlyFactor } from "../numeric/layout.js";
import { sumOf, varianceOf } from "../numeric/sums.js";

export interface CochranOptions {
  /** Number of values behind each variance, at least 2. */
  readonly replicates: number;
  /** Significance level; default 0.05. */
  readonly alpha?: number;
}

export interface CochranFinding {
  readonly rule: string;
  readonly statistic: number;
  readonly critical: number;
  readonly pValue: number;
  readonly suspect: number;
  readonly isOutlier: boolean;
}

/**
 * Cochran's test of the largest of p variances with n values each: C = max s²/Σ s²; critical value F/(F + p - 1) with F the
 * upper α/p point at n - 1 and (p - 1)(n - 1) degrees of freedom.
 * @param variances at least two numbers of at least 0, in the square of the unit
 * @param options replicates: values behind each variance; alpha: default 0.05
 * @throws Undetermined where all variances are 0; RangeError on a negative variance and on options out of range
 * Source: ISO 5725-2:2019, 8.3.4; Cochran, Annals of Eugenics 11 (1941) 47.
 */
export function cochranKernel(variances: readonly number[], options: CochranOptions): CochranFinding {
  checkOptions(options, ["replicates", "alpha"], "cochran");
  const { replicates, alpha = 0.05 } = options;
  checkWhole(replicates, 2, "replicates");
  checkProbability(alpha, "alpha");
  checkValues(variances, 2, "Cochran's test");
  if (variances.some((v) => v < 0)) throw new RangeError("a variance below 0 cannot be tested");
  const total = sumOf(variances);
  if (total === 0) throw new Undetermined("Cochran's test has no meaning where all variances are 0");
  const p = variances.length;
  const suspect = variances.indexOf(Math.max(...variances));
  const statistic = variances[suspect]! / total;
  const f = fQuantile(1 - alpha / p, replicates - 1, (p - 1) * (replicates - 1));
  const critical = f / (f + p - 1);
  const own = statistic === 1 ? Infinity : (statistic * (p - 1)) / (1 - statistic);
  return {
    rule: `Cochran's test of ${p} variances of ${replicates} values, level ${alpha}`,
    statistic,
    critical,
    pValue: Math.min(1, p * fUpper(own, replicates - 1, (p - 1) * (replicates - 1))),
    suspect,
    isOutlier: statistic > critical,
  };
}

/** Cochran's test of the variances of measured values within the levels of one factor, which must be of one size. */
export const cochran = liftFactors(
  function cochranByFactor(values: readonly number[], factors: Levels, options: { readonly alpha?: number } = {}) {
    const levels = levelsOf(factors, onlyFactor(factors, "Cochran's test"), values.length, "Cochran's test");
    const { names, groups } = groupsOf(values, levels);
    const size = groups[0]!.length;
    if (size < 2 || groups.some((group) => group.length !== size)) {
      throw new Undetermined("Cochran's test needs groups of one size, of at least 2 values");
    }
    const finding = cochranKernel(groups.map(varianceOf), { ...options, replicates: size });
    return { ...finding, suspect: names[finding.suspect]! };
  },
  {
    rule: "text",
    statistic: "statistic",
    critical: "statistic",
    pValue: "statistic",
    suspect: "text",
    isOutlier: "flag",
  },
  { name: "Cochran's test" },
);
