import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";

/** A quantity with the name under which it enters the schedule of results. */
export interface Result {
  readonly kind: "result";
  readonly label: string;
  readonly value: Measured | Count;
  readonly verdict?: Verdict;
}
