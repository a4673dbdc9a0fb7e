import { wholeDof } from "../metrology/expanded.js";
import { difference, effectiveDof } from "../metrology/index.js";
import type { Quantity } from "../metrology/index.js";
import { tCdf } from "../statistics/numeric/distributions.js";

/** A difference of two quantities and how surely it differs from nothing. */
export interface DifferenceTest<S extends string = string> {
  readonly difference: Quantity<S>;
  /** Two-sided p-value of no difference; 1 where both are exactly equal, 0 where they differ without uncertainty. */
  readonly pValue: number;
}

/**
 * Tests a - b = 0 by d/u(d) with Student's distribution of the effective degrees of freedom; shared sources cancel in u(d).
 * @throws RangeError where the symbols differ
 * Source: JCGM 100:2008, 5.2 and G.4; Welch, Biometrika 34 (1947) 28 for two independent means.
 */
export function testDifference<S extends string>(a: Quantity<S>, b: Quantity<NoInfer<S>>): DifferenceTest<S> {
  const d = difference(a, b);
  return { difference: d, pValue: zeroPValue(d) };
}

/**
 * Two-sided p-value of a quantity being 0, from value/u with its effective degrees of freedom.
 * @returns 1 for 0 without uncertainty, 0 for any other value without uncertainty
 */
export function zeroPValue(quantity: Quantity): number {
  if (quantity.u === 0) return quantity.value === 0 ? 1 : 0;
  return Math.min(1, 2 * tCdf(-Math.abs(quantity.value / quantity.u), wholeDof(effectiveDof(quantity))));
}

/**
 * p-value of two one-sided tests against a margin: the larger of P(T >= (d + margin)/u) and P(T <= (d - margin)/u), small
 * where the difference is surely within the margin.
 * @throws RangeError where the margin is not above 0 or has another symbol
 * Source: Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987) 657.
 */
export function equivalencePValue(d: Quantity, margin: Quantity): number {
  if (margin.symbol !== d.symbol) {
    throw new RangeError(`cannot compare ${d.symbol} with a margin in ${margin.symbol}: convert one of them first`);
  }
  if (!(margin.value > 0)) throw new RangeError(`the margin is ${margin.value}; it must be above 0`);
  if (d.u === 0) return Math.abs(d.value) < margin.value ? 0 : 1;
  const dof = wholeDof(effectiveDof(d));
  return Math.max(tCdf(-(d.value + margin.value) / d.u, dof), tCdf((d.value - margin.value) / d.u, dof));
}
