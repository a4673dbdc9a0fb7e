import { Absent, Quantity, evidenceStep, isQuantity, linear } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";

/** The values between an old published number and a new one (measurement model, section 5). */
export interface ChangeInputs<S extends string = string> {
  /** As published under the old method: its session, its keys, its reduction. */
  readonly published: Measured<S>;
  /** The old raw rows and keys, reduced as the new method says. */
  readonly reducedAnew: Measured<S>;
  /** The same keys in the new session, new reduction. */
  readonly sameKeysAgain: Measured<S>;
  /** All keys of the new method, new session, new reduction, before any change of settings; left out: `publishedAnew`. */
  readonly allKeys?: Measured<S>;
  /** As published under the new method. */
  readonly publishedAnew: Measured<S>;
}

/** Steps whose sum is the total change, exactly. */
export interface ChangeSteps<S extends string = string> {
  /** (1) Same rows, old against new reduction: no noise, hence a number without uncertainty and no test. */
  readonly reduction: Measured<S>;
  /** (2) Same keys, old against new session. */
  readonly retest: Measured<S>;
  /** (3) That choice of keys against all keys of the method, within the new session. */
  readonly keys: Measured<S>;
  /** (4) Settings and arithmetic; null where the method changed none, so that there is no such step. */
  readonly settings: Measured<S> | null;
  readonly total: Measured<S>;
}

/**
 * Splits a change of a published value into steps. Each is the later value less the earlier one with shared sources cancelled;
 * it is absent, with the reason, where one of its two ends is. The value of `total` is the sum of the steps, added from the
 * first to the last; its components are those of the two published values.
 *
 * @throws RangeError where the symbols differ
 */
export function changeSteps<S extends string>(inputs: ChangeInputs<S>): ChangeSteps<S> {
  const { published, reducedAnew, sameKeysAgain, allKeys, publishedAnew } = inputs;
  const reduction = step(published, reducedAnew, "new reduction less old, same rows", { isNoiseless: true });
  const retest = step(reducedAnew, sameKeysAgain, "new session less old, same keys and reduction");
  const keys = step(sameKeysAgain, allKeys ?? publishedAnew, "all keys less the old method's, same session");
  const settings = allKeys === undefined ? null : step(allKeys, publishedAnew, "settings and arithmetic");
  const whole = step(published, publishedAnew, "new published value less old");
  const parts = [reduction, retest, keys, ...(settings === null ? [] : [settings])];
  const total =
    isQuantity(whole) && parts.every(isQuantity)
      ? new Quantity(
          parts.reduce((sum, part) => sum + part.value, 0),
          whole.symbol,
          whole.components,
          whole.evidence,
        )
      : whole;
  return { reduction, retest, keys, settings, total };
}

/** Steps rounded for print, so that what stands in a row adds up to the last digit. */
export interface PrintedSteps<S extends string = string> extends ChangeSteps<S> {
  readonly published: Measured<S>;
  readonly publishedAnew: Measured<S>;
}

/**
 * The same steps for a table that shows its sum: the values between the steps are rounded to `places` decimals and the steps
 * taken between the rounded ones, so that published + steps = published anew in print too; a step may differ from its own
 * rounding by one in the last place. The quantities carry no uncertainty: it belongs to the steps themselves.
 *
 * @throws RangeError where places is not a whole number from 0 to 9
 */
export function printedSteps<S extends string>(inputs: ChangeInputs<S>, places: number): PrintedSteps<S> {
  if (!(Number.isInteger(places) && places >= 0 && places <= 9)) {
    throw new RangeError(`the decimal places are ${places}; they must be a whole number from 0 to 9`);
  }
  const scale = 10 ** places;
  const rounded = (measured: Measured<S>): Measured<S> =>
    isQuantity(measured)
      ? new Quantity(Math.round(measured.value * scale) / scale + 0, measured.symbol, [], measured.evidence)
      : measured;
  const ends: ChangeInputs<S> = {
    published: rounded(inputs.published),
    reducedAnew: rounded(inputs.reducedAnew),
    sameKeysAgain: rounded(inputs.sameKeysAgain),
    ...(inputs.allKeys === undefined ? {} : { allKeys: rounded(inputs.allKeys) }),
    publishedAnew: rounded(inputs.publishedAnew),
  };
  const { reduction, retest, keys, settings, total } = changeSteps(ends);
  return {
    published: ends.published,
    reduction: rounded(reduction),
    retest: rounded(retest),
    keys: rounded(keys),
    settings: settings === null ? null : rounded(settings),
    total: rounded(total),
    publishedAnew: ends.publishedAnew,
  };
}

/** The later value less the earlier one. Two reductions of the same rows share their noise whole, so nothing is left of it. */
function step<S extends string>(
  from: Measured<S>,
  to: Measured<S>,
  operation: string,
  options: { readonly isNoiseless?: boolean } = {},
): Measured<S> {
  const evidence = evidenceStep(operation, [to.evidence, from.evidence]);
  if (from.symbol !== to.symbol) throw new RangeError(`cannot step from ${from.symbol} to ${to.symbol}`);
  if (!isQuantity(from)) return new Absent(from.symbol, from.reason, evidence);
  if (!isQuantity(to)) return new Absent(to.symbol, to.reason, evidence);
  if (options.isNoiseless) return new Quantity(to.value - from.value, to.symbol, [], evidence);
  return linear([to, from], [1, -1], operation);
}
