import { difference } from "../metrology/index.js";
import type { Quantity } from "../metrology/index.js";
import { holmKernel } from "../statistics/tests/multiplicity.js";
import { zeroPValue } from "./difference-test.js";

/** A rig's check: what it gave and what it should have given. */
export interface RigComparison {
  readonly value: Quantity;
  readonly reference: Quantity;
}

/**
 * Which checks differ from their reference, tested by (value - reference)/u and adjusted by Holm over all checks given, so
 * that a rig that is in order has any failed check with a probability of at most `level`.
 *
 * @param checks of one rig, of any kinds; without checks the answer is empty
 * @param options `level`: default 0.05
 * @returns one flag a check, in the given order
 * @throws RangeError where a value and its reference have different symbols
 * Source: Holm, Scandinavian Journal of Statistics 6 (1979) 65.
 */
export function failedChecks(
  checks: readonly RigComparison[],
  options: { readonly level?: number } = {},
): readonly boolean[] {
  const level = options.level ?? 0.05;
  if (!(level > 0 && level < 1)) throw new RangeError(`the level is ${level}; it must be between 0 and 1`);
  if (checks.length === 0) return [];
  return holmKernel(checks.map(({ value, reference }) => zeroPValue(difference(value, reference)))).map(
    (p) => p <= level,
  );
}
