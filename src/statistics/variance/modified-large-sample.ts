import { checkProbability } from "../numeric/guards.js";
import { fQuantile } from "../numeric/distributions.js";

/** One mean square in a variance component: coefficient (of either sign), mean square and its degrees of freedom. */
export interface MeanSquareTerm {
  readonly coefficient: number;
  readonly meanSquare: number;
  readonly dof: number;
}

/** A variance component with its interval. */
export interface VarianceComponent {
  /** The estimate, 0 where the raw one is negative. */
  readonly variance: number;
  /** The estimate before negative ones are set to 0; the page shows "0 (estimate -x)". */
  readonly raw: number;
  /** Null where the procedure gives no interval. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** Square root of `variance`. */
  readonly sd: number;
}

/** Shape of a variance component for `lift`. */
export const componentShape = {
  variance: "squared",
  raw: "squared",
  lower: "squared",
  upper: "squared",
  sd: "same",
} as const;

/**
 * Modified-large-sample interval of a linear combination Σ c S² of independent mean squares with coefficients of either sign;
 * ends below 0 are 0. Exact where there is one term; for all-positive sums it is that of Graybill and Wang.
 * @param terms at least one term with a coefficient other than 0 and degrees of freedom of at least 1
 * @param options level: default 0.95
 * @throws RangeError on no terms and on degrees of freedom below 1
 * Source: Ting, Burdick, Graybill, Jeyaratnam and Lu, Journal of Statistical Computation and Simulation 35 (1990) 135;
 * Burdick and Graybill, Confidence Intervals on Variance Components (1992), 3.2 and 3.3.
 */
export function modifiedLargeSampleKernel(
  terms: readonly MeanSquareTerm[],
  options: { readonly level?: number } = {},
): VarianceComponent {
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  const used = terms.filter((term) => term.coefficient !== 0);
  if (used.length === 0) throw new RangeError("a variance component needs at least one mean square");
  for (const term of used) {
    if (!(term.dof >= 1)) throw new RangeError(`a mean square has ${term.dof} degrees of freedom; at least 1`);
  }
  const raw = used.reduce((total, term) => total + term.coefficient * term.meanSquare, 0);
  // The formulas are for one-sided limits of level 1 - alpha.
  const alpha = (1 - level) / 2;
  const lower = Math.max(0, raw - Math.sqrt(Math.max(0, spread(used, alpha, "lower"))));
  const upper = Math.max(0, raw + Math.sqrt(Math.max(0, spread(used, alpha, "upper"))));
  return { variance: Math.max(0, raw), raw, lower, upper, sd: Math.sqrt(Math.max(0, raw)) };
}

/** Upper alpha point of F. */
const point = (alpha: number, dof1: number, dof2: number): number => fQuantile(1 - alpha, dof1, dof2);

function spread(terms: readonly MeanSquareTerm[], alpha: number, side: "lower" | "upper"): number {
  // For the upper limit the negative terms take the part of the positive ones, and alpha's tails change.
  const size = (term: MeanSquareTerm): number => Math.abs(term.coefficient) * term.meanSquare;
  const g = (dof: number): number => 1 - 1 / point(alpha, dof, Infinity);
  const h = (dof: number): number => 1 / point(1 - alpha, dof, Infinity) - 1;
  const near = terms.filter((term) => (side === "lower" ? term.coefficient > 0 : term.coefficient < 0));
  const far = terms.filter((term) => (side === "lower" ? term.coefficient < 0 : term.coefficient > 0));
  let total = 0;
  for (const term of near) total += (g(term.dof) * size(term)) ** 2;
  for (const term of far) total += (h(term.dof) * size(term)) ** 2;
  for (const a of near) {
    for (const b of far) total += cross(a, b, alpha, side) * size(a) * size(b);
  }
  if (far.length === 0) return total;
  for (let i = 0; i < near.length; i++) {
    for (let j = i + 1; j < near.length; j++) {
      total += (pair(near[i]!.dof, near[j]!.dof, alpha) / (near.length - 1)) * size(near[i]!) * size(near[j]!);
    }
  }
  return total;
}

function cross(a: MeanSquareTerm, b: MeanSquareTerm, alpha: number, side: "lower" | "upper"): number {
  const g = 1 - 1 / point(alpha, a.dof, Infinity);
  const h = 1 / point(1 - alpha, b.dof, Infinity) - 1;
  if (side === "lower") {
    const f = point(alpha, a.dof, b.dof);
    return ((f - 1) ** 2 - g * g * f * f - h * h) / f;
  }
  const f = point(1 - alpha, b.dof, a.dof);
  return ((1 - f) ** 2 - h * h * f * f - g * g) / f;
}

function pair(dof1: number, dof2: number, alpha: number): number {
  const both = dof1 + dof2;
  const g1 = 1 - 1 / point(alpha, dof1, Infinity);
  const g2 = 1 - 1 / point(alpha, dof2, Infinity);
  const g = 1 - 1 / point(alpha, both, Infinity);
  return (g * g * both * both) / (dof1 * dof2) - (g1 * g1 * dof1) / dof2 - (g2 * g2 * dof2) / dof1;
}
