import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkValues } from "../numeric/guards.js";
import { meanOf, sumOf } from "../numeric/sums.js";

export interface Moments {
  /** g1 = m3/m2^1.5. */
  readonly skewness: number;
  /** G1: g1 √(n(n - 1))/(n - 2), corrected for the sample's size. */
  readonly skewnessCorrected: number;
  /** g2 = m4/m2² - 3. */
  readonly excessKurtosis: number;
  readonly n: number;
}

/**
 * Skewness g1 = m3/m2^(3/2), its corrected form G1, and excess kurtosis g2 = m4/m2² - 3, with mk = Σ(x - m)^k/n.
 * @param values at least three finite numbers in any order
 * @throws Undetermined on fewer than three values, and where all are equal (0/0)
 * Source: Joanes and Gill, The Statistician 47 (1998) 183.
 */
export function momentsKernel(values: readonly number[], options: object = {}): Moments {
  checkOptions(options, [], "moments");
  checkValues(values, 3, "skewness");
  const n = values.length;
  const centre = meanOf(values);
  const power = (k: number): number => sumOf(values.map((value) => (value - centre) ** k)) / n;
  const m2 = power(2);
  if (m2 === 0) throw new Undetermined("skewness has no meaning where all values are equal");
  const skewness = power(3) / m2 ** 1.5;
  return {
    skewness,
    skewnessCorrected: (skewness * Math.sqrt(n * (n - 1))) / (n - 2),
    excessKurtosis: power(4) / (m2 * m2) - 3,
    n,
  };
}

/** Skewness and kurtosis of measured values. */
export const moments = lift(
  momentsKernel,
  { skewness: "ratio", skewnessCorrected: "ratio", excessKurtosis: "ratio", n: "count" },
  { name: "skewness and kurtosis" },
);
