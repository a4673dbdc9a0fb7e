import { mean } from "d3-array";

/** Mean of the fastest k of n with its standard uncertainty, beside the mean of all. */
export interface KeptMean {
  /** Mean of the k smallest values. */
  readonly mean: number;
  /** Standard uncertainty of `mean`: s_w sqrt(n) / k. */
  readonly u: number;
  /** k - 1. */
  readonly dof: number;
  /** sd of the n values after the n - k largest were replaced by the k-th smallest. */
  readonly winsorizedSd: number;
  /** Positions of the kept values in the input, in input order; among ties the earlier is kept. */
  readonly keptIndices: readonly number[];
  /** `mean` minus the mean of all n; 0 or below. */
  readonly minusAll: number;
  /** Standard uncertainty of `minusAll`, from the same presses: sqrt(n) sd(w_i / k - x_i / n). */
  readonly minusAllU: number;
}

/**
 * The mean of the k fastest of n presses (measurement model, section 4).
 *
 * Its measurand is the expectation of that statistic, not of one press. The sum of the kept values equals the sum of the
 * n values cut off at the k-th smallest, less a constant to first order; hence u = s_w sqrt(n) / k with s_w the sd of
 * the cut values (one-sided form of the standard error of a trimmed mean, Tukey and McLaughlin 1963).
 *
 * @param values in ms, n of them, unsorted; ties allowed
 * @param options.kept k, 2 to n
 * @throws RangeError where a value is not finite or k is no whole number from 2 to n
 */
export function keptMean(values: readonly number[], options: { readonly kept: number }): KeptMean {
  const n = values.length;
  const k = options.kept;
  if (!(Number.isInteger(k) && k >= 2 && k <= n)) {
    throw new RangeError(`cannot keep ${k} of ${n} presses; k must be a whole number from 2 to n`);
  }
  const odd = values.find((value) => !Number.isFinite(value));
  if (odd !== undefined) throw new RangeError(`a latency is ${odd} ms; it must be finite`);
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]! || a - b);
  const keptIndices = order.slice(0, k).sort((a, b) => a - b);
  const cut = values[order[k - 1]!]!;
  const winsorized = values.map((value) => Math.min(value, cut));
  const winsorizedSd = standardDeviation(winsorized);
  const keptMean = mean(order.slice(0, k), (i) => values[i]!)!;
  return {
    mean: keptMean,
    u: (winsorizedSd * Math.sqrt(n)) / k,
    dof: k - 1,
    winsorizedSd,
    keptIndices,
    minusAll: k === n ? 0 : keptMean - mean(values)!,
    minusAllU: k === n ? 0 : Math.sqrt(n) * standardDeviation(winsorized.map((w, i) => w / k - values[i]! / n)),
  };
}

/** Sample standard deviation (divisor n - 1), exactly 0 for equal values; throws RangeError below two values. */
export function standardDeviation(values: readonly number[]): number {
  if (!(values.length >= 2)) throw new RangeError(`a standard deviation needs two values, got ${values.length}`);
  if (values.every((value) => value === values[0])) return 0;
  const center = mean(values)!;
  const squares = values.reduce((total, value) => total + (value - center) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1));
}

/**
 * How many of the valid presses are kept: k where n are valid, else the same share of them, rounded to the nearest whole
 * number.
 */
export function keptCount(valid: number, method: { readonly presses: number; readonly kept: number }): number {
  if (!(method.kept >= 1 && method.kept <= method.presses)) {
    throw new RangeError(`the method keeps ${method.kept} of ${method.presses} presses; it must keep 1 to all of them`);
  }
  return valid === method.presses ? method.kept : Math.round((valid * method.kept) / method.presses);
}
