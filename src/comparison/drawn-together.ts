import { Quantity } from "../metrology/index.js";
import type { Component, Evidence, Source } from "../metrology/index.js";
import { meanOf } from "../statistics/numeric/sums.js";

/** A result that was computed in every one of a set of joint draws. */
export interface DrawnResult {
  /** The value itself, which need not be the mean of the draws. */
  readonly value: number;
  readonly draws: Float64Array;
  readonly evidence: Evidence;
}

/**
 * Results of one set of joint draws as ratios with components, so that differences between them have the uncertainty that the
 * draws show: the covariance matrix of the draws is factored (Cholesky), each factor one source. Standard uncertainties are
 * the standard deviations of the draws (JCGM 101:2008, 7.6); the shape of the distributions is not kept.
 *
 * @param id unique path of the draws, such as `merit/examination_hall/7`
 * @throws RangeError where the results were drawn different numbers of times, or fewer than twice
 */
export function drawnTogether(id: string, label: string, results: readonly DrawnResult[]): readonly Quantity<"1">[] {
  const n = results[0]?.draws.length ?? 2;
  const odd = results.find(({ draws }) => draws.length !== n);
  if (odd !== undefined || !(n >= 2)) {
    throw new RangeError(
      `results drawn together need one number of draws of at least 2, got ${n} and ${odd?.draws.length}`,
    );
  }
  const centred = results.map(({ draws }) => {
    const centre = meanOf([...draws]);
    return draws.map((value) => value - centre);
  });
  const factor = factorOf(centred, n);
  const sources = results.map((_, i): Source => {
    return { id: `${id}/${i + 1}`, label, type: "B", distribution: "normal", u: 1, symbol: "1", dof: Infinity };
  });
  return results.map(({ value, evidence }, row) => {
    const components = sources
      .slice(0, row + 1)
      .map((source, column): Component => ({ source, contribution: factor[row]![column]! }))
      .filter(({ contribution }) => contribution !== 0);
    return new Quantity(value, "1", components, evidence);
  });
}

/** Lower factor of the covariance matrix; a pivot lost to rounding counts as 0. */
function factorOf(centred: readonly Float64Array[], n: number): readonly (readonly number[])[] {
  const covariance = (a: Float64Array, b: Float64Array): number => {
    let total = 0;
    for (let i = 0; i < n; i++) total += a[i]! * b[i]!;
    return total / (n - 1);
  };
  const lower: number[][] = [];
  centred.forEach((row, i) => {
    lower.push(new Array<number>(i + 1).fill(0));
    const variance = covariance(row, row);
    for (let j = 0; j <= i; j++) {
      let rest = i === j ? variance : covariance(row, centred[j]!);
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!;
      if (i === j) lower[i]![i] = rest > 1e-12 * variance ? Math.sqrt(rest) : 0;
      else lower[i]![j] = lower[j]![j]! > 0 ? rest / lower[j]![j]! : 0;
    }
  });
  return lower;
}
