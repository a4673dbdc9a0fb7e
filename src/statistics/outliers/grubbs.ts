import { lift } from "../lift/lift.js";
import { checkChoice, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { tCdf, tQuantile } from "../numeric/distributions.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";
import type { OutlierFinding, Side } from "./finding.js";
import { findingShape, placeOf, suspectWeights } from "./finding.js";

export interface GrubbsOptions {
  /** Which value is suspect: "two-sided" (the one furthest from the mean, default), "largest" or "smallest". */
  readonly side?: Side;
  /** Significance level; default 0.05. */
  readonly alpha?: number;
}

/**
 * Grubbs' test for one outlier in normal values: G = |x - m|/s, critical value (n - 1)/√n √(t²/(n - 2 + t²)) with t at α/n
 * (one-sided) or α/(2n). Where all values are equal G is 0 and nothing is an outlier.
 * @param values at least three finite numbers in any order; of equal extremes the first is suspect
 * @param options side: default "two-sided"; alpha: default 0.05
 * @throws Undetermined on fewer than three values; RangeError on options out of range
 * Source: Grubbs and Beck, Technometrics 14 (1972) 847; NIST/SEMATECH e-Handbook, 1.3.5.17.1.
 */
export function grubbsKernel(values: readonly number[], options: GrubbsOptions = {}): OutlierFinding {
  checkOptions(options, ["side", "alpha"], "grubbs");
  const { side = "two-sided", alpha = 0.05 } = options;
  checkChoice(side, ["two-sided", "largest", "smallest"], "side");
  checkProbability(alpha, "alpha");
  checkValues(values, 3, "Grubbs' test");
  const n = values.length;
  const centre = meanOf(values);
  const sd = Math.sqrt(squaredDeviations(values) / (n - 1));
  const high = placeOf(values, "largest");
  const low = placeOf(values, "smallest");
  const suspect =
    side === "largest" || (side === "two-sided" && values[high]! - centre >= centre - values[low]!) ? high : low;
  const distance =
    side === "two-sided"
      ? Math.abs(values[suspect]! - centre)
      : (values[suspect]! - centre) * (side === "largest" ? 1 : -1);
  const statistic = sd === 0 ? 0 : distance / sd;
  const sides = side === "two-sided" ? 2 : 1;
  const critical = grubbsCritical(n, alpha / sides);
  return {
    rule: `Grubbs' test for one outlier, ${side}, level ${alpha}`,
    statistic,
    critical,
    pValue: Math.min(1, sides * grubbsTail(statistic, n)),
    suspect,
    suspectValue: values[suspect]!,
    isOutlier: statistic > critical,
    n,
  };
}

/** One-sided critical value of Grubbs' statistic at level alpha. */
export function grubbsCritical(n: number, alpha: number): number {
  const t = -tQuantile(alpha / n, n - 2);
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
}

/** n P(one given value lies as far out), which bounds the one-sided p-value from above and equals it where small. */
function grubbsTail(g: number, n: number): number {
  const rest = (n - 1) ** 2 / n - g * g;
  if (rest <= 0) return 0;
  return n * tCdf(-g * Math.sqrt((n - 2) / rest), n - 2);
}

/** Grubbs' test for one outlier among measured values. */
export const grubbs = lift(grubbsKernel, findingShape, {
  name: "Grubbs' test",
  weights: (values, options) => suspectWeights(values, grubbsKernel(values, options)),
});
