import type { LocalFit } from "./local-fit.js";
import { cubicTerm, formAt, leverage, localFit, lowerBound, slopeAt, valueAt } from "./local-fit.js";
import type { Smoothing, Stretch } from "./local-value.js";
import { forceBiasFactor, localValue, parabola } from "./local-value.js";
import { readingNoise } from "./noise.js";
import type { Profile } from "./profile.js";

/** A peak (or valley) of a curve, as the vertex of a local parabola. */
export interface Extremum {
  readonly xMm: number;
  readonly forceCn: number;
  /** Standard uncertainties from noise. */
  readonly noiseMm: number;
  readonly noiseCn: number;
  /** Bias of the place, by the asymmetry that a cubic sees; of the force, by what half the window changes; null: unknown. */
  readonly smoothingMm: Smoothing | null;
  readonly smoothingCn: Smoothing | null;
  /** Second derivative of the fit, below 0 at a peak, cN/mm²; 0 where no parabola has its vertex. */
  readonly bend: number;
  readonly dof: number;
  readonly halfWidthMm: number;
}

export interface ExtremumOptions {
  /** 1 for a peak, -1 for a valley. */
  readonly sign: 1 | -1;
  readonly windowMm: number;
  readonly stretch: Stretch;
  /** How far, on average, a parabola may miss the readings before its window counts as too wide, cN. */
  readonly toleranceCn: number;
  /** Resolution of the force, cN. */
  readonly stepCn: number;
}

interface Vertex {
  readonly xMm: number;
  readonly fit: LocalFit;
  readonly halfWidthMm: number;
  readonly noiseMm: number;
  /** Second derivative that its place and noise rest on. */
  readonly bend: number;
}

/** Shares of the method's window: narrower ones, tried where the parabola misses the readings ... */
const narrower = [0.7, 0.5, 0.35] as const;
/** ... and wider ones, tried while the place is uncertain by more than a share of the method's window. */
const wider = [1, 1.4, 2, 2.8, 4] as const;
const uncertainShare = 1 / 10;
/** A bend counts from this many standard uncertainties; less is noise, whose vertex means nothing. */
const significance = 3;
/** A wider window's vertex may move by this many standard uncertainties of that move. */
const agreement = 2;

/**
 * Vertex of a local parabola near a candidate. The window is the method's; narrower where the parabola misses the readings
 * by more than the tolerance and three times their noise (a corner); wider, up to four times, where the top is so flat
 * that the window would leave its place uncertain by more than a tenth of the method's window.
 *
 * How flat the top is, is taken from the widest window whose parabola still fits and whose vertex agrees with the narrower
 * ones', as only that shows a bend clear of the noise. A narrow window must not be chosen by the bend that it shows itself:
 * where noise makes it look sharp, noise has also raised its peak.
 *
 * @returns null where no window has an extremum of that sign inside the stretch
 */
export function refineExtremum(profile: Profile, candidateMm: number, options: ExtremumOptions): Extremum | null {
  const { windowMm, stepCn, toleranceCn, stretch } = options;
  const sigma = readingNoise(profile, candidateMm - windowMm, candidateMm + windowMm, stepCn);
  const acceptable = Math.max(3 * sigma, toleranceCn);
  const isGood = (fit: LocalFit): boolean => Math.sqrt(fit.variance) <= acceptable;
  const usual = parabola(profile, candidateMm, windowMm / 2, stretch);
  let widest: Vertex | null = null;
  if (usual !== null && isGood(usual)) {
    for (const share of wider) {
      const centre: number = widest?.xMm ?? candidateMm;
      const wide = vertexNear(profile, centre, (share * windowMm) / 2, sigma, options);
      if (wide === null) continue;
      if (!isGood(wide.fit) || (widest !== null && !agrees(widest, wide))) break;
      widest = wide;
    }
  }
  let best: Vertex | null = widest && narrowestSure(profile, widest, sigma, options);
  for (const share of narrower) {
    if (best !== null) break;
    const narrow = vertexNear(profile, candidateMm, (share * windowMm) / 2, sigma, options);
    if (narrow !== null && isGood(narrow.fit)) best = narrow;
  }
  return best === null ? null : described(profile, best, sigma, options);
}

/** The narrowest window from the method's on that leaves the place certain enough, by the bend of the widest; else that. */
function narrowestSure(profile: Profile, widest: Vertex, sigma: number, options: ExtremumOptions): Vertex {
  const { windowMm } = options;
  for (const share of wider) {
    const halfWidthMm = (share * windowMm) / 2;
    if (!(halfWidthMm < widest.halfWidthMm)) break;
    const found = levelNear(profile, widest, halfWidthMm, sigma, options);
    if (found !== null && found.noiseMm <= uncertainShare * windowMm) return found;
  }
  return widest;
}

/**
 * Where a narrower window's slope passes 0, nearest to a vertex: between two positions, by straight interpolation of the
 * slopes there. Its noise goes by the vertex's bend, not its own.
 */
function levelNear(
  profile: Profile,
  vertex: Vertex,
  halfWidthMm: number,
  sigma: number,
  { stretch, sign }: ExtremumOptions,
): Vertex | null {
  const { xMm: positions } = profile;
  const from = Math.max(stretch.fromMm, vertex.xMm - 2 * halfWidthMm);
  const to = Math.min(stretch.toMm, vertex.xMm + 2 * halfWidthMm);
  let nearest: number | null = null;
  let before: { readonly x: number; readonly slope: number } | null = null;
  for (let i = lowerBound(positions, from); i < positions.length && positions[i]! <= to; i++) {
    const x = positions[i]!;
    const fit = parabola(profile, x, halfWidthMm, stretch);
    if (fit === null) return null;
    const slope = sign * slopeAt(fit, x);
    if (before !== null && before.slope > 0 && slope <= 0) {
      const place = before.x + (before.slope / (before.slope - slope)) * (x - before.x);
      if (nearest === null || Math.abs(place - vertex.xMm) < Math.abs(nearest - vertex.xMm)) nearest = place;
    }
    before = { x, slope };
  }
  const fit = nearest === null ? null : parabola(profile, nearest, halfWidthMm, stretch);
  if (nearest === null || fit === null) return null;
  const variance = Math.max(sigma ** 2, fit.variance) * leverage(fit, [0, 1, 0]);
  return { xMm: nearest, fit, halfWidthMm, noiseMm: Math.sqrt(variance) / Math.abs(vertex.bend), bend: vertex.bend };
}

function agrees(narrow: Vertex, wide: Vertex): boolean {
  const variance = narrow.noiseMm ** 2 - wide.noiseMm ** 2;
  return variance > 0 && Math.abs(wide.xMm - narrow.xMm) <= agreement * Math.sqrt(variance);
}

function vertexNear(
  profile: Profile,
  candidateMm: number,
  halfWidthMm: number,
  sigma: number,
  options: ExtremumOptions,
): Vertex | null {
  const { sign, stretch } = options;
  let centre = candidateMm;
  let fit: LocalFit | null = null;
  for (let round = 0; round < 6; round++) {
    fit = parabola(profile, centre, halfWidthMm, stretch);
    if (fit === null || !(sign * fit.coefficients[2] < 0)) return null;
    const vertex = fit.centreMm - fit.coefficients[1] / (2 * fit.coefficients[2]);
    const isInside = vertex > stretch.fromMm && vertex < stretch.toMm;
    if (!isInside || Math.abs(vertex - candidateMm) > 2 * halfWidthMm) return null;
    const moved = Math.abs(vertex - centre);
    centre = vertex;
    if (moved < 1e-4) break;
  }
  if (fit === null) return null;
  const [, slope, half] = fit.coefficients;
  const residual = Math.max(sigma ** 2, fit.variance);
  if (!(Math.abs(half) > significance * Math.sqrt(residual * leverage(fit, [0, 0, 1])))) return null;
  const shift = -slope / (2 * half);
  const variance = residual * leverage(fit, [0, 1, 2 * shift]);
  return { xMm: centre, fit, halfWidthMm, noiseMm: Math.sqrt(variance) / Math.abs(2 * half), bend: 2 * half };
}

function described(profile: Profile, vertex: Vertex, sigma: number, options: ExtremumOptions): Extremum {
  const { fit, xMm, halfWidthMm, bend } = vertex;
  const residual = Math.max(sigma ** 2, fit.variance);
  const narrow = vertexNear(profile, xMm, halfWidthMm / 2, sigma, options);
  const forceCn = valueAt(fit, xMm);
  const forceVariance = residual * leverage(fit, formAt(fit, xMm));
  const cubic = cubicTerm(profile, fit, xMm);
  const forceChange = narrow === null ? 0 : forceCn - valueAt(narrow.fit, narrow.xMm);
  const changeVariance =
    narrow === null ? 0 : residual * leverage(narrow.fit, formAt(narrow.fit, narrow.xMm)) - forceVariance;
  return {
    xMm,
    forceCn,
    noiseMm: vertex.noiseMm,
    noiseCn: Math.sqrt(forceVariance),
    smoothingMm: { bias: -cubic.slopeExcess / bend, noise: (cubic.perNoise * Math.sqrt(residual)) / Math.abs(bend) },
    smoothingCn:
      narrow === null
        ? null
        : { bias: forceBiasFactor * forceChange, noise: forceBiasFactor * Math.sqrt(Math.max(0, changeVariance)) },
    bend,
    dof: Math.max(1, fit.dof),
    halfWidthMm,
  };
}

/**
 * A peak (or valley) that is a corner, where no parabola fits: the meeting point of straight lines over a quarter of the
 * window on each side of the candidate. Null where they do not meet there, do not rise and fall, are not
 * straight (to the tolerance, or half a position along), or hold fewer than three positions.
 */
export function cornerExtremum(profile: Profile, candidateMm: number, options: ExtremumOptions): Extremum | null {
  const { sign, windowMm, stretch, stepCn } = options;
  const reach = windowMm / 4;
  const gap = profile.spacingMm / 2;
  const left = localFit(profile, candidateMm, Math.max(stretch.fromMm, candidateMm - reach), candidateMm - gap, 1);
  const right = localFit(profile, candidateMm, candidateMm + gap, Math.min(stretch.toMm, candidateMm + reach), 1);
  if (left === null || right === null || left.count < 3 || right.count < 3) return null;
  const turn = sign * (left.coefficients[1] - right.coefficients[1]);
  if (!(sign * left.coefficients[1] > 0 && sign * right.coefficients[1] < 0)) return null;
  const xMm = candidateMm + (sign * (right.coefficients[0] - left.coefficients[0])) / turn;
  if (!(Math.abs(xMm - candidateMm) <= reach)) return null;
  const sigma = readingNoise(profile, candidateMm - windowMm, candidateMm + windowMm, stepCn);
  const isStraight = (fit: LocalFit): boolean =>
    Math.sqrt(fit.variance) <= Math.max(3 * sigma, options.toleranceCn, Math.abs(fit.coefficients[1]) * gap);
  if (!isStraight(left) || !isStraight(right)) return null;
  const varianceOf = (fit: LocalFit): number => Math.max(sigma ** 2, fit.variance) * leverage(fit, formAt(fit, xMm));
  const [a, b] = [varianceOf(left), varianceOf(right)];
  const flat = sign * left.coefficients[1] < -sign * right.coefficients[1] ? left : right;
  return {
    xMm,
    forceCn: valueAt(flat, xMm),
    noiseMm: Math.sqrt(a + b) / turn,
    noiseCn: Math.sqrt(varianceOf(flat)),
    smoothingMm: null,
    smoothingCn: null,
    bend: 0,
    dof: Math.max(1, flat.dof),
    halfWidthMm: reach,
  };
}

/**
 * The extremum at a place where no parabola has its vertex, such as a valley at the end of the stretch: force by the local
 * value there, place uncertain by a quarter of the window either way (rectangular). Null without readings.
 */
export function extremumAt(profile: Profile, xMm: number, options: ExtremumOptions): Extremum | null {
  const value = localValue(profile, xMm, options.windowMm, options.stretch, options.stepCn);
  if (value === null) return null;
  return {
    xMm,
    forceCn: value.forceCn,
    noiseMm: options.windowMm / 4 / Math.sqrt(3),
    noiseCn: value.noiseCn,
    smoothingMm: null,
    smoothingCn: value.smoothingCn,
    bend: 0,
    dof: value.dof,
    halfWidthMm: value.halfWidthMm,
  };
}
