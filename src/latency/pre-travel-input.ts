import { evidenceStep } from "../metrology/evidence.js";
import { linear } from "../metrology/derive.js";
import { Absent, Quantity, isQuantity } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import { boundedSource, observedSource } from "../metrology/source.js";
import type { Limit } from "../records/archive.js";
import type { PreTravelInput } from "./context.js";
import { standardDeviation } from "./kept-mean.js";

/**
 * Chooses the pre-travel for the travel term of one pressed key (measurement model, section 4): its own where it was
 * measured; else the mean of the unit's other keys, for which the key-to-key sd counts as s sqrt(1 + 1/n), n - 1 degrees
 * of freedom; else the data sheet's nominal value or the middle of its limits, rectangular between them.
 *
 * In the mean of other keys, sources that all keys share (the tester's span) stay; each key's own are already in s.
 *
 * @param key the pressed key
 * @param measured pre-travel by key code, as the keystroke reduction gives it; absent ones count as not measured
 * @param options.unit for ids of sources; `dataSheet` the unit's limit of pre-travel in mm
 * @returns an absent pre-travel where there is nothing to use: fewer than two other keys and no limits on both sides
 */
export function choosePreTravel(
  key: string,
  measured: Readonly<Record<string, Measured<"mm">>>,
  options: { readonly unit: string; readonly dataSheet?: Limit | undefined },
): PreTravelInput {
  const own = measured[key];
  if (own !== undefined && isQuantity(own)) return { preTravel: own, of: "pressed_key" };
  const others = Object.entries(measured).flatMap(([other, value]) =>
    other !== key && isQuantity(value) ? [value] : [],
  );
  if (others.length >= 2) return { preTravel: meanOfOthers(others, key, options.unit), of: "mean_of_other_keys" };
  return { preTravel: fromDataSheet(key, options.unit, options.dataSheet), of: "data_sheet" };
}

function meanOfOthers(others: readonly Quantity<"mm">[], key: string, unit: string): Quantity<"mm"> {
  const n = others.length;
  const mean = linear(
    others,
    others.map(() => 1 / n),
    `mean pre-travel of ${n} other keys, for ${key}`,
  );
  const shared = mean.components.filter(({ source }) =>
    others.every((other) => other.components.some((component) => component.source.id === source.id)),
  );
  const s = standardDeviation(others.map((other) => other.value));
  const source = observedSource(
    `unit/${unit}/pre-travel-of-other-keys/${key}`,
    "Pre-travel of the pressed key against the mean of the others",
    s * Math.sqrt(1 + 1 / n),
    "mm",
    n - 1,
  );
  return new Quantity(mean.value, "mm", [...shared, { source, contribution: source.u }], mean.evidence);
}

function fromDataSheet(key: string, unit: string, limit: Limit | undefined): Measured<"mm"> {
  const low = limit?.min?.value;
  const high = limit?.max?.value;
  if (limit === undefined || low === undefined || high === undefined || !(high > low)) {
    return new Absent(
      "mm",
      `the pre-travel of ${key} was not measured, nor that of two other keys, and no data sheet bounds it on both sides`,
    );
  }
  const value = limit.nominal?.value ?? (low + high) / 2;
  const halfWidth = Math.max(high - value, value - low);
  const source = boundedSource(`unit/${unit}/pre-travel-data-sheet`, "Pre-travel by the data sheet", halfWidth, "mm");
  return new Quantity(
    value,
    "mm",
    [{ source, contribution: source.u }],
    evidenceStep(`pre-travel of ${key} by ${limit.source}`, [limit.evidence]),
  );
}
