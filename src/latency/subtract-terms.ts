import { evidenceStep } from "../metrology/evidence.js";
import { linear } from "../metrology/derive.js";
import { Absent, isQuantity } from "../metrology/quantity.js";
import type { Measured, Quantity } from "../metrology/quantity.js";

/** Terms that the method subtracts; null where it does not. */
export interface SubtractedTerms {
  readonly system: Measured<"ms"> | null;
  readonly travel: Measured<"ms"> | null;
}

/**
 * Observed time minus system latency minus travel time, with all components of all three: shared ones cancel. Never
 * clipped at 0. Absent where one of the terms that the method subtracts is absent, with that reason: a number from which
 * something is silently not subtracted is another measurand.
 *
 * @param operation for the evidence: "latency: observed time minus ..."
 */
export function subtractTerms(observed: Measured<"ms">, terms: SubtractedTerms, operation: string): Measured<"ms"> {
  const all = [observed, ...[terms.system, terms.travel].filter((term) => term !== null)];
  const missing = all.find((term) => term.absent);
  if (missing?.absent) {
    return new Absent(
      "ms",
      missing.reason,
      evidenceStep(
        operation,
        all.map((term) => term.evidence),
      ),
    );
  }
  const quantities: readonly Quantity<"ms">[] = all.filter(isQuantity);
  return linear(
    quantities,
    quantities.map((_, i) => (i === 0 ? 1 : -1)),
    operation,
  );
}
