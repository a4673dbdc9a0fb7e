import type { Profile } from "./profile.js";

/** A polynomial of degree 2 at most, fitted by least squares to the readings near a centre. */
export interface LocalFit {
  /** Position about which the polynomial is written, mm. */
  readonly centreMm: number;
  /** Force at the centre (cN), its slope (cN/mm) and half its second derivative (cN/mm²); 0 above the degree. */
  readonly coefficients: readonly [number, number, number];
  /** (X'X)⁻¹: times the residual variance, the covariance of the coefficients. */
  readonly inverse: readonly (readonly [number, number, number])[];
  /** Residual variance, cN²; 0 where no degree of freedom is left. */
  readonly variance: number;
  /** Positions fitted, and positions less coefficients. */
  readonly count: number;
  readonly dof: number;
  /** Positions of the profile that were fitted: from `first` up to, not including, `end`. */
  readonly first: number;
  readonly end: number;
}

/** First index of ascending positions that is not below `xMm`. */
export function lowerBound(positions: Float64Array, xMm: number): number {
  let low = 0;
  let high = positions.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (positions[middle]! < xMm) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Least-squares polynomial of force over displacement through all positions from `fromMm` to `toMm` (ends included),
 * written about `centreMm`. Evenly spaced positions give the coefficients of Savitzky and Golay, Analytical Chemistry 36
 * (1964) 1627, with end points as their polynomial; uneven and repeated positions are weighted as they fall.
 *
 * @param profile positions ascending (ties allowed), finite
 * @param degree 0, 1 or 2
 * @returns null where the stretch holds too few different positions for the degree
 */
export function localFit(
  profile: Profile,
  centreMm: number,
  fromMm: number,
  toMm: number,
  degree: 0 | 1 | 2,
): LocalFit | null {
  const { xMm, forceCn } = profile;
  const slack = 1e-9 * Math.max(1, Math.abs(centreMm));
  const from = lowerBound(xMm, fromMm - slack);
  const to = lowerBound(xMm, toMm + slack);
  const count = to - from;
  if (count <= degree) return null;
  const scale = Math.max(xMm[to - 1]! - centreMm, centreMm - xMm[from]!);
  if (!(scale > 0)) return degree === 0 ? constantFit(profile, centreMm, from, to) : null;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let y0 = 0;
  let y1 = 0;
  let y2 = 0;
  for (let i = from; i < to; i++) {
    const t = (xMm[i]! - centreMm) / scale;
    const t2 = t * t;
    const y = forceCn[i]!;
    s1 += t;
    s2 += t2;
    s3 += t2 * t;
    s4 += t2 * t2;
    y0 += y;
    y1 += t * y;
    y2 += t2 * y;
  }
  const inverse = invertMoments(count, s1, s2, s3, s4, degree);
  if (inverse === null) return null;
  const scaled = inverse.map((row) => row[0] * y0 + row[1] * y1 + row[2] * y2) as [number, number, number];
  let squares = 0;
  for (let i = from; i < to; i++) {
    const t = (xMm[i]! - centreMm) / scale;
    squares += (forceCn[i]! - scaled[0] - t * (scaled[1] + t * scaled[2])) ** 2;
  }
  const dof = count - degree - 1;
  const perMm = [1, 1 / scale, 1 / scale ** 2] as const;
  return {
    centreMm,
    coefficients: [scaled[0], scaled[1] * perMm[1], scaled[2] * perMm[2]],
    inverse: inverse.map((row, i) => row.map((value, j) => value * perMm[i]! * perMm[j]!) as [number, number, number]),
    variance: dof > 0 ? squares / dof : 0,
    count,
    dof,
    first: from,
    end: to,
  };
}

/** Force of a fit at a position, cN. */
export function valueAt(fit: LocalFit, xMm: number): number {
  const t = xMm - fit.centreMm;
  return fit.coefficients[0] + t * (fit.coefficients[1] + t * fit.coefficients[2]);
}

/** Slope of a fit at a position, cN/mm. */
export function slopeAt(fit: LocalFit, xMm: number): number {
  return fit.coefficients[1] + 2 * fit.coefficients[2] * (xMm - fit.centreMm);
}

/** Variance of a linear form in the coefficients per unit of residual variance. */
export function leverage(fit: LocalFit, form: readonly [number, number, number]): number {
  return fit.inverse.reduce(
    (total, row, i) => total + form[i]! * (row[0] * form[0] + row[1] * form[1] + row[2] * form[2]),
    0,
  );
}

/** The linear form that gives the force at a position. */
export function formAt(fit: LocalFit, xMm: number): readonly [number, number, number] {
  const t = xMm - fit.centreMm;
  return [1, t, t * t];
}

/** What a third-degree term would add to a parabola: how much slope the parabola shows that a cubic would not. */
export interface CubicTerm {
  /** Slope of the parabola less slope of the cubic at a place, cN/mm. */
  readonly slopeExcess: number;
  /** Standard uncertainty of that per unit of noise of one position. */
  readonly perNoise: number;
}

/**
 * Compares a parabola with the cubic through the same positions, by the part of t³ that a parabola cannot follow
 * (orthogonal to 1, t, t² over the positions fitted); both 0 where there are fewer than five positions.
 */
export function cubicTerm(profile: Profile, fit: LocalFit, xMm: number): CubicTerm {
  if (fit.count < 5) return { slopeExcess: 0, perNoise: 0 };
  const at = (i: number): number => profile.xMm[i]! - fit.centreMm;
  const sums = [0, 0, 0];
  for (let i = fit.first; i < fit.end; i++) {
    const t = at(i);
    sums[0]! += t ** 3;
    sums[1]! += t ** 4;
    sums[2]! += t ** 5;
  }
  const [b0, b1, b2] = fit.inverse.map((row) => row[0] * sums[0]! + row[1] * sums[1]! + row[2] * sums[2]!);
  let squares = 0;
  let product = 0;
  for (let i = fit.first; i < fit.end; i++) {
    const t = at(i);
    const beyond = t ** 3 - (b0! + t * (b1! + t * b2!));
    squares += beyond ** 2;
    product += beyond * (profile.forceCn[i]! - valueAt(fit, profile.xMm[i]!));
  }
  if (!(squares > 0)) return { slopeExcess: 0, perNoise: 0 };
  const t = xMm - fit.centreMm;
  const form = b1! + 2 * b2! * t - 3 * t * t;
  return { slopeExcess: (product / squares) * form, perNoise: Math.abs(form) / Math.sqrt(squares) };
}

function constantFit(profile: Profile, centreMm: number, from: number, to: number): LocalFit {
  let total = 0;
  for (let i = from; i < to; i++) total += profile.forceCn[i]!;
  const count = to - from;
  const mean = total / count;
  let squares = 0;
  for (let i = from; i < to; i++) squares += (profile.forceCn[i]! - mean) ** 2;
  const variance = count > 1 ? squares / (count - 1) : 0;
  const inverse = [[1 / count, 0, 0] as const, [0, 0, 0] as const, [0, 0, 0] as const];
  return { centreMm, coefficients: [mean, 0, 0], inverse, variance, count, dof: count - 1, first: from, end: to };
}

/** Inverse of the moment matrix, padded with zeros above the degree; null where it is singular to rounding. */
function invertMoments(
  s0: number,
  s1: number,
  s2: number,
  s3: number,
  s4: number,
  degree: 0 | 1 | 2,
): readonly (readonly [number, number, number])[] | null {
  const none = [0, 0, 0] as const;
  if (degree === 0) return [[1 / s0, 0, 0], none, none];
  const d1 = s0 * s2 - s1 * s1;
  if (!(d1 > 1e-12 * s0 * s2)) return null;
  if (degree === 1) return [[s2 / d1, -s1 / d1, 0], [-s1 / d1, s0 / d1, 0], none];
  const a = s2 * s4 - s3 * s3;
  const b = s2 * s3 - s1 * s4;
  const c = s1 * s3 - s2 * s2;
  const d2 = s0 * a + s1 * b + s2 * c;
  if (!(d2 > 1e-12 * s0 * s2 * s4)) return null;
  const e = s0 * s4 - s2 * s2;
  const f = s1 * s2 - s0 * s3;
  return [
    [a / d2, b / d2, c / d2],
    [b / d2, e / d2, f / d2],
    [c / d2, f / d2, d1 / d2],
  ];
}
