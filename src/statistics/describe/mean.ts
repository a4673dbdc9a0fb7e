import { lift } from "../lift/lift.js";
import { checkOptions, checkValues } from "../numeric/guards.js";
import { meanOf, varianceOf } from "../numeric/sums.js";

/**
 * Arithmetic mean: Σx/n.
 * @param values at least one finite number in any order
 * @throws Undetermined on no values; RangeError on a value that is not finite
 * Source: JCGM 100:2008, 4.2.1.
 */
export function meanKernel(values: readonly number[], options: object = {}): number {
  checkOptions(options, [], "mean");
  checkValues(values, 1, "mean");
  return meanOf(values);
}

/** Mean of measured values; with `sampling` it carries s/√n with n - 1 degrees of freedom. */
export const mean = lift(meanKernel, "same", {
  weights: (values) => ({ "": values.map(() => 1 / values.length) }),
  sampling: (values) => {
    checkValues(values, 2, "sampling error of a mean");
    return { "": { u: Math.sqrt(varianceOf(values) / values.length), dof: values.length - 1 } };
  },
});
