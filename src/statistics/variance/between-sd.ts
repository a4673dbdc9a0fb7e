import { lift } from "../lift/lift.js";
import { checkOptions, checkPositive, checkValues } from "../numeric/guards.js";
import { varianceOf } from "../numeric/sums.js";
import { modifiedLargeSampleKernel } from "./modified-large-sample.js";

export interface BetweenSdOptions {
  /** Sd of one repeat (cycle, press) of one item, in the unit of the values. */
  readonly repeatSd: number;
  /** Number of repeats behind each value. */
  readonly repeats: number;
  /** Degrees of freedom of `repeatSd`; default n (repeats - 1). */
  readonly repeatDof?: number;
  /** Level of the interval; default 0.95. */
  readonly level?: number;
}

export interface BetweenSd {
  readonly sd: number;
  /** s² - s_rep²/c before negative ones are set to 0. */
  readonly raw: number;
  readonly lower: number;
  readonly upper: number;
  readonly n: number;
}

/**
 * Sd between the true values of items, cleaned of the noise of their repeats: √max(0, s² - s_rep²/c), s the sd of the values, each
 * the mean of c repeats; interval by modified large sample.
 * @param values at least two finite numbers in any order
 * @param options repeatSd of at least 0; repeats c; repeatDof: default n (c - 1); level: default 0.95
 * @throws Undetermined on fewer than two values; RangeError on options out of range
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 3.6; Burdick and Graybill 1992, 3.3 (interval).
 */
export function betweenSdKernel(
  values: readonly number[],
  options: BetweenSdOptions = { repeatSd: NaN, repeats: NaN },
): BetweenSd {
  checkOptions(options, ["repeatSd", "repeats", "repeatDof", "level"], "betweenSd");
  const { repeatSd, repeats, level = 0.95 } = options;
  checkValues(values, 2, "the sd between items");
  const n = values.length;
  const repeatDof = options.repeatDof ?? n * (repeats - 1);
  if (!(repeatSd >= 0)) throw new RangeError(`repeatSd is ${repeatSd}; it must be at least 0`);
  checkPositive(repeats, "repeats");
  if (repeatSd > 0) checkPositive(repeatDof, "repeatDof");
  const found = modifiedLargeSampleKernel(
    [
      { coefficient: 1, meanSquare: varianceOf(values), dof: n - 1 },
      ...(repeatSd > 0 ? [{ coefficient: -1 / repeats, meanSquare: repeatSd * repeatSd, dof: repeatDof }] : []),
    ],
    { level },
  );
  return {
    sd: found.sd,
    raw: found.raw,
    lower: Math.sqrt(found.lower ?? 0),
    upper: Math.sqrt(found.upper ?? 0),
    n,
  };
}

/** Sd between the true values of items, from measured values that are each a mean of repeats. */
export const betweenSd = lift(
  betweenSdKernel,
  { sd: "same", raw: "squared", lower: "same", upper: "same", n: "count" },
  { name: "sd between items" },
);
