import type { CorrectedStroke } from "./correction.js";
import type { Found, Place, Term } from "./estimate.js";
import { missing, term } from "./estimate.js";
import type { LocalFit } from "./local-fit.js";
import { localFit, lowerBound, slopeAt, valueAt } from "./local-fit.js";
import type { Profile } from "./profile.js";
import type { StrokeSources } from "./stroke-sources.js";

/** The bottom-out point of a press: its place, and the force there with the terms of its own. */
export interface BottomOut extends Place {
  readonly forceCn: number;
  readonly forceTerms: readonly Term[];
  readonly slopeBefore: number;
}

/** Positions on each side of the knee that are fitted. */
const side = 3;

/**
 * Bottom-out: the place from which on the force stays above a straight line with the method's slope, which is where the
 * slope first exceeds that limit and stays above it on the whole. Found as the smallest value of force minus limit x
 * displacement beyond touch; that needs no smoothing, so the knee is not smeared, and a short dip on the steep flank does
 * not move it.
 *
 * Between readings the knee is where lines through three positions on each side meet, or, where a parabola through them
 * fits better, where its slope equals the limit; never more than one position away.
 *
 * @param limit the method's slope, cN/mm, above 0
 * @param evidenceCn how far the force must rise above the line for the bottom to count as reached
 * @returns absent where the stroke ends before that
 */
export function bottomOut(
  stroke: CorrectedStroke,
  profile: Profile,
  touchMm: number,
  limit: number,
  evidenceCn: number,
  sources: StrokeSources,
): Found<BottomOut> {
  const { xMm, forceCn } = profile;
  const above = (i: number): number => forceCn[i]! - limit * xMm[i]!;
  const start = lowerBound(xMm, touchMm);
  const last = xMm.length - 1;
  let knee = last;
  for (let i = last; i >= start; i--) if (above(i) < above(knee)) knee = i;
  let risen = 0;
  for (let i = knee; i <= last; i++) risen = Math.max(risen, above(i) - above(knee));
  if (last - knee < 2 || !(risen > evidenceCn) || knee - start < side) {
    return missing(`the press ends before its slope exceeds ${limit} cN/mm for good`);
  }
  const left = localFit(profile, xMm[knee]!, xMm[knee - side]!, xMm[knee - 1]!, 1);
  const right = localFit(profile, xMm[knee]!, xMm[knee + 1]!, xMm[Math.min(last, knee + side)]!, 1);
  const bend = localFit(profile, xMm[knee]!, xMm[knee - side]!, xMm[Math.min(last, knee + side)]!, 2);
  const near = (x: number): number => Math.min(xMm[knee + 1]!, Math.max(xMm[knee - 1]!, x));
  const meeting = left && right ? meetingPoint(left, right) : null;
  const kneeMm = meeting === null ? xMm[knee]! : near(meeting);
  const isBent =
    bend !== null && left !== null && right !== null && fitsBetter(profile, knee, bend, left, right, kneeMm);
  const place = isBent ? near(slopeCrossing(bend, limit) ?? kneeMm) : kneeMm;
  const force = isBent ? valueAt(bend, place) : left === null ? forceCn[knee]! : valueAt(left, place);
  const slopeBefore = left === null ? 0 : left.coefficients[1];
  const spacing = xMm[knee + 1]! - xMm[knee]!;
  const grid = sources.grid(
    "bottom-out-spacing",
    "Bottom-out: spacing of the readings",
    Math.hypot(spacing, stroke.displacementStepMm) / Math.sqrt(12),
    "mm",
  );
  const noiseCn = Math.max(Math.sqrt((isBent ? bend : left)?.variance ?? 0), stroke.forceStepCn / Math.sqrt(12));
  const noise = sources.noise("bottom-out-force", "Bottom-out force: noise of the readings", noiseCn, "cN", side - 2);
  const slope = isBent ? slopeAt(bend, place) : slopeBefore;
  return {
    found: true,
    at: {
      xMm: place,
      terms: [term("grid", grid, 1)],
      forceCn: force,
      forceTerms: [term("noise", noise, 1), term("grid", grid, slope)],
      slopeBefore,
    },
  };
}

function meetingPoint(left: LocalFit, right: LocalFit): number | null {
  const turn = right.coefficients[1] - left.coefficients[1];
  if (!(turn > 0)) return null;
  return left.centreMm + (left.coefficients[0] - right.coefficients[0]) / turn;
}

function slopeCrossing(bend: LocalFit, limit: number): number | null {
  const [, slope, half] = bend.coefficients;
  return half > 0 ? bend.centreMm + (limit - slope) / (2 * half) : null;
}

/** Compares residual variances over the same positions: parabola (three numbers) against two lines (four). */
function fitsBetter(
  profile: Profile,
  knee: number,
  bend: LocalFit,
  left: LocalFit,
  right: LocalFit,
  kneeMm: number,
): boolean {
  let squares = 0;
  let count = 0;
  for (let i = knee - side; i <= Math.min(profile.xMm.length - 1, knee + side); i++) {
    const x = profile.xMm[i]!;
    squares += (profile.forceCn[i]! - valueAt(x <= kneeMm ? left : right, x)) ** 2;
    count++;
  }
  return bend.dof > 0 && count > 4 && bend.variance < squares / (count - 4);
}
