import type { Evidence } from "../../metrology/evidence.js";
import { evidenceStep } from "../../metrology/evidence.js";
import type { Measured } from "../../metrology/quantity.js";
import { Count } from "../../metrology/quantity.js";

/**
 * Number of items; with an accessor, number of items whose value is there. The evidence is that of the items, or of the
 * values counted. An empty list counts 0.
 */
export function count<T>(items: readonly T[], accessor?: (item: T, index: number) => Measured): Count {
  if (accessor === undefined) {
    return new Count(items.length, evidenceStep(`count of ${items.length} items`, items.flatMap(evidenceOf)));
  }
  const present = items.map(accessor).filter((measured) => !measured.absent);
  const note =
    present.length === items.length ? undefined : `${items.length - present.length} of ${items.length} are absent`;
  return new Count(
    present.length,
    evidenceStep(
      `count of ${present.length} values`,
      present.map((measured) => measured.evidence),
      note,
    ),
  );
}

function evidenceOf(item: unknown): readonly Evidence[] {
  if (typeof item !== "object" || item === null || !("evidence" in item)) return [];
  const { evidence } = item;
  return typeof evidence === "object" && evidence !== null && "kind" in evidence ? [evidence as Evidence] : [];
}
