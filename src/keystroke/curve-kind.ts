import type { Measured } from "../metrology/quantity.js";
import type { KeyReduction } from "./model.js";

/**
 * Kind of key from its curves: tactile where most used cycles show a local peak of the method's prominence before
 * bottom-out, linear where most do not; undecided at an even split, without usable cycles, or where the mean prominence
 * lies within two standard uncertainties of the limit. A click needs more than force and is not told apart.
 * @param hasBump one entry a used cycle with a usable press
 */
export function curveKind(
  hasBump: readonly boolean[],
  prominence: Measured<"cN">,
  limitCn: number,
): KeyReduction["curveKind"] {
  const tactile = hasBump.filter(Boolean).length;
  if (tactile * 2 === hasBump.length) return "undecided";
  if (!prominence.absent && Math.abs(prominence.value - limitCn) < 2 * prominence.u) return "undecided";
  return tactile * 2 > hasBump.length ? "tactile" : "linear";
}

/** What to say where the unit's description and the curve disagree; null where they do not, or the curve cannot tell. */
export function kindMismatch(
  described: "linear" | "tactile" | "clicky" | undefined,
  kind: KeyReduction["curveKind"],
): string | null {
  if (described === undefined || kind === "undecided") return null;
  const expected = described === "linear" ? "linear" : "tactile";
  if (expected === kind) return null;
  const asForce = described === "clicky" ? "clicky (tactile by force)" : described;
  return `the unit is described as ${asForce}, but the force curve is ${kind}`;
}
