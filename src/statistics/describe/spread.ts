import { lift } from "../lift/lift.js";
import { checkOptions, checkValues } from "../numeric/guards.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface Spread {
  readonly mean: number;
  /** Standard deviation with divisor n - 1. */
  readonly sd: number;
  readonly n: number;
}

/**
 * Mean, standard deviation with divisor n - 1, and number of values: s² = Σ(x - m)²/(n - 1).
 * @param values at least two finite numbers in any order; equal values give sd 0
 * @throws Undetermined on fewer than two values; RangeError on a value that is not finite
 * Source: JCGM 100:2008, 4.2.1 and 4.2.2; Chan, Golub and LeVeque 1983 (algorithm).
 */
export function spreadKernel(values: readonly number[], options: object = {}): Spread {
  checkOptions(options, [], "spread");
  checkValues(values, 2, "spread");
  return { mean: meanOf(values), sd: Math.sqrt(squaredDeviations(values) / (values.length - 1)), n: values.length };
}

/**
 * Mean, standard deviation and number of measured values. With `sampling`, the mean carries s/√n and the sd s/√(2(n - 1)),
 * both with n - 1 degrees of freedom.
 */
export const spread = lift(
  spreadKernel,
  { mean: "same", sd: "same", n: "count" },
  {
    name: "mean and standard deviation",
    weights: (values) => {
      const { mean, sd, n } = spreadKernel(values);
      return {
        mean: values.map(() => 1 / n),
        sd: values.map((value) => (sd === 0 ? 0 : (value - mean) / ((n - 1) * sd))),
      };
    },
    sampling: (values) => {
      const { sd, n } = spreadKernel(values);
      return { mean: { u: sd / Math.sqrt(n), dof: n - 1 }, sd: { u: sd / Math.sqrt(2 * (n - 1)), dof: n - 1 } };
    },
  },
);
