import { difference, isQuantity } from "../metrology/index.js";
import { Absent } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";

/** The five values between an old published number and a new one (measurement model, section 5). */
export interface ChangeInputs<S extends string = string> {
  /** As published under the old method: its session, its keys, its reduction. */
  readonly published: Measured<S>;
  /** The old raw rows and keys, reduced as the new method says. */
  readonly reducedAnew: Measured<S>;
  /** The same keys in the new session, new reduction. */
  readonly sameKeysAgain: Measured<S>;
  /** All keys of the new method, new session, new reduction, before any change of settings or arithmetic. */
  readonly allKeys: Measured<S>;
  /** As published under the new method. */
  readonly publishedAnew: Measured<S>;
}

/** Four steps whose sum is the total change, exactly. */
export interface ChangeSteps<S extends string = string> {
  /** (1) Same rows, old against new reduction: no noise, hence no test. */
  readonly reduction: Measured<S>;
  /** (2) Same keys, old against new session. */
  readonly retest: Measured<S>;
  /** (3) That choice of keys against all keys of the method, within the new session. */
  readonly keys: Measured<S>;
  /** (4) Settings and arithmetic. */
  readonly settings: Measured<S>;
  readonly total: Measured<S>;
}

/** Splits a change of a published value into steps; each is absent where one of its two ends is. */
export function changeSteps<S extends string>(inputs: ChangeInputs<S>): ChangeSteps<S> {
  const step = (from: Measured<S>, to: Measured<S>): Measured<S> => {
    if (!isQuantity(from)) return new Absent(from.symbol, from.reason, from.evidence);
    if (!isQuantity(to)) return new Absent(to.symbol, to.reason, to.evidence);
    return difference(to, from);
  };
  return {
    reduction: step(inputs.published, inputs.reducedAnew),
    retest: step(inputs.reducedAnew, inputs.sameKeysAgain),
    keys: step(inputs.sameKeysAgain, inputs.allKeys),
    settings: step(inputs.allKeys, inputs.publishedAnew),
    total: step(inputs.published, inputs.publishedAnew),
  };
}
