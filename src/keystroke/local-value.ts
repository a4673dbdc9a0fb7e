import type { LocalFit } from "./local-fit.js";
import { formAt, leverage, localFit, lowerBound, slopeAt, valueAt } from "./local-fit.js";
import { readingNoise } from "./noise.js";
import type { Profile } from "./profile.js";

/** A stretch of displacement inside which fits may look, so that an edge outside is never smeared in. */
export interface Stretch {
  readonly fromMm: number;
  readonly toMm: number;
}

/** Force of a curve at one place, read off a local parabola. */
export interface LocalValue {
  readonly forceCn: number;
  readonly slope: number;
  /** Standard uncertainty from the noise of the readings through the fit, and its degrees of freedom. */
  readonly noiseCn: number;
  readonly dof: number;
  /** Bias of the window, by what half of it changes; null where half of it holds too few positions. */
  readonly smoothingCn: Smoothing | null;
  readonly halfWidthMm: number;
}

/** An estimate of what a window does to a value: how much, and the standard uncertainty of that from noise. */
export interface Smoothing {
  readonly bias: number;
  readonly noise: number;
}

/**
 * Bias of a parabola's force over what half the window changes: it goes by the fourth derivative and the fourth power of
 * the window, so the change is 15/16 of it.
 */
export const forceBiasFactor = 16 / 15;

/** A local parabola needs at least this many positions. */
export const leastPositions = 5;
/** Windows tried, as shares of the method's, narrow to wide. */
const shares = [0.35, 0.5, 0.7, 1] as const;
/** Two windows agree when their values differ by at most this many standard uncertainties of the difference. */
const agreement = 3;

/**
 * Force at a place by a local parabola over the method's window, or a narrower one where the curve bends so sharply that
 * the window's value leaves those of narrower windows by more than three standard uncertainties (intersection of
 * confidence intervals; Goldenshluger and Nemirovski, Mathematical Methods of Statistics 6 (1997) 135). Near the ends of
 * the stretch the window is cut, not shifted.
 *
 * @param windowMm full width, above 0; widened where it holds fewer than five positions
 * @param stepCn resolution of the force
 * @returns null where the stretch holds fewer than three positions
 */
export function localValue(
  profile: Profile,
  xMm: number,
  windowMm: number,
  stretch: Stretch,
  stepCn: number,
): LocalValue | null {
  const sigma = readingNoise(profile, xMm - windowMm, xMm + windowMm, stepCn);
  let chosen: LocalFit | null = null;
  let halfWidthMm = windowMm / 2;
  const kept: { value: number; variance: number }[] = [];
  for (const share of shares) {
    const fit = parabola(profile, xMm, (share * windowMm) / 2, stretch);
    if (fit === null) continue;
    const value = valueAt(fit, xMm);
    const variance = sigma ** 2 * leverage(fit, formAt(fit, xMm));
    const leaves = kept.some(
      (narrow) =>
        Math.abs(narrow.value - value) > agreement * Math.sqrt(Math.max(narrow.variance - variance, variance / 4)),
    );
    if (leaves) break;
    kept.push({ value, variance });
    chosen = fit;
    halfWidthMm = (share * windowMm) / 2;
  }
  if (chosen === null) {
    const wide = widened(profile, xMm, windowMm / 2, stretch);
    chosen =
      localFit(profile, xMm, wide.fromMm, wide.toMm, 2) ??
      localFit(profile, xMm, wide.fromMm, wide.toMm, 1) ??
      localFit(profile, xMm, wide.fromMm, wide.toMm, 0);
    if (chosen === null) return null;
    halfWidthMm = Math.max(xMm - wide.fromMm, wide.toMm - xMm);
  }
  const residualSd = Math.max(sigma, Math.sqrt(chosen.variance));
  const noiseVariance = residualSd ** 2 * leverage(chosen, formAt(chosen, xMm));
  return {
    forceCn: valueAt(chosen, xMm),
    slope: slopeAt(chosen, xMm),
    noiseCn: Math.sqrt(Math.max(0, noiseVariance)),
    dof: Math.max(1, chosen.dof),
    smoothingCn: smoothing(profile, xMm, halfWidthMm, stretch, chosen, residualSd),
    halfWidthMm,
  };
}

/** A parabola over a window cut to the stretch; null with fewer than five positions. */
export function parabola(profile: Profile, xMm: number, halfWidthMm: number, stretch: Stretch): LocalFit | null {
  const from = Math.max(stretch.fromMm, xMm - halfWidthMm);
  const to = Math.min(stretch.toMm, xMm + halfWidthMm);
  const fit = localFit(profile, xMm, from, to, 2);
  return fit !== null && fit.count >= leastPositions ? fit : null;
}

function smoothing(
  profile: Profile,
  xMm: number,
  halfWidthMm: number,
  stretch: Stretch,
  fit: LocalFit,
  residualSd: number,
): Smoothing | null {
  const narrow = parabola(profile, xMm, halfWidthMm / 2, stretch);
  if (narrow === null) return null;
  const change = valueAt(fit, xMm) - valueAt(narrow, xMm);
  const variance = leverage(narrow, formAt(narrow, xMm)) - leverage(fit, formAt(fit, xMm));
  return { bias: forceBiasFactor * change, noise: forceBiasFactor * residualSd * Math.sqrt(Math.max(0, variance)) };
}

/** A window widened until it holds five positions, or all of the stretch. */
function widened(profile: Profile, xMm: number, halfWidthMm: number, stretch: Stretch): Stretch {
  let half = halfWidthMm;
  for (;;) {
    const fromMm = Math.max(stretch.fromMm, xMm - half);
    const toMm = Math.min(stretch.toMm, xMm + half);
    const count = lowerBound(profile.xMm, toMm + 1e-9) - lowerBound(profile.xMm, fromMm - 1e-9);
    const isWhole = fromMm <= stretch.fromMm && toMm >= stretch.toMm;
    if (count >= leastPositions || isWhole) return { fromMm, toMm };
    half *= 1.5;
  }
}
