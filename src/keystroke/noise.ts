import { madFactor } from "../statistics/describe/robust.js";
import { ascending, medianOf, medianOfSorted } from "../statistics/numeric/sums.js";
import { lowerBound } from "./local-fit.js";
import type { Profile } from "./profile.js";

/** So many standard deviations of a normal distribution separate its 5th and 95th percentile. */
const middleNinetyPercent = 3.2897072539;

/**
 * Standard deviation of readings about their median, by whichever is larger: the scaled median absolute deviation, the
 * middle 90 % over 3.29, the resolution step / sqrt(12). Coarse readings make the first 0; the others then hold.
 */
export function robustSd(values: readonly number[], step: number): number {
  const floor = step / Math.sqrt(12);
  if (values.length < 2) return floor;
  const sorted = ascending(values);
  const centre = medianOfSorted(sorted);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  const deviation = medianOf(values.map((value) => Math.abs(value - centre)));
  return Math.max(madFactor * deviation, (at(0.95) - at(0.05)) / middleNinetyPercent, floor);
}

/**
 * Noise of the forces along a stretch of a profile: robust sd of the deviation of each position from the straight line
 * between its neighbours, divided by what white noise would give; at least the resolution step / sqrt(12).
 * @returns the resolution's part alone for fewer than three positions
 */
export function readingNoise(profile: Profile, fromMm: number, toMm: number, step: number): number {
  // As `localFit` does: a position on the edge counts, however its last digit was rounded.
  const slack = 1e-9 * Math.max(1, Math.abs(fromMm), Math.abs(toMm));
  const from = Math.max(1, lowerBound(profile.xMm, fromMm - slack));
  const to = Math.min(profile.xMm.length - 1, lowerBound(profile.xMm, toMm + slack));
  if (to - from < 3) return step / Math.sqrt(12);
  const deviations: number[] = [];
  for (let i = from; i < to; i++) {
    const x0 = profile.xMm[i - 1]!;
    const x2 = profile.xMm[i + 1]!;
    const share = x2 > x0 ? (profile.xMm[i]! - x0) / (x2 - x0) : 0.5;
    const line = (1 - share) * profile.forceCn[i - 1]! + share * profile.forceCn[i + 1]!;
    deviations.push((profile.forceCn[i]! - line) / Math.sqrt(1 + share ** 2 + (1 - share) ** 2));
  }
  return robustSd(deviations, step);
}
