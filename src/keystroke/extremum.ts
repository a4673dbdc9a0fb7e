import type { LocalFit } from "./local-fit.js";
import { formAt, leverage, valueAt } from "./local-fit.js";
import type { Stretch } from "./local-value.js";
import { localValue, parabola } from "./local-value.js";
import { readingNoise } from "./noise.js";
import type { Profile } from "./profile.js";

/** A peak (or valley) of a curve, as the vertex of a local parabola. */
export interface Extremum {
  readonly xMm: number;
  readonly forceCn: number;
  /** Standard uncertainties from noise, and from smoothing. */
  readonly noiseMm: number;
  readonly noiseCn: number;
  readonly smoothingMm: number;
  readonly smoothingCn: number;
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
}

/** Shares of the method's window: narrower ones, tried where the parabola misses the readings. */
const narrower = [1, 0.7, 0.5, 0.35] as const;
/** A wider window is tried while the place is uncertain by more than this share of the method's window. */
const uncertainShare = 1 / 10;
/** Wider windows grow by this factor, up to this multiple of the method's. */
const growth = 1.4;
const widest = 4;
/** ... and only while the vertex moves by at most this many standard uncertainties of that move. */
const agreement = 2;

/**
 * Vertex of a local parabola near a candidate. The window is the method's; narrower where the parabola misses the readings
 * by more than the tolerance and three times their noise (a corner); wider, up to four times, where the top is so flat
 * that the window leaves the place uncertain by more than a tenth of its width, as long as the parabola still fits and its
 * vertex agrees with the narrower one's.
 *
 * @returns null where no window has an extremum of that sign inside the stretch
 */
export function refineExtremum(profile: Profile, candidateMm: number, options: ExtremumOptions): Extremum | null {
  const { windowMm, stepCn, toleranceCn } = options;
  const sigma = readingNoise(profile, candidateMm - windowMm, candidateMm + windowMm, stepCn);
  const acceptable = Math.max(3 * sigma, toleranceCn);
  let best: Vertex | null = null;
  for (const share of narrower) {
    best = vertexNear(profile, candidateMm, (share * windowMm) / 2, sigma, options);
    if (best !== null && Math.sqrt(best.fit.variance) <= acceptable) break;
    best = null;
  }
  if (best === null) return null;
  while (best.noiseMm > uncertainShare * windowMm && best.halfWidthMm * growth <= (widest * windowMm) / 2) {
    const wide: Vertex | null = vertexNear(profile, best.xMm, best.halfWidthMm * growth, sigma, options);
    if (wide === null || Math.sqrt(wide.fit.variance) > acceptable || wide.noiseMm >= best.noiseMm) break;
    if (Math.abs(wide.xMm - best.xMm) > agreement * Math.sqrt(best.noiseMm ** 2 - wide.noiseMm ** 2)) break;
    best = wide;
  }
  return described(profile, best, sigma, options);
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
  const shift = -slope / (2 * half);
  const variance = Math.max(sigma ** 2, fit.variance) * leverage(fit, [0, 1, 2 * shift]);
  return { xMm: centre, fit, halfWidthMm, noiseMm: Math.sqrt(variance) / Math.abs(2 * half) };
}

function described(profile: Profile, vertex: Vertex, sigma: number, options: ExtremumOptions): Extremum {
  const { fit, xMm, halfWidthMm } = vertex;
  const residual = Math.max(sigma ** 2, fit.variance);
  const narrow = vertexNear(profile, xMm, halfWidthMm / 2, sigma, options);
  const forceCn = valueAt(fit, xMm);
  const forceVariance = residual * leverage(fit, formAt(fit, xMm));
  const beyond = (change: number, noise: number): number => Math.sqrt(Math.max(0, change ** 2 - Math.max(0, noise)));
  return {
    xMm,
    forceCn,
    noiseMm: vertex.noiseMm,
    noiseCn: Math.sqrt(forceVariance),
    smoothingMm: narrow === null ? 0 : beyond(narrow.xMm - xMm, narrow.noiseMm ** 2 - vertex.noiseMm ** 2),
    smoothingCn:
      narrow === null
        ? 0
        : beyond(
            valueAt(narrow.fit, narrow.xMm) - forceCn,
            residual * leverage(narrow.fit, formAt(narrow.fit, narrow.xMm)) - forceVariance,
          ),
    dof: Math.max(1, fit.dof),
    halfWidthMm,
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
    smoothingMm: 0,
    smoothingCn: value.smoothingCn,
    dof: value.dof,
    halfWidthMm: value.halfWidthMm,
  };
}
