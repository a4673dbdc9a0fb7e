import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs, checkPositive, checkProbability } from "../numeric/guards.js";
import { tQuantile } from "../numeric/distributions.js";
import { crossDeviations, meanOf, squaredDeviations, sumOf, varianceOf } from "../numeric/sums.js";

export interface DemingOptions {
  /** Variance of the errors of y over that of x; default 1. */
  readonly errorRatio?: number;
  /** Level of the intervals; default 0.95. */
  readonly level?: number;
}

export interface LineBounds {
  readonly value: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

export interface LineFit {
  readonly slope: LineBounds;
  readonly intercept: LineBounds;
  readonly n: number;
}

/** Values whose spread is within this many units of their last place hold no line, only rounding. */
const roundings = 8;

function isAlike(values: readonly number[], squares: number): boolean {
  const largest = Math.max(...values.map(Math.abs));
  return squares <= values.length * (roundings * Number.EPSILON * largest) ** 2;
}

function demingLine(xs: readonly number[], ys: readonly number[], ratio: number): readonly [number, number] {
  const xx = squaredDeviations(xs);
  const yy = squaredDeviations(ys);
  const xy = crossDeviations(xs, ys);
  const isUnrelated = Math.abs(xy) <= xs.length * Number.EPSILON * Math.sqrt(xx * yy);
  if (isAlike(xs, xx) || isAlike(ys, yy) || isUnrelated)
    throw new Undetermined("Deming regression has no line where the two methods do not vary together");
  const half = (yy - ratio * xx) / 2;
  const root = Math.hypot(half, Math.sqrt(ratio) * xy);
  // The same root twice: the sum that loses no digits is the one of equal signs.
  const slope = half >= 0 ? (half + root) / xy : (ratio * xy) / (root - half);
  return [slope, meanOf(ys) - slope * meanOf(xs)];
}

/**
 * Deming regression with errors in both variables of known variance ratio λ: slope = (S_yy - λS_xx + √((S_yy - λS_xx)² +
 * 4λS_xy²))/(2S_xy), with jackknife standard errors and t_(n-2) intervals.
 * @param xs first method, at least four finite numbers
 * @param ys second method, paired with them
 * @param options errorRatio: λ = var(e_y)/var(e_x), default 1; level: default 0.95
 * @throws Undetermined on fewer than four pairs, where S_xy is 0 but for rounding, where the values of a method, all or all but
 * one, are equal but for rounding, and where the numbers leave the finite ones; RangeError on options out of range
 * Source: Linnet, Clinical Chemistry 36 (1990) 2027 and 39 (1993) 424.
 */
export function demingKernel(xs: readonly number[], ys: readonly number[], options: DemingOptions = {}): LineFit {
  checkOptions(options, ["errorRatio", "level"], "deming");
  const { errorRatio = 1, level = 0.95 } = options;
  checkPositive(errorRatio, "errorRatio");
  checkProbability(level, "level");
  checkPairs(xs, ys, 4, "Deming regression");
  const n = xs.length;
  const [slope, intercept] = demingLine(xs, ys, errorRatio);
  const without = (values: readonly number[], i: number): number[] => values.filter((_, j) => j !== i);
  const pseudo = xs.map((_, i) => {
    const [b, a] = demingLine(without(xs, i), without(ys, i), errorRatio);
    return [n * slope - (n - 1) * b, n * intercept - (n - 1) * a] as const;
  });
  const t = tQuantile((1 + level) / 2, n - 2);
  const bounds = (value: number, list: readonly number[]): LineBounds => {
    const standardError = Math.sqrt(varianceOf(list) / n);
    return { value, standardError, lower: value - t * standardError, upper: value + t * standardError };
  };
  const ofSlope = bounds(
    slope,
    pseudo.map(([b]) => b),
  );
  const ofIntercept = bounds(
    intercept,
    pseudo.map(([, a]) => a),
  );
  if (![ofSlope, ofIntercept].flatMap((part) => Object.values(part) as number[]).every(Number.isFinite))
    throw new Undetermined("Deming regression has no line that finite numbers can state");
  return { slope: ofSlope, intercept: ofIntercept, n };
}

const slopeShape = { value: "ratio", standardError: "ratio", lower: "ratio", upper: "ratio" } as const;
const interceptShape = { value: "same", standardError: "same", lower: "same", upper: "same" } as const;

/** Deming regression of two measured values of each item. */
export const deming = liftPaired(
  demingKernel,
  { slope: slopeShape, intercept: interceptShape, n: "count" },
  { name: "Deming regression" },
);

export interface FunctionalRelation {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeError: number;
  readonly interceptError: number;
  /** Σ W (y - a - bx)²; n - 2 is expected where the stated uncertainties are right. */
  readonly chiSquared: number;
}

/**
 * Straight line through points that each have their own standard uncertainties in x and y, by maximum likelihood: the least
 * Σ (y - a - bx)²/(u_y² + b² u_x²), solved by York's iteration.
 * @param xs finite numbers, at least three
 * @param ys paired with them
 * @param options ux, uy: standard uncertainty of each, at least 0, not both 0
 * @throws Undetermined on fewer than three pairs or no scatter in x; RangeError on uncertainties out of range
 * Source: Ripley and Thompson, Analyst 112 (1987) 377; York et al., American Journal of Physics 72 (2004) 367.
 */
export function functionalRelationKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly ux: readonly number[]; readonly uy: readonly number[] },
): FunctionalRelation {
  checkOptions(options, ["ux", "uy"], "functionalRelation");
  const { ux, uy } = options;
  checkPairs(xs, ys, 3, "a functional relation");
  checkPairs(ux, uy, 3, "the uncertainties of a functional relation");
  if (ux.length !== xs.length) throw new RangeError(`${xs.length} pairs but ${ux.length} uncertainties`);
  if (ux.some((u, i) => !(u >= 0 && uy[i]! >= 0 && u + uy[i]! > 0))) {
    throw new RangeError("uncertainties must be at least 0, and not both 0");
  }
  const xx = squaredDeviations(xs);
  if (xx === 0) throw new Undetermined("a functional relation needs scatter in x");
  let slope = crossDeviations(xs, ys) / xx;
  let weights: number[] = [];
  let mx = 0;
  let my = 0;
  let beta: number[] = [];
  for (let step = 0; step < 500; step++) {
    weights = ux.map((u, i) => 1 / (uy[i]! ** 2 + slope * slope * u * u));
    const total = sumOf(weights);
    mx = sumOf(xs.map((x, i) => weights[i]! * x)) / total;
    my = sumOf(ys.map((y, i) => weights[i]! * y)) / total;
    beta = xs.map((x, i) => weights[i]! * ((x - mx) * uy[i]! ** 2 + slope * (ys[i]! - my) * ux[i]! ** 2));
    const next =
      sumOf(beta.map((b, i) => weights[i]! * b * (ys[i]! - my))) /
      sumOf(beta.map((b, i) => weights[i]! * b * (xs[i]! - mx)));
    const change = Math.abs(next - slope);
    slope = next;
    if (!Number.isFinite(slope))
      throw new Undetermined("the line's slope does not settle; the points do not determine it");
    if (change <= 1e-14 * Math.abs(slope)) break;
  }
  const total = sumOf(weights);
  const intercept = my - slope * mx;
  const adjusted = beta.map((b) => mx + b);
  const centre = sumOf(adjusted.map((x, i) => weights[i]! * x)) / total;
  const slopeVariance = 1 / sumOf(adjusted.map((x, i) => weights[i]! * (x - centre) ** 2));
  return {
    slope,
    intercept,
    slopeError: Math.sqrt(slopeVariance),
    interceptError: Math.sqrt(1 / total + centre * centre * slopeVariance),
    chiSquared: sumOf(ys.map((y, i) => weights[i]! * (y - intercept - slope * xs[i]!) ** 2)),
  };
}
