import { liftTrend } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs, checkProbability } from "../numeric/guards.js";
import { tQuantile, tTwoSided } from "../numeric/distributions.js";
import { leastSquares } from "../numeric/least-squares.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface Drift {
  readonly slope: number;
  readonly slopeError: number;
  readonly lower: number;
  readonly upper: number;
  readonly intercept: number;
  readonly interceptError: number;
  readonly residualSd: number;
  readonly rSquared: number | null;
  /** Two-sided, of no drift; null where the points lie on the line. */
  readonly pValue: number | null;
  readonly n: number;
}

/**
 * Drift by ordinary least squares: slope and intercept of y = a + bx with standard errors, the slope's t_(n-2) interval and the
 * p-value of no slope.
 * @param xs abscissae such as days, at least three finite numbers, not all equal
 * @param ys values, paired with them
 * @param options level: default 0.95
 * @throws Undetermined on fewer than three pairs, and where all abscissae are equal
 * Source: NIST/SEMATECH e-Handbook, 4.1.4.1; NIST StRD linear regression (certified values).
 */
export function driftKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly level?: number } = {},
): Drift {
  checkOptions(options, ["level"], "drift");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkPairs(xs, ys, 3, "a drift");
  const n = xs.length;
  if (squaredDeviations(xs) === 0) throw new Undetermined("a drift needs abscissae that differ");
  const fit = leastSquares([xs.map(() => 1), xs], ys);
  const slope = fit.coefficients[1]!;
  const slopeError = fit.standardErrors[1]!;
  const total = squaredDeviations(ys.map((y) => y - meanOf(ys)));
  const half = tQuantile((1 + level) / 2, fit.dof) * slopeError;
  return {
    slope,
    slopeError,
    lower: slope - half,
    upper: slope + half,
    intercept: fit.coefficients[0]!,
    interceptError: fit.standardErrors[0]!,
    residualSd: fit.residualSd,
    rSquared: total === 0 ? null : 1 - fit.residualSumOfSquares / total,
    pValue: slopeError === 0 ? null : tTwoSided(slope / slopeError, fit.dof),
    n,
  };
}

/** Drift of measured values over measured abscissae. */
export const drift = liftTrend(driftKernel, {
  slope: "slope",
  slopeError: "slope",
  lower: "slope",
  upper: "slope",
  intercept: "same",
  interceptError: "same",
  residualSd: "same",
  rSquared: "ratio",
  pValue: "statistic",
  n: "count",
});
