import { checkPositive } from "../numeric/guards.js";

/**
 * E_n number of a result against a reference: difference over √(U1² + U2²), the expanded uncertainties; |E_n| ≤ 1 agrees. Only
 * for results without shared sources; otherwise divide the difference by its own U.
 * @param difference result less reference
 * @param expanded1 U of the result, above 0, in the unit of the difference
 * @param expanded2 U of the reference, at least 0
 * @throws RangeError on uncertainties out of range or a difference that is not finite
 * Source: ISO 13528:2015, 9.7.
 */
export function enScoreKernel(difference: number, expanded1: number, expanded2: number): number {
  return scaled(difference, expanded1, expanded2);
}

/**
 * Zeta score of a result against a reference: difference over √(u1² + u2²), the standard uncertainties.
 * @param difference result less reference
 * @param u1 standard uncertainty of the result, above 0, in the unit of the difference
 * @param u2 standard uncertainty of the reference, at least 0
 * @throws RangeError on uncertainties out of range or a difference that is not finite
 * Source: ISO 13528:2015, 9.6.
 */
export function zetaScoreKernel(difference: number, u1: number, u2: number): number {
  return scaled(difference, u1, u2);
}

function scaled(difference: number, u1: number, u2: number): number {
  if (!Number.isFinite(difference)) throw new RangeError(`the difference is ${difference}; it must be finite`);
  checkPositive(u1, "the uncertainty of the result");
  if (!(u2 >= 0)) throw new RangeError(`the uncertainty of the reference is ${u2}; it must be at least 0`);
  return difference / Math.hypot(u1, u2);
}
