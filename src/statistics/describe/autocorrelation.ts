import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkValues, checkWhole } from "../numeric/guards.js";
import { meanOf, sumOf } from "../numeric/sums.js";

/**
 * Autocorrelation at a lag k: Σ(x_i - m)(x_(i+k) - m) / Σ(x_i - m)², in the order given.
 * @param values more than k + 1 finite numbers in the order of time
 * @param options lag: whole number of at least 1, default 1
 * @throws Undetermined on too few values, and where all are equal
 * Source: Box and Jenkins, Time Series Analysis, 2.1.5; NIST StRD univariate (certified values).
 */
export function autocorrelationKernel(values: readonly number[], options: { readonly lag?: number } = {}): number {
  checkOptions(options, ["lag"], "autocorrelation");
  const lag = options.lag ?? 1;
  checkWhole(lag, 1, "lag");
  checkValues(values, lag + 2, "autocorrelation");
  const centre = meanOf(values);
  const d = values.map((value) => value - centre);
  const total = sumOf(d.map((v) => v * v));
  if (total === 0) throw new Undetermined("autocorrelation has no meaning where all values are equal");
  return sumOf(d.slice(lag).map((v, i) => v * d[i]!)) / total;
}

/** Autocorrelation of measured values in the order of the items. */
export const autocorrelation = lift(autocorrelationKernel, "ratio");
