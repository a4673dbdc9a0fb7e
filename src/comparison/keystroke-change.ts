import { characteristicSymbols, unitMean } from "../keystroke/index.js";
import type { KeyCharacteristic, KeystrokeReduction } from "../keystroke/model.js";
import { Absent, Quantity, evidenceStep, isQuantity, linear } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import type { ChangeInputs } from "./change-steps.js";

/** The reductions of one unit under two keystroke methods; null where there is no such session. */
export interface KeystrokeSides {
  /** Old session, as it was published. */
  readonly before: KeystrokeReduction | null;
  /** Old session's rows and keys, reduced as the new method says. */
  readonly beforeAnew: KeystrokeReduction | null;
  /** New session. */
  readonly after: KeystrokeReduction | null;
  /** N, the number of alphabetic keys of the unit. */
  readonly alphabeticKeys: number;
}

interface KeyValue {
  readonly key: string;
  readonly value: Quantity;
}

/**
 * The values from an old to a new keystroke result of one unit, for `changeSteps`.
 *
 * - `published`: the unit's mean under the old method; where that measured a single key, the key's own value, which stood for
 *   the unit and whose uncertainty says nothing of the other keys.
 * - `reducedAnew`, `sameKeysAgain`: the mean of the old method's keys, of these keys only, in the old and in the new session.
 * - `publishedAnew`: the unit's mean under the new method, for all N keys. It keeps the sources of each measured key, so that
 *   the step from the old keys to all of them has the covariance of a key with the mean that it is part of.
 *
 * @param characteristic of a key, such as "actuationForce"
 * @returns absences with their reasons where a session, a key or the characteristic is missing
 * @throws RangeError where N is below the number of measured keys
 */
export function keystrokeChange(sides: KeystrokeSides, characteristic: KeyCharacteristic): ChangeInputs {
  const { before, beforeAnew, after, alphabeticKeys } = sides;
  const options = { characteristic, alphabeticKeys };
  const old = before === null ? [] : valuesOf(before, characteristic);
  const anew = beforeAnew === null ? [] : valuesOf(beforeAnew, characteristic);
  const now = after === null ? [] : valuesOf(after, characteristic);
  const names = new Set(anew.map(({ key }) => key));
  const again = now.filter(({ key }) => names.has(key));
  const lost = [...names].filter((name) => !again.some(({ key }) => key === name));
  const symbol = characteristicSymbols[characteristic];
  return {
    published: before === null ? new Absent(symbol, "not measured by the old method") : unitValue(before, old, options),
    reducedAnew:
      beforeAnew === null
        ? new Absent(symbol, "the old rows are not reduced by the new method")
        : theseKeys(beforeAnew, anew, characteristic),
    sameKeysAgain:
      after === null
        ? new Absent(symbol, "not measured by the new method")
        : lost.length > 0
          ? new Absent(symbol, `the new session has no value of ${lost.join(", ")}`)
          : theseKeys(after, again, characteristic),
    publishedAnew:
      after === null ? new Absent(symbol, "not measured by the new method") : unitValue(after, now, options),
  };
}

function valuesOf(reduction: KeystrokeReduction, name: KeyCharacteristic): readonly KeyValue[] {
  return reduction.keys.flatMap((key) => {
    const value: Measured = key[name];
    return isQuantity(value) ? [{ key: key.key, value }] : [];
  });
}

function theseKeys(
  reduction: KeystrokeReduction,
  values: readonly KeyValue[],
  characteristic: KeyCharacteristic,
): Measured {
  if (values.length > 0) {
    return linear(
      values.map(({ value }) => value),
      values.map(() => 1 / values.length),
      values.length === 1 ? `${values[0]!.key} alone` : `mean of ${values.length} keys`,
    );
  }
  const first: Measured | undefined = reduction.keys[0]?.[characteristic];
  const symbol = characteristicSymbols[characteristic];
  return first?.absent
    ? new Absent(symbol, first.reason, first.evidence)
    : new Absent(symbol, "the sessions have no key in common", evidenceStep("keys in common", []));
}

/** The unit's mean for all N keys, made of its keys' own sources and of the keys that were not measured. */
function unitValue(
  reduction: KeystrokeReduction,
  values: readonly KeyValue[],
  { characteristic, alphabeticKeys }: { characteristic: KeyCharacteristic; alphabeticKeys: number },
): Measured {
  const these = theseKeys(reduction, values, characteristic);
  if (!isQuantity(these) || values.length < 2) return these;
  const { mean } = unitMean(reduction.keys, (key): Measured => key[characteristic], {
    alphabeticKeys,
    name: characteristic,
  });
  if (!isQuantity(mean)) return mean;
  const unmeasured = mean.components.filter(({ source }) => source.id.endsWith("/keys-not-measured"));
  return new Quantity(mean.value, mean.symbol, [...these.components, ...unmeasured], mean.evidence);
}
