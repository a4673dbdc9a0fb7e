import type { PressCurve } from "./press-curve.js";
import { interpolate } from "./profile.js";

/** Distance of the places at which curves are compared, mm. */
const comparedEveryMm = 0.02;

/**
 * Index of the medoid of press curves: the one with the least sum of root-mean-square force differences to the others,
 * aligned at touch, from touch to the smallest bottom-out (or end) among them; on a tie the first.
 * @returns -1 for no curves; 0 for one
 */
export function medoid(presses: readonly PressCurve[]): number {
  if (presses.length <= 1) return presses.length - 1;
  const lengthMm = Math.min(...presses.map((press) => press.stretch.toMm - press.stretch.fromMm));
  const places = Math.max(2, Math.floor(lengthMm / comparedEveryMm) + 1);
  const forces = presses.map((press) =>
    Float64Array.from({ length: places }, (_, i) =>
      interpolate(press.profile, press.stretch.fromMm + (i * lengthMm) / (places - 1)),
    ),
  );
  const sums = new Float64Array(presses.length);
  for (let a = 0; a < presses.length; a++) {
    for (let b = a + 1; b < presses.length; b++) {
      let squares = 0;
      for (let i = 0; i < places; i++) squares += (forces[a]![i]! - forces[b]![i]!) ** 2;
      const rms = Math.sqrt(squares / places);
      sums[a] = sums[a]! + rms;
      sums[b] = sums[b]! + rms;
    }
  }
  return sums.reduce((best, sum, i) => (sum < sums[best]! - 1e-12 ? i : best), 0);
}
