import tCdf from "@stdlib/stats-base-dists-t-cdf";
import { mean } from "d3-array";
import { standardDeviation } from "./kept-mean.js";

/**
 * Welch's test of equal means of two samples of unequal variance, two-sided.
 *
 * @param a two or more values; @param b likewise; order and ties do not matter
 * @returns difference mean(b) - mean(a), its standard error, t, Welch-Satterthwaite dof, p. Where neither sample
 * scatters: t null, p 1 for equal means and 0 for different ones, dof the sum less two.
 * @source B. L. Welch, Biometrika 34 (1947) 28; NIST/SEMATECH e-Handbook 1.3.5.3
 */
export function welchTest(
  a: readonly number[],
  b: readonly number[],
): {
  readonly difference: number;
  readonly standardError: number;
  readonly t: number | null;
  readonly dof: number;
  readonly pValue: number;
} {
  const squareA = standardDeviation(a) ** 2 / a.length;
  const squareB = standardDeviation(b) ** 2 / b.length;
  const difference = mean(b)! - mean(a)!;
  const standardError = Math.sqrt(squareA + squareB);
  if (standardError === 0) {
    const dof = a.length + b.length - 2;
    return { difference, standardError, t: null, dof, pValue: difference === 0 ? 1 : 0 };
  }
  const t = difference / standardError;
  const dof = (squareA + squareB) ** 2 / (squareA ** 2 / (a.length - 1) + squareB ** 2 / (b.length - 1));
  return { difference, standardError, t, dof, pValue: 2 * tCdf(-Math.abs(t), dof) };
}
