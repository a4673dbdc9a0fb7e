import { lowerBound } from "./local-fit.js";
import type { Profile } from "./profile.js";

/** Median of numbers in any order; 0 for none. */
export function medianOf(values: Float64Array): number {
  if (values.length === 0) return 0;
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** 1.4826 makes a median absolute deviation estimate a normal sd; 3.29 sd separate the 5th and 95th percentile. */
const madFactor = 1.482602218505602;
const middleNinetyPercent = 3.2897072539;

/**
 * Standard deviation of readings about their median, by whichever is larger: the scaled median absolute deviation, the
 * middle 90 % over 3.29, the resolution step / sqrt(12). Coarse readings make the first 0; the others then hold.
 */
export function robustSd(values: Float64Array, step: number): number {
  const floor = step / Math.sqrt(12);
  if (values.length < 2) return floor;
  const centre = medianOf(values);
  const sorted = Float64Array.from(values).sort();
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  const mad = medianOf(values.map((value) => Math.abs(value - centre)));
  return Math.max(madFactor * mad, (at(0.95) - at(0.05)) / middleNinetyPercent, floor);
}

/**
 * Noise of the forces along a stretch of a profile: robust sd of the deviation of each position from the straight line
 * between its neighbours, divided by what white noise would give; at least the resolution step / sqrt(12).
 * @returns the resolution's part alone for fewer than three positions
 */
export function readingNoise(profile: Profile, fromMm: number, toMm: number, step: number): number {
  const from = Math.max(1, lowerBound(profile.xMm, fromMm));
  const to = Math.min(profile.xMm.length - 1, lowerBound(profile.xMm, toMm));
  if (to - from < 3) return step / Math.sqrt(12);
  const deviations = new Float64Array(to - from);
  for (let i = from; i < to; i++) {
    const x0 = profile.xMm[i - 1]!;
    const x2 = profile.xMm[i + 1]!;
    const share = x2 > x0 ? (profile.xMm[i]! - x0) / (x2 - x0) : 0.5;
    const line = (1 - share) * profile.forceCn[i - 1]! + share * profile.forceCn[i + 1]!;
    deviations[i - from] = (profile.forceCn[i]! - line) / Math.sqrt(1 + share ** 2 + (1 - share) ** 2);
  }
  return robustSd(deviations, step);
}
