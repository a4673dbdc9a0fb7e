import { backSolve, choleskyOf, crossProduct, forwardSolve, logDeterminant } from "../numeric/dense.js";
import type { Rows } from "../numeric/dense.js";
import { Undetermined } from "../numeric/guards.js";
import type { RemlDesign } from "./reml-design.js";

/** REML deviance, its gradient and information at variances (random terms, then residual). */
export interface RemlPoint {
  /** -2 times the restricted log-likelihood, less its constant. */
  readonly deviance: number;
  /** Derivative of the restricted log-likelihood by each variance. */
  readonly score: readonly number[];
  /** Expected information, always positive; and the observed one (minus the second derivatives). */
  readonly information: Rows;
  readonly observed: Rows;
  readonly fixed: readonly number[];
}

/**
 * Restricted likelihood at given variances, from cross products alone: with V = Σ σ_k² Z_k Z_k' + σ_e² I and P the usual
 * projection, the score is -(tr Z_k'PZ_k - |Z_k'Py|²)/2, the expected information |Z_k'PZ_l|²/2, and the observed one
 * y'PZ_kZ_k'PZ_lZ_l'Py less that.
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 6.6; Henderson's cross products 7.2.
 */
export function remlPoint(design: RemlDesign, variances: readonly number[]): RemlPoint {
  const { terms, n, p, zz, zx, zy, xx, xy, yy } = design;
  const residual = variances[terms.length]!;
  const q = zz.length;
  const root = terms.flatMap((term, k) => new Array<number>(term.levels).fill(Math.sqrt(variances[k]! / residual)));
  const inner = zz.map((row, i) => row.map((value, j) => root[i]! * value * root[j]! + (i === j ? 1 : 0)));
  const factor = choleskyOf(inner);
  if (factor === undefined) throw new Undetermined("the variances of reml leave the range of numbers");
  // One system for Z'Z, Z'X and Z'y together: A'V⁻¹B = (A'B - W_a'W_b)/σ_e².
  const all = zz.map((row, i) => [...row, ...zx[i]!, zy[i]!]);
  const solved = forwardSolve(
    factor,
    all.map((row, i) => row.map((value) => root[i]! * value)),
  );
  const reduced = crossProduct(solved, solved);
  const minus = (plain: number, i: number, j: number): number => (plain - reduced[i]![j]!) / residual;
  const xvx = xx.map((row, i) => row.map((value, j) => minus(value, q + i, q + j)));
  const xvy = xy.map((value, i) => minus(value, q + i, q + p));
  const yvy = minus(yy, q + p, q + p);
  const fixedFactor = choleskyOf(xvx);
  if (fixedFactor === undefined) throw new Undetermined("the fixed effects cannot be separated from one another");
  const right = Array.from({ length: p }, (_, i) => [
    ...Array.from({ length: q }, (__, j) => minus(zx[j]![i]!, j, q + i)),
    xvy[i]!,
  ]);
  const taken = forwardSolve(fixedFactor, right);
  const projected = crossProduct(taken, taken);
  const fixed = backSolve(
    fixedFactor,
    taken.map((row) => row[q]!),
  );
  const zpz = zz.map((row, i) => row.map((value, j) => minus(value, i, j) - projected[i]![j]!));
  const zpy = zy.map((value, i) => minus(value, i, q + p) - projected[i]![q]!);
  const ypy = yvy - projected[q]![q]!;
  const blocks = terms.map((term) => ({ from: term.start, to: term.start + term.levels }));
  const overBlock = (block: { from: number; to: number }, f: (i: number) => number): number => {
    let total = 0;
    for (let i = block.from; i < block.to; i++) total += f(i);
    return total;
  };
  const trace = blocks.map((block) => overBlock(block, (i) => zpz[i]![i]!));
  const square = blocks.map((block) => overBlock(block, (i) => zpy[i]! ** 2));
  const cross = blocks.map((a) => blocks.map((b) => overBlock(a, (i) => overBlock(b, (j) => zpz[i]![j]! ** 2))));
  const weigh = (list: readonly number[]): number => list.reduce((total, v, k) => total + v * variances[k]!, 0);
  // tr(PV) = n - p and PVP = P give what concerns the residual from what concerns the terms.
  const traceP = (n - p - weigh(trace)) / residual;
  const squareP = (ypy - weigh(square)) / residual;
  const crossP = blocks.map((_, k) => (trace[k]! - weigh(cross[k]!)) / residual);
  const tracePP = (traceP - weigh(crossP)) / residual;
  const information = bordered(
    cross.map((row) => row.map((value) => value / 2)),
    crossP.map((value) => value / 2),
    tracePP / 2,
  );
  // Z_k'PZ_l Z_l'Py, and from it Z_k'PPy.
  const twice = blocks.map((block) => zpz.map((row) => overBlock(block, (j) => row[j]! * zpy[j]!)));
  const zppy = zpy.map(
    (value, i) => (value - blocks.reduce((t, _, l) => t + variances[l]! * twice[l]![i]!, 0)) / residual,
  );
  const ofBlock = blocks.map((block) => overBlock(block, (i) => zpy[i]! * zppy[i]!));
  const average = bordered(
    blocks.map((a) => blocks.map((_, l) => overBlock(a, (i) => zpy[i]! * twice[l]![i]!))),
    ofBlock,
    (squareP - weigh(ofBlock)) / residual,
  );
  return {
    deviance: n * Math.log(residual) + logDeterminant(factor) + logDeterminant(fixedFactor) + ypy,
    score: [...trace.map((t, k) => (square[k]! - t) / 2), (squareP - traceP) / 2],
    information,
    observed: average.map((row, k) => row.map((value, l) => value - information[k]![l]!)),
    fixed,
  };
}

/** A symmetric matrix with one more row and column. */
function bordered(inner: Rows, edge: readonly number[], corner: number): Rows {
  return [...inner.map((row, k) => [...row, edge[k]!]), [...edge, corner]];
}
