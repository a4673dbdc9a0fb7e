import { lift } from "../lift/lift.js";
import { checkOptions, checkValues } from "../numeric/guards.js";
import { ascending } from "../numeric/sums.js";
import { quantileErrorKernel } from "./quantile-error.js";

export type QuantileType = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9;

export interface QuantileOptions {
  /** Probability from 0 to 1. */
  readonly p: number;
  /** Hyndman and Fan's type, 1 to 9; default 7. */
  readonly type?: QuantileType;
}

/**
 * Quantile of a sample by one of Hyndman and Fan's nine definitions, by default type 7: linear between order statistics at
 * 1 + (n - 1)p.
 * @param values at least one finite number in any order; ties need no care
 * @param options p from 0 to 1; type 1 to 9
 * @throws Undetermined on no values; RangeError on p outside 0 to 1 and on another type
 * Source: Hyndman and Fan, American Statistician 50 (1996) 361.
 */
export function quantileKernel(values: readonly number[], options: QuantileOptions = { p: NaN }): number {
  checkOptions(options, ["p", "type"], "quantile");
  checkValues(values, 1, "quantile");
  return quantileOfSorted(ascending(values), options.p, options.type ?? 7);
}

/** Quantile of values in ascending order; as `quantileKernel`. */
export function quantileOfSorted(sorted: readonly number[], p: number, type: QuantileType): number {
  const { weights } = positionOf(sorted.length, p, type);
  return weights.reduce((total, [index, weight]) => total + weight * sorted[index]!, 0);
}

function positionOf(n: number, p: number, type: QuantileType): { readonly weights: readonly [number, number][] } {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`the option p of quantile is ${p}; it must be from 0 to 1`);
  if (!(Number.isInteger(type) && type >= 1 && type <= 9)) {
    throw new RangeError(`the type of quantile is ${type}; it must be 1 to 9`);
  }
  const fuzz = 4 * Number.EPSILON;
  const shift = [0, 0, -0.5, 0, 0.5, p, 1 - p, (p + 1) / 3, p / 4 + 3 / 8][type - 1]!;
  const at = n * p + shift;
  const j = Math.floor(at + fuzz);
  const rest = Math.abs(at - j) < fuzz ? 0 : at - j;
  let gamma = rest;
  if (type === 1) gamma = rest > 0 ? 1 : 0;
  if (type === 2) gamma = rest > 0 ? 1 : 0.5;
  if (type === 3) gamma = rest === 0 && j % 2 === 0 ? 0 : 1;
  const clamp = (i: number): number => Math.min(n - 1, Math.max(0, i));
  if (gamma === 0) return { weights: [[clamp(j - 1), 1]] };
  return {
    weights: [
      [clamp(j - 1), 1 - gamma],
      [clamp(j), gamma],
    ],
  };
}

/** Exact weights of the values in a quantile: those of the order statistics that it lies between. */
export function quantileWeights(values: readonly number[], p: number, type: QuantileType): readonly number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]! || a - b);
  const weights = new Array<number>(values.length).fill(0);
  for (const [index, weight] of positionOf(values.length, p, type).weights) weights[order[index]!]! += weight;
  return weights;
}

/** Quantile of measured values; default type 7. With `sampling` it carries the standard error of Maritz and Jarrett. */
export const quantile = lift(quantileKernel, "same", {
  weights: (values, options) => ({ "": quantileWeights(values, options.p, options.type ?? 7) }),
  sampling: (values, options) => ({ "": { u: quantileErrorKernel(values, { p: options.p }), dof: values.length - 1 } }),
});

/**
 * Median: the middle value in order, or the mean of the two middle ones.
 * @param values at least one finite number in any order
 * @throws Undetermined on no values; RangeError on a value that is not finite
 * Source: Hyndman and Fan 1996 (every type but 1, 3 and 4 at p = 0.5).
 */
export function medianKernel(values: readonly number[], options: object = {}): number {
  checkOptions(options, [], "median");
  checkValues(values, 1, "median");
  return quantileOfSorted(ascending(values), 0.5, 7);
}

/** Median of measured values. With `sampling` it carries the standard error of Maritz and Jarrett. */
export const median = lift(medianKernel, "same", {
  weights: (values) => ({ "": quantileWeights(values, 0.5, 7) }),
  sampling: (values) => ({ "": { u: quantileErrorKernel(values), dof: values.length - 1 } }),
});
