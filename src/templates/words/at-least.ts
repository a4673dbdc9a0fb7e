import type { Count, Measured } from "../../metrology/quantity.js";
import type { Verdict } from "../../metrology/verdict.js";
import type { Bound, ThresholdOptions } from "./threshold.js";
import { judge } from "./threshold.js";

/**
 * Whether a number is at least a bound, as a three-valued verdict of the family "criterion" (rule: see `judge`).
 * @param bound a bare number counts in the value's own symbol
 * @throws RangeError where the bound is not finite or has another symbol
 * @example `return atLeast(count(keys), method.minKeys);`
 */
export function atLeast(value: Measured | Count, bound: Bound, options: ThresholdOptions = {}): Verdict {
  return judge(value, bound, 1, options);
}
