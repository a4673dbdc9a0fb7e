import { closest, distance } from "fastest-levenshtein";

/**
 * Says that the data do not determine a result, and why: too few values, no scatter, a separate case of the procedure.
 * A kernel throws it; a lifted form turns it into an `Absent` with this reason. Wrong calls (NaN, unknown options) are
 * plain RangeErrors, and are never turned into an `Absent`.
 */
export class Undetermined extends RangeError {
  override readonly name = "Undetermined";
}

/**
 * Refuses values that are not finite, and too few of them.
 * @throws RangeError where a value is NaN or infinite, with its position
 * @throws Undetermined where there are fewer than `least`
 */
export function checkValues(values: readonly number[], least: number, procedure: string): void {
  const bad = values.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    throw new RangeError(`${procedure}: value ${bad + 1} of ${values.length} is ${values[bad]}, not a number`);
  if (!(values.length >= least)) {
    throw new Undetermined(`${procedure} needs at least ${least} value${least === 1 ? "" : "s"}, got ${values.length}`);
  }
}

/** Refuses two arrays of different lengths, values that are not finite, and too few pairs. */
export function checkPairs(xs: readonly number[], ys: readonly number[], least: number, procedure: string): void {
  if (xs.length !== ys.length) {
    throw new RangeError(`${procedure} needs pairs, got ${xs.length} values and ${ys.length} values`);
  }
  checkValues(xs, least, procedure);
  checkValues(ys, least, procedure);
}

/** Refuses a probability that does not lie strictly between 0 and 1. */
export function checkProbability(p: number, name: string): void {
  if (!(p > 0 && p < 1)) throw new RangeError(`${name} is ${p}; it must be between 0 and 1, such as 0.95`);
}

/** Refuses a number that is not above 0 (NaN included). */
export function checkPositive(value: number, name: string): void {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} is ${value}; it must be above 0`);
}

/** Refuses a number that is not whole or lies below `least`. */
export function checkWhole(value: number, least: number, name: string): void {
  if (!(Number.isInteger(value) && value >= least)) {
    throw new RangeError(`${name} is ${value}; it must be a whole number of at least ${least}`);
  }
}

/** Refuses option names outside `allowed`, and names the nearest valid one. */
export function checkOptions(options: object, allowed: readonly string[], procedure: string): void {
  for (const name of Object.keys(options)) {
    if (allowed.includes(name)) continue;
    const list = allowed.length === 0 ? "it takes none" : `it takes ${allowed.join(", ")}`;
    const near = allowed.length === 0 ? undefined : closest(name, [...allowed]);
    const hint = near !== undefined && distance(name, near) <= 3 ? `; did you mean ${near}?` : "";
    throw new RangeError(`${procedure} has no option ${name} (${list})${hint}`);
  }
}

/** Refuses a value that is not one of the allowed names, and names the nearest valid one. */
export function checkChoice(value: string, allowed: readonly string[], name: string): void {
  if (allowed.includes(value)) return;
  throw new RangeError(
    `${name} is ${value}; it must be one of ${allowed.join(", ")}; nearest is ${closest(value, [...allowed])}`,
  );
}
