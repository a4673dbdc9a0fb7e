import { lift } from "../lift/lift.js";
import { checkChoice, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { normalCdf, normalDensity } from "../numeric/distributions.js";
import { integral } from "../numeric/quadrature.js";
import { rootBetween } from "../numeric/search.js";
import { ascending } from "../numeric/sums.js";
import type { OutlierFinding, Side } from "./finding.js";
import { findingShape, placeOf, suspectWeights } from "./finding.js";

export interface DixonOptions {
  /** Which value is suspect: "two-sided" (the end with the larger gap, default), "largest" or "smallest". */
  readonly side?: Side;
  /** Significance level; default 0.05. */
  readonly alpha?: number;
}

/**
 * Dixon's r10 test for one outlier in a small normal sample: the gap to the nearest value over the range, with critical value
 * and p-value by integration. Two-sided p-values are doubled. Where all values are equal the ratio is 0.
 * @param values 3 to 30 finite numbers in any order
 * @param options side: default "two-sided"; alpha: default 0.05
 * @throws Undetermined on fewer than three values; RangeError above 30 (masking: use generalised ESD)
 * Source: Dixon, Annals of Mathematical Statistics 22 (1951) 68, equation for r10.
 */
export function dixonKernel(values: readonly number[], options: DixonOptions = {}): OutlierFinding {
  checkOptions(options, ["side", "alpha"], "dixon");
  const { side = "two-sided", alpha = 0.05 } = options;
  checkChoice(side, ["two-sided", "largest", "smallest"], "side");
  checkProbability(alpha, "alpha");
  checkValues(values, 3, "Dixon's test");
  const n = values.length;
  if (n > 30) throw new RangeError(`Dixon's test takes at most 30 values, got ${n}; use generalised ESD`);
  const { statistic, high } = dixonRatio(values, side);
  const suspect = placeOf(values, high ? "largest" : "smallest");
  const sides = side === "two-sided" ? 2 : 1;
  const critical = dixonCritical(n, alpha / sides);
  return {
    rule: `Dixon's r10 test, ${side}, level ${alpha}`,
    statistic,
    critical,
    pValue: Math.min(1, sides * dixonTail(statistic, n)),
    suspect,
    suspectValue: values[suspect]!,
    isOutlier: statistic > critical,
    n,
  };
}

/** The gap at the suspect end over the range, and which end it is. */
export function dixonRatio(
  values: readonly number[],
  side: Side,
): { readonly statistic: number; readonly high: boolean } {
  const sorted = ascending(values);
  const n = sorted.length;
  const range = sorted[n - 1]! - sorted[0]!;
  const highGap = sorted[n - 1]! - sorted[n - 2]!;
  const lowGap = sorted[1]! - sorted[0]!;
  const high = side === "largest" || (side === "two-sided" && highGap >= lowGap);
  return { statistic: range === 0 ? 0 : (high ? highGap : lowGap) / range, high };
}

/** One-sided critical value of r10. */
export function dixonCritical(n: number, alpha: number): number {
  return rootBetween((r) => dixonTail(r, n) - alpha, 0, 1, 1e-9);
}

/**
 * P(r10 > r) = n(n - 1) ∫∫ φ(x) φ(x + v) [Φ(x + (1 - r) v) - Φ(x)]^(n-2) dv dx: the smallest value at x, the largest at x + v,
 * and all others below x + (1 - r) v.
 */
function dixonTail(r: number, n: number): number {
  if (r <= 0) return 1;
  if (r >= 1) return 0;
  return (
    n *
    (n - 1) *
    integral(
      (v) =>
        integral(
          (x) => normalDensity(x) * normalDensity(x + v) * (normalCdf(x + (1 - r) * v) - normalCdf(x)) ** (n - 2),
          -v / 2 - 6.5,
          -v / 2 + 6.5,
          2,
        ),
      0,
      13,
      2,
    )
  );
}

/** Dixon's r10 test among measured values. */
export const dixon = lift(dixonKernel, findingShape, {
  name: "Dixon's test",
  weights: (values, options) => suspectWeights(values, dixonKernel(values, options)),
});
