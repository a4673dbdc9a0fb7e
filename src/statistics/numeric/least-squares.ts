import { Undetermined } from "./guards.js";
import type { Double2 } from "./double-double.js";
import { add2, divide2, dot2, multiply2, root2, subtract2, without2 } from "./double-double.js";

export interface LeastSquares {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  /** (X'X)⁻¹; times the residual variance it is the covariance of the coefficients. */
  readonly inverse: readonly (readonly number[])[];
  readonly residualSumOfSquares: number;
  readonly residualSd: number;
  /** Number of values less number of coefficients. */
  readonly dof: number;
  readonly residuals: readonly number[];
}

/**
 * Least squares y ≈ Σ b_j x_j by Gram-Schmidt orthogonalisation in double-double arithmetic, so that even columns with a
 * condition number of 1e12 keep full double precision.
 * @param columns design columns of equal length, the constant among them where wanted
 * @throws Undetermined where the columns are dependent, or there are fewer values than columns
 * Source: Björck, Numerical Methods for Least Squares Problems (1996), 2.4.
 */
export function leastSquares(columns: readonly (readonly number[])[], y: readonly number[]): LeastSquares {
  const p = columns.length;
  const n = y.length;
  if (n < p) throw new Undetermined(`a fit of ${p} coefficients needs at least ${p} values, got ${n}`);
  const q: (readonly Double2[])[] = [];
  const r: Double2[][] = [];
  columns.forEach((column, j) => {
    let v: readonly Double2[] = column.map((value): Double2 => [value, 0]);
    const before = root2(dot2(v, v));
    const row: Double2[] = [];
    for (let pass = 0; pass < 2; pass++) {
      for (let i = 0; i < j; i++) {
        const share = dot2(q[i]!, v);
        row[i] = pass === 0 ? share : add2(row[i]!, share);
        v = without2(v, q[i]!, share);
      }
    }
    const length = root2(dot2(v, v));
    if (!(length[0] > 1e-22 * before[0])) {
      throw new Undetermined(`the fit cannot separate column ${j + 1} from those before it`);
    }
    row[j] = length;
    r.push(row);
    q.push(v.map((value) => divide2(value, length)));
  });
  let rest: readonly Double2[] = y.map((value): Double2 => [value, 0]);
  const projected = q.map((column) => {
    const share = dot2(column, rest);
    rest = without2(rest, column, share);
    return share;
  });
  const solve = (right: readonly Double2[]): Double2[] => {
    const b: Double2[] = [];
    for (let j = p - 1; j >= 0; j--) {
      let total = right[j]!;
      for (let k = j + 1; k < p; k++) total = subtract2(total, multiply2(r[k]![j]!, b[k]!));
      b[j] = divide2(total, r[j]![j]!);
    }
    return b;
  };
  const coefficients = solve(projected).map((b) => b[0]);
  const rootInverse = columns.map((_, j) => solve(columns.map((_, k): Double2 => [j === k ? 1 : 0, 0])));
  const inverse = columns.map((_, a) =>
    columns.map(
      (_, b) => rootInverse.reduce((t, column): Double2 => add2(t, multiply2(column[a]!, column[b]!)), [0, 0])[0],
    ),
  );
  const residualSumOfSquares = dot2(rest, rest)[0];
  const dof = n - p;
  const variance = dof > 0 ? residualSumOfSquares / dof : 0;
  return {
    coefficients,
    standardErrors: inverse.map((row, j) => Math.sqrt(variance * row[j]!)),
    inverse,
    residualSumOfSquares,
    residualSd: Math.sqrt(variance),
    dof,
    residuals: rest.map((value) => value[0]),
  };
}
