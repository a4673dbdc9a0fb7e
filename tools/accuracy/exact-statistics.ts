import type { Ratio } from "./exact.js";
import { minus, ofDouble, over, plus, ratio, root, solveExactly, times } from "./exact.js";

/** Doubles as whole numbers over one power of two, so that sums need no common denominators. */
function wholeNumbers(values: readonly number[]): { readonly whole: readonly bigint[]; readonly scale: bigint } {
  const exact = new Map<number, Ratio>();
  let scale = 1n;
  for (const value of values) {
    if (exact.has(value)) continue;
    const own = ofDouble(value);
    exact.set(value, own);
    if (own.bottom > scale) scale = own.bottom;
  }
  const at = new Map([...exact].map(([value, own]) => [value, own.top * (scale / own.bottom)]));
  return { whole: values.map((value) => at.get(value)!), scale };
}

/** Mean, sd and lag-1 autocorrelation of the doubles in exact arithmetic (the root to 40 digits). */
export function exactUnivariate(values: readonly number[]): Readonly<Record<string, Ratio>> {
  const { whole, scale } = wholeNumbers(values);
  const n = BigInt(values.length);
  const sum = whole.reduce((total, w) => total + w, 0n);
  const d = whole.map((w) => n * w - sum);
  const squares = d.reduce((total, v) => total + v * v, 0n);
  const lagged = d.slice(1).reduce((total, v, i) => total + v * d[i]!, 0n);
  return {
    mean: ratio(sum, n * scale),
    standardDeviation: root(ratio(squares, n * n * scale * scale * (n - 1n))),
    lag1Autocorrelation: ratio(lagged, squares),
  };
}

/** One-way analysis of variance of the doubles in exact arithmetic. */
export function exactOneWay(groups: readonly (readonly number[])[]): Readonly<Record<string, Ratio>> {
  const { whole, scale } = wholeNumbers(groups.flat());
  let at = 0;
  const parts = groups.map((group) => whole.slice(at, (at += group.length)));
  const total = BigInt(whole.length);
  const unit = ratio(1n, scale * scale);
  const sumOf = (list: readonly bigint[]): bigint => list.reduce((t, w) => t + w, 0n);
  const all = sumOf(whole);
  let between = ratio(-all * all, total);
  let within = ratio(whole.reduce((t, w) => t + w * w, 0n));
  for (const part of parts) {
    const square = ratio(sumOf(part) ** 2n, BigInt(part.length));
    between = plus(between, square);
    within = minus(within, square);
  }
  const dofBetween = BigInt(groups.length - 1);
  const dofWithin = total - BigInt(groups.length);
  const msWithin = over(within, ratio(dofWithin));
  return {
    ssBetween: times(between, unit),
    ssWithin: times(within, unit),
    F: over(over(between, ratio(dofBetween)), msWithin),
    rSquared: over(between, plus(between, within)),
    residualStandardDeviation: root(times(msWithin, unit)),
  };
}

/** Polynomial least squares of the doubles in exact arithmetic (powers of x taken exactly). */
export function exactPolynomial(
  xs: readonly number[],
  ys: readonly number[],
  degree: number,
): Readonly<Record<string, Ratio>> {
  const x = xs.map(ofDouble);
  const y = ys.map(ofDouble);
  const columns = Array.from({ length: degree + 1 }, (_, j) =>
    x.map((value) => Array.from({ length: j }).reduce<Ratio>((power) => times(power, value), ratio(1n))),
  );
  const dot = (a: readonly Ratio[], b: readonly Ratio[]): Ratio =>
    a.reduce((total, v, i) => plus(total, times(v, b[i]!)), ratio(0n));
  const matrix = columns.map((a) => columns.map((b) => dot(a, b)));
  const right = columns.map((a) => dot(a, y));
  const b = solveExactly(matrix, right);
  const yy = dot(y, y);
  const residual = b.reduce((total, value, j) => minus(total, times(value, right[j]!)), yy);
  const n = BigInt(xs.length);
  const mean = dot(
    y,
    y.map(() => ratio(1n, n)),
  );
  const spread = minus(yy, times(ratio(n), times(mean, mean)));
  const variance = over(residual, ratio(n - BigInt(degree + 1)));
  const out: Record<string, Ratio> = {
    residualSumOfSquares: residual,
    residualStandardDeviation: root(variance),
    rSquared: minus(ratio(1n), over(residual, spread)),
  };
  b.forEach((value, j) => {
    out[`b${j}`] = value;
    const unit = columns.map((_, k) => ratio(j === k ? 1n : 0n));
    out[`seB${j}`] = root(times(variance, solveExactly(matrix, unit)[j]!));
  });
  return out;
}
