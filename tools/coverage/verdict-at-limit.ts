import type { KeyCharacteristic, KeystrokeReduction } from "../../src/keystroke/index.js";
import { Quantity, decideAll, decideConformity } from "../../src/metrology/index.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import type { SimulatedUnit } from "../simulation/simulate-unit.js";

/** Characteristics that data sheets limit. */
export const verdictCharacteristics = ["actuationForce", "operatingForce", "preTravel", "totalTravel"] as const;

/** What was said of a unit whose upper limit lies exactly at the true value of its highest measured key. */
export interface VerdictAtLimit {
  readonly characteristic: KeyCharacteristic;
  readonly outcome: "yes" | "no" | "undecided";
}

/**
 * The verdict on a unit at the worst place for the limit: a hair lower and the unit does not conform, a hair higher and it
 * does, so that both "conforms" and "does not conform" would be wrong calls. None where a measured key has no truth.
 */
export function verdictAtLimit(
  characteristic: KeyCharacteristic,
  { keystroke, truth }: SimulatedUnit,
  reduction: KeystrokeReduction,
): readonly VerdictAtLimit[] {
  const truths = keystroke.method.keys.map((key) => truth.keys.get(key)!.values[characteristic]);
  const known = truths.filter((value) => value !== null);
  if (known.length < truths.length) return [];
  const verdicts = reduction.keys.map((key) => {
    const { symbol } = key[characteristic];
    const max = new Quantity(Math.max(...known), symbol, [], evidenceStep("limit", []));
    return decideConformity(key[characteristic], { max });
  });
  return [{ characteristic, outcome: decideAll(verdicts, "keys").outcome }];
}
