import type { Count, Measured } from "../../metrology/quantity.js";
import type { Verdict } from "../../metrology/verdict.js";
import type { Result } from "../outcome.js";

/**
 * Enters a quantity into the schedule of results under a name. Printed in the text as the quantity alone.
 *
 * @param label name in the schedule, such as "Actuation force, mean of the unit"; not empty
 * @param verdict statement that stands beside it there
 * @throws RangeError on an empty label
 * @example `[= result("Actuation force", actuation.mean) =]`
 */
export function result(label: string, value: Measured | Count, verdict?: Verdict): Result {
  if (label.trim() === "") throw new RangeError("a result needs a label, by which the schedule of results names it");
  return verdict === undefined ? { kind: "result", label, value } : { kind: "result", label, value, verdict };
}
