import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { Undetermined } from "../numeric/guards.js";
import type { RemlDesign } from "./reml-design.js";

/** REML deviance, its gradient and expected information at variances (random terms, then residual). */
export interface RemlPoint {
  /** -2 times the restricted log-likelihood, less its constant. */
  readonly deviance: number;
  /** Derivative of the restricted log-likelihood by each variance. */
  readonly score: readonly number[];
  readonly information: Matrix;
  readonly fixed: Matrix;
}

/**
 * Restricted likelihood at given variances, from cross products alone: with V = Σ σ_k² Z_k Z_k' + σ_e² I and P the usual
 * projection, the score is -(tr Z_k'PZ_k - |Z_k'Py|²)/2 and the information |Z_k'PZ_l|²/2.
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 6.6; Henderson's cross products 7.2.
 */
export function remlPoint(design: RemlDesign, variances: readonly number[]): RemlPoint {
  const { terms, n, p, zz, zx, zy, xx, xy, yy } = design;
  const residual = variances[terms.length]!;
  const q = zz.rows;
  const root: number[] = [];
  terms.forEach((term, k) => {
    for (let i = 0; i < term.levels; i++) root.push(Math.sqrt(variances[k]! / residual));
  });
  const rows = (matrix: Matrix): Matrix => matrix.clone().mulColumnVector(root);
  const inner = Matrix.eye(q).add(rows(zz).mulRowVector(root));
  const cholesky = new CholeskyDecomposition(symmetric(inner));
  const solve = (right: Matrix): Matrix => rows(cholesky.solve(rows(right)));
  const reduce = (left: Matrix, right: Matrix, plain: Matrix): Matrix =>
    Matrix.sub(plain, left.transpose().mmul(solve(right))).div(residual);
  const xvx = reduce(zx, zx, xx);
  const xvy = reduce(zx, zy, xy);
  const yvy = (yy - zy.transpose().mmul(solve(zy)).get(0, 0)) / residual;
  const zvz = reduce(zz, zz, zz);
  const zvx = reduce(zz, zx, zx);
  const zvy = reduce(zz, zy, zy);
  const fixedCholesky = new CholeskyDecomposition(symmetric(xvx));
  if (!fixedCholesky.isPositiveDefinite()) {
    throw new Undetermined("the fixed effects cannot be separated from one another");
  }
  const fixed = fixedCholesky.solve(xvy);
  const zpz = Matrix.sub(zvz, zvx.mmul(fixedCholesky.solve(zvx.transpose())));
  const zpy = Matrix.sub(zvy, zvx.mmul(fixed));
  const ypy = yvy - xvy.transpose().mmul(fixed).get(0, 0);
  const blocks = terms.map((term) => ({ from: term.start, to: term.start + term.levels }));
  const trace = blocks.map(({ from, to }) => {
    let total = 0;
    for (let i = from; i < to; i++) total += zpz.get(i, i);
    return total;
  });
  const square = blocks.map(({ from, to }) => {
    let total = 0;
    for (let i = from; i < to; i++) total += zpy.get(i, 0) ** 2;
    return total;
  });
  const cross = blocks.map((a) =>
    blocks.map((b) => {
      let total = 0;
      for (let i = a.from; i < a.to; i++) for (let j = b.from; j < b.to; j++) total += zpz.get(i, j) ** 2;
      return total;
    }),
  );
  const weigh = (list: readonly number[]): number => list.reduce((total, v, k) => total + v * variances[k]!, 0);
  // tr(PV) = n - p and PVP = P give what concerns the residual from what concerns the terms.
  const traceP = (n - p - weigh(trace)) / residual;
  const squareP = (ypy - weigh(square)) / residual;
  const crossP = blocks.map((_, k) => (trace[k]! - weigh(cross[k]!)) / residual);
  const tracePP = (traceP - weigh(crossP)) / residual;
  const size = terms.length + 1;
  const information = Matrix.zeros(size, size);
  for (let k = 0; k < terms.length; k++) {
    for (let l = 0; l < terms.length; l++) information.set(k, l, cross[k]![l]! / 2);
    information.set(k, size - 1, crossP[k]! / 2);
    information.set(size - 1, k, crossP[k]! / 2);
  }
  information.set(size - 1, size - 1, tracePP / 2);
  return {
    deviance: n * Math.log(residual) + logDeterminant(cholesky) + logDeterminant(fixedCholesky) + ypy,
    score: [...trace.map((t, k) => (square[k]! - t) / 2), (squareP - traceP) / 2],
    information,
    fixed,
  };
}

function logDeterminant(cholesky: CholeskyDecomposition): number {
  const lower = cholesky.lowerTriangularMatrix;
  let total = 0;
  for (let i = 0; i < lower.rows; i++) total += 2 * Math.log(lower.get(i, i));
  return total;
}

/** Rounding makes a symmetric product differ from its transpose in the last place; the decomposition refuses that. */
function symmetric(matrix: Matrix): Matrix {
  return Matrix.add(matrix, matrix.transpose()).div(2);
}
