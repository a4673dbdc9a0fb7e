import type { KeyCharacteristic, KeyReduction } from "../keystroke/model.js";
import { Count, decideAll, decideConformity, evidenceStep, isQuantity } from "../metrology/index.js";
import type { ConformityVerdict, Measured, Quantity, Verdict } from "../metrology/index.js";

/** A limit as a template holds it; see `LimitView` of the subjects. */
export interface JudgedLimit {
  readonly characteristic: string;
  readonly min?: Quantity;
  readonly max?: Quantity;
  readonly binds: "each_key" | "mean";
  readonly force: "limit" | "typical";
  readonly source: string;
  readonly pressSpeed?: Quantity<"mm/s">;
}

/** One limit held against one unit. */
export interface LimitVerdicts<L extends JudgedLimit> {
  readonly limit: L;
  /** The characteristic that was compared, which for a linear key differs from the one the limit names. */
  readonly compared: KeyCharacteristic;
  /** Each key with its own u; empty where the limit binds the mean. */
  readonly keys: readonly { readonly key: string; readonly measured: Measured; readonly verdict: ConformityVerdict }[];
  /** The unit's verdict; null where the limit is typical and not judged. */
  readonly unit: Verdict | null;
  /** What a reader must know about the comparison, as sentences; empty where nothing. */
  readonly notes: readonly string[];
}

export interface LimitOptions {
  /** N, the number of alphabetic keys. */
  readonly alphabeticKeys: Count;
  /** The unit's mean of a characteristic, for limits that bind it. */
  readonly meanOf: (characteristic: KeyCharacteristic) => Measured;
  /** Press speed of the session, in mm/s; absent where it is not recorded. */
  readonly pressSpeed?: number;
}

/**
 * Holds a limit against every measured key, each by its own uncertainty with a guard band w = U, or against the unit's mean
 * where it binds that; the unit conforms only if all keys do (measurement model, section 3). A limit on the operating force
 * is compared with the actuation force where the keys are linear, since they have no operating peak.
 *
 * @throws RangeError for a characteristic that keys do not have
 */
export function limitVerdicts<L extends JudgedLimit>(
  limit: L,
  keys: readonly KeyReduction[],
  options: LimitOptions,
): LimitVerdicts<L> {
  const linear = limit.characteristic === "operatingForce" && keys.length > 0 && keys.every(isLinear);
  const compared = (linear ? "actuationForce" : limit.characteristic) as KeyCharacteristic;
  const notes: string[] = [];
  if (linear) notes.push("The keys are linear, so the actuation force stands in for the operating force.");
  if (
    limit.pressSpeed !== undefined &&
    options.pressSpeed !== undefined &&
    Math.abs(limit.pressSpeed.value - options.pressSpeed) > 0.02 * limit.pressSpeed.value
  ) {
    notes.push(
      `The limit is stated at ${limit.pressSpeed.value} mm/s, the keys were pressed at ${options.pressSpeed} mm/s.`,
    );
  }
  const bounds = {
    ...(limit.min === undefined ? {} : { min: limit.min }),
    ...(limit.max === undefined ? {} : { max: limit.max }),
  };
  if (limit.force === "typical" || (limit.min === undefined && limit.max === undefined)) {
    return { limit, compared, keys: [], unit: null, notes: [...notes, "A typical value: shown, not judged."] };
  }
  if (limit.binds === "mean") {
    return { limit, compared, keys: [], unit: decideConformity(options.meanOf(compared), bounds), notes };
  }
  const judged = keys.map((key) => {
    const measured: Measured | undefined = key[compared];
    if (measured === undefined) throw new RangeError(`keys have no characteristic "${limit.characteristic}"`);
    return { key: key.key, measured, verdict: decideConformity(measured, bounds) };
  });
  const present = judged.filter(({ measured }) => isQuantity(measured));
  if (judged.length > 0 && present.length === 0) {
    return { limit, compared, keys: judged, unit: judged[0]!.verdict, notes };
  }
  const unit = decideAll(
    judged.map(({ verdict }) => verdict),
    "keys",
    new Count(
      options.alphabeticKeys.count,
      evidenceStep("alphabetic keys of the unit", [options.alphabeticKeys.evidence]),
    ),
  );
  return { limit, compared, keys: judged, unit, notes };
}

function isLinear(key: KeyReduction): boolean {
  return key.curveKind === "linear";
}
