function checkProbabilities(pValues: readonly number[], procedure: string): void {
  const bad = pValues.findIndex((p) => !(p >= 0 && p <= 1));
  if (bad >= 0) throw new RangeError(`${procedure}: p-value ${bad + 1} is ${pValues[bad]}; it must be from 0 to 1`);
  if (pValues.length === 0) throw new RangeError(`${procedure} needs at least one p-value`);
}

/**
 * P-values adjusted for many tests by Holm's step-down method: the i-th smallest times (m - i + 1), made monotone, at most 1.
 * Rejecting those at most alpha keeps the family-wise error at alpha under any dependence.
 * @param pValues p-values from 0 to 1 in any order; ties get one adjusted value; the result is in the input's order
 * @throws RangeError on no p-values, and on one outside 0 to 1 or NaN
 * Source: Holm, Scandinavian Journal of Statistics 6 (1979) 65.
 */
export function holmKernel(pValues: readonly number[]): readonly number[] {
  checkProbabilities(pValues, "Holm's method");
  const m = pValues.length;
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[a]! - pValues[b]! || a - b);
  const out = new Array<number>(m).fill(1);
  let highest = 0;
  order.forEach((place, i) => {
    highest = Math.max(highest, Math.min(1, (m - i) * pValues[place]!));
    out[place] = highest;
  });
  return out;
}

/**
 * P-values adjusted by Benjamini and Hochberg: the i-th smallest times m/i, made monotone from the largest down. Rejecting those
 * at most alpha keeps the expected share of false rejections at alpha for independent or positively dependent tests.
 * @param pValues p-values from 0 to 1 in any order; the result is in the input's order
 * @throws RangeError on no p-values, and on one outside 0 to 1 or NaN
 * Source: Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289.
 */
export function benjaminiHochbergKernel(pValues: readonly number[]): readonly number[] {
  checkProbabilities(pValues, "Benjamini and Hochberg's method");
  const m = pValues.length;
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[b]! - pValues[a]! || a - b);
  const out = new Array<number>(m).fill(1);
  let lowest = 1;
  order.forEach((place, i) => {
    lowest = Math.min(lowest, (m / (m - i)) * pValues[place]!);
    out[place] = lowest;
  });
  return out;
}
