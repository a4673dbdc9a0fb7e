import type { KeystrokeMethod } from "../records/archive.js";
import { beyondNoise } from "./estimate.js";
import type { Extremum, ExtremumOptions } from "./extremum.js";
import { cornerExtremum, extremumAt, refineExtremum } from "./extremum.js";
import { localFit, lowerBound, valueAt } from "./local-fit.js";
import type { Stretch } from "./local-value.js";
import type { Profile } from "./profile.js";

/** The bump of a press with the largest prominence: its peak, the valley after it, and their difference. */
export interface TactileBump {
  readonly peak: Extremum;
  readonly valley: Extremum;
  readonly prominenceCn: number;
}

/** What a press shows of a bump: the largest fall found, and the bump where it has the method's prominence. */
export interface BumpSearch {
  readonly bump: TactileBump | null;
  /** Prominence of the largest fall, refined where it was worth refining; 0 where the force never falls. */
  readonly prominenceCn: number;
  /** Standard uncertainty of that prominence from the noise of the readings and from smoothing, cN. */
  readonly uncertaintyCn: number;
}

/** A fall of the averaged curve below this share of the method's prominence is not refined. */
const worthRefining = 0.1;
/** A parabola may miss the readings by this share of the bump's height, or of the prominence that a bump must have. */
const toleranceOfHeight = 0.02;
const toleranceOfProminence = 0.1;

/**
 * Looks for the tactile bump of a press: the largest fall of force from any earlier maximum, between touch and bottom-out.
 *
 * The search runs on the curve averaged over the method's window (local straight lines, which do not overshoot at a
 * corner); peak and valley are then the vertices of local parabolas through the readings themselves, and the prominence
 * is the difference of those two forces. A bump counts from the method's prominence. The valley is the lowest force
 * between the peak and bottom-out (or the end of the press).
 *
 * @param latestPeakMm the peak must not lie beyond this place; default: the end of the stretch
 */
export function tactileBump(
  profile: Profile,
  stretch: Stretch,
  method: KeystrokeMethod,
  stepCn: number,
  latestPeakMm: number = stretch.toMm,
): BumpSearch {
  const windowMm = method.smoothingWindow.value;
  const from = lowerBound(profile.xMm, stretch.fromMm);
  const to = lowerBound(profile.xMm, stretch.toMm + 1e-9);
  let highest = -Infinity;
  let highestAt = 0;
  let fall = 0;
  let peakMm = 0;
  let valleyMm = 0;
  for (let i = from; i < to; i++) {
    const x = profile.xMm[i]!;
    const average = averaged(profile, x, windowMm / 2, stretch);
    if (average > highest) {
      if (x > latestPeakMm) break;
      highest = average;
      highestAt = x;
    } else if (highest - average > fall) {
      fall = highest - average;
      peakMm = highestAt;
      valleyMm = x;
    }
  }
  const limit = method.prominence.value;
  const coarse: BumpSearch = { bump: null, prominenceCn: fall, uncertaintyCn: stepCn / Math.sqrt(6) };
  if (!(fall >= worthRefining * limit)) return coarse;
  const shared = { windowMm, toleranceCn: Math.max(toleranceOfHeight * fall, toleranceOfProminence * limit), stepCn };
  const before: Stretch = { fromMm: stretch.fromMm, toMm: Math.min(stretch.toMm, valleyMm) };
  const after: Stretch = { fromMm: Math.max(stretch.fromMm, peakMm), toMm: stretch.toMm };
  const peak = locate(profile, peakMm, { ...shared, sign: 1, stretch: before });
  const valley = locate(profile, valleyMm, { ...shared, sign: -1, stretch: after });
  if (peak === null || valley === null) return coarse;
  const prominenceCn = peak.forceCn - valley.forceCn;
  const smoothed = [peak, valley].map(({ smoothingCn }) =>
    smoothingCn ? beyondNoise(smoothingCn.bias, smoothingCn.noise) : 0,
  );
  const uncertaintyCn = Math.hypot(peak.noiseCn, valley.noiseCn, ...smoothed);
  return { bump: prominenceCn >= limit ? { peak, valley, prominenceCn } : null, prominenceCn, uncertaintyCn };
}

function locate(profile: Profile, averagedMm: number, options: ExtremumOptions): Extremum | null {
  const sharpMm = sharpest(profile, averagedMm, options);
  return (
    refineExtremum(profile, sharpMm, options) ??
    cornerExtremum(profile, sharpMm, options) ??
    refineExtremum(profile, averagedMm, options) ??
    extremumAt(profile, averagedMm, options)
  );
}

/** Place of the most extreme mean of three neighbouring positions within one window of the averaged extremum. */
function sharpest(profile: Profile, averagedMm: number, options: ExtremumOptions): number {
  const { windowMm, stretch, sign } = options;
  const from = Math.max(1, lowerBound(profile.xMm, Math.max(stretch.fromMm, averagedMm - windowMm)));
  const to = Math.min(
    profile.xMm.length - 1,
    lowerBound(profile.xMm, Math.min(stretch.toMm, averagedMm + windowMm) + 1e-9),
  );
  let best = -Infinity;
  let place = averagedMm;
  for (let i = from; i < to; i++) {
    const mean = (sign * (profile.forceCn[i - 1]! + profile.forceCn[i]! + profile.forceCn[i + 1]!)) / 3;
    if (mean > best) {
      best = mean;
      place = profile.xMm[i]!;
    }
  }
  return place;
}

function averaged(profile: Profile, xMm: number, halfWidthMm: number, stretch: Stretch): number {
  const from = Math.max(stretch.fromMm, xMm - halfWidthMm);
  const to = Math.min(stretch.toMm, xMm + halfWidthMm);
  const fit = localFit(profile, xMm, from, to, 1) ?? localFit(profile, xMm, from, to, 0);
  return fit === null ? 0 : valueAt(fit, xMm);
}
