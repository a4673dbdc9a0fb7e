import type { LocalFit } from "./local-fit.js";
import { localFit } from "./local-fit.js";
import type { Profile } from "./profile.js";

/** The straight part needs at least this many positions. */
const leastPositions = 8;

/**
 * Line through the linear part of a press: the second half of the travel from the valley of the bump (or from touch where
 * there is none) to bottom-out, less one smoothing window before the knee. Least squares over one force a position.
 * @returns null where that stretch holds fewer than eight positions
 */
export function linearPart(profile: Profile, startMm: number, bottomMm: number, windowMm: number): LocalFit | null {
  const fromMm = (startMm + bottomMm) / 2;
  const toMm = bottomMm - windowMm;
  if (!(toMm > fromMm)) return null;
  const fit = localFit(profile, (fromMm + toMm) / 2, fromMm, toMm, 1);
  return fit !== null && fit.count >= leastPositions ? fit : null;
}
