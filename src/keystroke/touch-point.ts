import type { KeystrokeMethod } from "../records/archive.js";
import { medianOf } from "../statistics/numeric/sums.js";
import type { CorrectedStroke } from "./correction.js";
import type { Found, Place } from "./estimate.js";
import { missing, term } from "./estimate.js";
import { leverage, localFit, lowerBound } from "./local-fit.js";
import { robustSd } from "./noise.js";
import type { Profile } from "./profile.js";
import type { StrokeSources } from "./stroke-sources.js";

/** Where the probe touches the key, and what the approach before it showed. */
export interface TouchPoint extends Place {
  /** Force of the approach, cN: its median; 0 where there was none. */
  readonly levelCn: number;
  /** Noise of the approach, cN. */
  readonly noiseCn: number;
  /** Rows of the approach; 0 where the record begins on the key. */
  readonly approachRows: number;
}

/** An approach has at least this many rows. */
const leastApproach = 5;

/**
 * Touch point: where the force passes the level of the approach by the method's touch force. It is looked for at the first
 * row after which the force stays above the level by `touchDeviations` standard deviations of the approach, at least the
 * touch force, over a quarter of the smoothing window; level and noise are the approach's own, by robust estimates.
 *
 * The place is read off a line or parabola through the first positions above, inside the gap to the last position below,
 * so that the edge is not smeared. Without an approach (fewer than five rows, or a force that rises from the first
 * row) the level is taken as 0 and the curve is carried back to the touch force, with that distance, one step and the
 * touch force itself as rectangular half-widths.
 */
export function touchPoint(
  stroke: CorrectedStroke,
  profile: Profile,
  method: KeystrokeMethod,
  sources: StrokeSources,
): Found<TouchPoint> {
  const rows = stroke.xMm.length;
  if (rows < 3 || profile.xMm.length < 3) {
    return missing(`the press holds only ${rows} readings at ${profile.xMm.length} positions`);
  }
  const touchForce = method.touchForce.value;
  const approach = findApproach(stroke, method);
  if (approach === null) {
    return missing(`the force never rises above the approach by ${touchForce} cN and stays there`);
  }
  const { levelCn, noiseCn, approachRows, row } = approach;
  const wanted = levelCn + touchForce;
  const windowMm = method.smoothingWindow.value;
  let above = Math.min(profile.xMm.length - 1, lowerBound(profile.xMm, stroke.xMm[row]! - 1e-9));
  while (above < profile.xMm.length - 1 && profile.forceCn[above]! <= wanted) above++;
  while (above > 0 && profile.forceCn[above - 1]! > wanted) above--;
  const first = profile.xMm[above]!;
  const rising = risingCurve(profile, above, windowMm, noiseCn, wanted);
  const inside = above > 0;
  const before = inside ? profile.xMm[above - 1]! : first;
  const rise = inside ? (profile.forceCn[above]! - profile.forceCn[above - 1]!) / Math.max(first - before, 1e-9) : 0;
  const slope = rising === null ? rise : rising.slope;
  if (!(slope > 0)) return missing("the force does not rise where it leaves the approach");
  const carried = rising === null ? first : rising.xMm;
  const crossing = inside ? first - (profile.forceCn[above]! - wanted) / Math.max(rise, 1e-9) : carried;
  const xMm = inside ? Math.min(first, Math.max(before, carried)) : Math.min(first, carried);
  const stepMm = stroke.displacementStepMm;
  const between = Math.hypot(stepMm, xMm - crossing, inside ? 0 : first - xMm + stepMm) / Math.sqrt(12);
  const terms = [
    term("noise", sources.noise("touch-noise", "Touch point: noise of the force", noiseCn / slope, "mm", Infinity), 1),
    term("grid", sources.grid("touch-spacing", "Touch point: spacing of the readings", between, "mm"), 1),
  ];
  if (approachRows === 0) {
    const wide = sources.grid(
      "touch-level",
      "Touch point: no approach recorded",
      touchForce / slope / Math.sqrt(3),
      "mm",
    );
    terms.push(term("grid", wide, 1));
  }
  return { found: true, at: { xMm, terms, levelCn, noiseCn, approachRows } };
}

/**
 * Where the curve through the first positions above would have the wanted force, and its slope there: a parabola through
 * four where its bend stands out of the noise three times, else the line through three. Null where it does not rise.
 */
function risingCurve(
  profile: Profile,
  above: number,
  windowMm: number,
  noiseCn: number,
  wanted: number,
): { readonly xMm: number; readonly slope: number } | null {
  const last = profile.xMm.length - 1;
  const first = profile.xMm[above]!;
  const end = (count: number): number => Math.min(profile.xMm[Math.min(last, above + count - 1)]!, first + windowMm);
  const bent = localFit(profile, first, first, end(4), 2);
  if (bent !== null && bent.count >= 4) {
    const [force, slope, half] = bent.coefficients;
    const isBent = Math.abs(half) > 3 * noiseCn * Math.sqrt(leverage(bent, [0, 0, 1]));
    const root = slope ** 2 + 4 * half * (wanted - force);
    if (isBent && slope > 0 && root > 0) {
      const slopeThere = Math.sqrt(root);
      return { xMm: first + (slopeThere - slope) / (2 * half), slope: slopeThere };
    }
  }
  const line = localFit(profile, first, first, end(3), 1);
  if (line === null || !(line.coefficients[1] > 0)) return null;
  return { xMm: first - (line.coefficients[0] - wanted) / line.coefficients[1], slope: line.coefficients[1] };
}

interface Approach {
  readonly levelCn: number;
  readonly noiseCn: number;
  readonly approachRows: number;
  /** First row of the sustained rise. */
  readonly row: number;
}

function findApproach(stroke: CorrectedStroke, method: KeystrokeMethod): Approach | null {
  const { forceStepCn } = stroke;
  const forces = Array.from(stroke.forceCn);
  const touchForce = method.touchForce.value;
  let levelCn = medianOf(forces.slice(0, 3));
  let noiseCn = forceStepCn / Math.sqrt(12);
  let row = -1;
  for (let round = 0; round < 8; round++) {
    const limit = levelCn + Math.max(method.touchDeviations * noiseCn, touchForce);
    const next = sustainedRise(stroke, limit, method.smoothingWindow.value / 4);
    if (next < 0) return null;
    if (next === row) break;
    row = next;
    if (row < leastApproach) break;
    levelCn = medianOf(forces.slice(0, row));
    noiseCn = robustSd(forces.slice(0, row), forceStepCn);
  }
  if (row >= leastApproach && isFlat(forces.slice(0, row), noiseCn, touchForce)) {
    return { levelCn, noiseCn, approachRows: row, row };
  }
  const first = sustainedRise(stroke, touchForce, method.smoothingWindow.value / 4);
  return first < 0 ? null : { levelCn: 0, noiseCn: forceStepCn / Math.sqrt(12), approachRows: 0, row: first };
}

/** Whether the second half of the rows lies no higher than the first, to half the touch force and their noise. */
function isFlat(forces: readonly number[], noiseCn: number, touchForce: number): boolean {
  const half = forces.length >> 1;
  const rise = medianOf(forces.slice(half)) - medianOf(forces.slice(0, half));
  return rise <= touchForce / 2 + (3 * noiseCn) / Math.sqrt(half);
}

/** First row from which the force stays above a limit over a distance (and three rows); -1 where there is none. */
function sustainedRise(stroke: CorrectedStroke, limitCn: number, distanceMm: number): number {
  const { xMm, forceCn } = stroke;
  let start = -1;
  for (let i = 0; i < xMm.length; i++) {
    if (forceCn[i]! <= limitCn) {
      start = -1;
      continue;
    }
    if (start < 0) start = i;
    if (i - start >= 2 && xMm[i]! - xMm[start]! >= distanceMm) return start;
  }
  return start >= 0 && xMm.length - start >= 3 ? start : -1;
}
