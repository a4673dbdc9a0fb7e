import gammaincOf from "@stdlib/math-base-special-gammainc";
import gammaln from "@stdlib/math-base-special-gammaln";

/** ln Γ(x) for x above 0. */
export const lnGamma = (x: number): number => gammaln(x);

/** P(X > x) of the chi-squared distribution, by the upper incomplete gamma function so that small values keep their digits. */
export function chiSquaredUpper(x: number, dof: number): number {
  if (x <= 0) return 1;
  return gammaincOf(x / 2, dof / 2, true, true);
}

/** Density of s = sqrt(chi-squared/dof), the ratio of a sample sd to the true one. */
export function sdRatioDensity(s: number, dof: number): number {
  if (s <= 0) return 0;
  const half = dof / 2;
  return Math.exp(Math.LN2 + half * Math.log(half) - lnGamma(half) + (dof - 1) * Math.log(s) - half * s * s);
}

/** c4: expectation of a sample sd of n normal values, in units of the true sd. */
export function c4(n: number): number {
  return Math.sqrt(2 / (n - 1)) * Math.exp(lnGamma(n / 2) - lnGamma((n - 1) / 2));
}
