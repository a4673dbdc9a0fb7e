import type { Evidence } from "./evidence.js";
import { Quantity } from "./quantity.js";
import type { Component, Source } from "./source.js";

export interface ObservedInput<S extends string = string> {
  readonly label: string;
  readonly symbol: S;
  /** Readings, one an observation; the i-th readings of all inputs were made together. */
  readonly readings: readonly number[];
  readonly evidence: Evidence;
}

/**
 * Means of inputs that were observed together, with the covariances of the means (JCGM 100:2008, 5.2.3, equation 17).
 * The covariance matrix is factored (Cholesky), so that the inputs share independent sources of one block: whatever is
 * computed from them carries the correlation by itself, with n - 1 degrees of freedom.
 *
 * @param id unique path of the observation series, such as `study/readers/series-1`
 * @throws RangeError for fewer than two observations or readings of different number
 */
export function observedTogether(id: string, inputs: readonly ObservedInput[]): readonly Quantity[] {
  const n = inputs[0]?.readings.length ?? 0;
  if (!(n >= 2)) throw new RangeError(`observations made together need at least two, got ${n}`);
  const odd = inputs.find((input) => input.readings.length !== n);
  if (odd) throw new RangeError(`${odd.label} has ${odd.readings.length} readings where the others have ${n}`);
  const means = inputs.map((input) => input.readings.reduce((total, x) => total + x, 0) / n);
  const covarianceOf = (a: number, b: number): number => {
    let total = 0;
    for (let i = 0; i < n; i++) total += (inputs[a]!.readings[i]! - means[a]!) * (inputs[b]!.readings[i]! - means[b]!);
    return total / (n * (n - 1));
  };
  const factor = cholesky(inputs.map((_, a) => inputs.map((_, b) => covarianceOf(a, b))));
  const sources: Source[] = inputs.map((_, i) => ({
    id: `${id}/${i + 1}`,
    label: `Scatter of ${inputs.map((each) => each.label).join(", ")}, observed together`,
    type: "A",
    distribution: "t",
    u: 1,
    symbol: "1",
    dof: n - 1,
    block: id,
  }));
  return inputs.map((input, a) => {
    const components: Component[] = sources
      .map((source, b) => ({ source, contribution: factor[a]![b]! }))
      .filter((component) => component.contribution !== 0);
    return new Quantity(means[a]!, input.symbol, components, input.evidence);
  });
}

/** Lower factor of a positive semidefinite matrix; a pivot lost to rounding counts as 0. */
function cholesky(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const size = matrix.length;
  const lower = matrix.map(() => new Array<number>(size).fill(0));
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!;
      if (i === j) lower[i]![i] = rest > 1e-14 * matrix[i]![i]! ? Math.sqrt(rest) : 0;
      else lower[i]![j] = lower[j]![j]! > 0 ? rest / lower[j]![j]! : 0;
    }
  }
  return lower;
}
