import { evidenceStep } from "../metrology/evidence.js";
import { linear } from "../metrology/derive.js";
import { Absent, isQuantity } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import type { LatencyContext } from "./context.js";
import type { ObservedPress } from "./observed-press.js";
import { compareText, isValid } from "./observed-press.js";
import type { ReaderOffset } from "./reader-offset.js";
import type { TravelTime } from "./travel-time.js";
import { travelTime } from "./travel-time.js";

/** The travel terms of one connection, by pressed key and as the mean over its valid presses. */
export interface ConnectionTravel {
  /** null where the method does not subtract travel. */
  readonly travelOf: (key: string) => Measured<"ms"> | null;
  /** For the page: absent with a reason where travel is not subtracted. */
  readonly mean: Measured<"ms">;
  readonly subtracted: boolean;
  readonly speed: Measured<"mm/s">;
  readonly basis: string;
  readonly warnings: readonly string[];
}

/**
 * Travel time of every key pressed in one connection, and their mean weighted by valid presses, in which what the keys
 * share (speed, tester, zero offset) does not shrink. Not subtracted where the method says so, nor by direct injection,
 * which closes the contact electrically.
 */
export function connectionTravel(
  presses: readonly ObservedPress[],
  offset: ReaderOffset,
  context: LatencyContext,
): ConnectionTravel {
  const { method } = context;
  if (!method.subtractTravel || method.observes === "injection") {
    const reason = method.subtractTravel
      ? "direct injection closes the contact electrically: there is no travel"
      : "the method does not subtract travel time";
    return {
      travelOf: () => null,
      mean: new Absent("ms", reason, method.evidence),
      subtracted: false,
      speed: new Absent("mm/s", reason, method.evidence),
      basis: "",
      warnings: [],
    };
  }
  const keys = [...new Set(presses.map((press) => press.key))].sort(compareText);
  const valid = presses.filter(isValid);
  const byKey = new Map<string, TravelTime>(
    keys.map((key) => {
      const own = valid.filter((press) => press.key === key);
      return [key, travelTime(key, own, offset, context)];
    }),
  );
  const shares = keys
    .map((key) => ({ key, share: valid.filter((press) => press.key === key).length / valid.length }))
    .filter(({ share }) => share > 0);
  return {
    travelOf: (key) => byKey.get(key)?.travel ?? null,
    mean: weightedMean(
      shares.map(({ key, share }) => ({ measured: byKey.get(key)!.travel, share })),
      "mean travel time over the valid presses",
      "ms",
    ),
    subtracted: true,
    speed: weightedMean(
      shares.map(({ key, share }) => ({ measured: byKey.get(key)!.speed, share })),
      "mean plunger speed over the valid presses",
      "mm/s",
    ),
    basis: [...new Set([...byKey.values()].map(({ basis }) => basis))].filter((text) => text !== "").join("; "),
    warnings: [...new Set([...byKey.values()].flatMap(({ warnings }) => warnings))],
  };
}

function weightedMean<S extends string>(
  terms: readonly { readonly measured: Measured<S>; readonly share: number }[],
  operation: string,
  symbol: S,
): Measured<S> {
  const missing = terms.find(({ measured }) => measured.absent)?.measured;
  const inputs = terms.map(({ measured }) => measured.evidence);
  if (missing?.absent) return new Absent(symbol, missing.reason, evidenceStep(operation, inputs));
  const quantities = terms.map(({ measured }) => measured).filter(isQuantity);
  if (quantities.length === 0) return new Absent(symbol, "no valid press", evidenceStep(operation, []));
  if (quantities.length === 1) return quantities[0]!;
  return linear(
    quantities,
    terms.map(({ share }) => share),
    operation,
  );
}
