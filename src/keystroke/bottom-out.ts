import type { CorrectedStroke } from "./correction.js";
import type { Found, Place, Term } from "./estimate.js";
import { missing, scaled, term } from "./estimate.js";
import { formAt, leverage, localFit, lowerBound, valueAt } from "./local-fit.js";
import type { Profile } from "./profile.js";
import type { StrokeSources } from "./stroke-sources.js";

/** The bottom-out point of a press: its place, and the force there with the terms of its own. */
export interface BottomOut extends Place {
  readonly forceCn: number;
  readonly forceTerms: readonly Term[];
}

/** Positions on each side of the knee that lines are fitted to. */
const side = 3;
/** A knee is rounded when one of the two positions before it rises above the line by more than this times its noise. */
const sharpness = 2;
/** A rounding over less than this share of the spacing leaves no mark on the readings. */
const hiddenShare = 0.6;

/**
 * Bottom-out: the place from which on the force stays above a straight line with the method's slope, which is where the
 * slope first exceeds that limit and stays above it on the whole. Found as the smallest value of force minus limit x
 * displacement beyond touch; that needs no smoothing, so the knee is not smeared, and a short dip on the steep flank does
 * not move it.
 *
 * Between readings, a sharp knee (straight up to the last two positions before it) is where the lines before and after meet; a
 * rounded one is where the slope between next neighbours, interpolated, reaches the limit. Never more than one
 * position away from the smallest value.
 *
 * @param limit the method's slope, cN/mm, above 0
 * @param evidenceCn how far the force must rise above the line for the bottom to count as reached
 * @param noiseCn noise of the force between neighbouring positions
 * @returns absent where the stroke ends before that
 */
export function bottomOut(
  stroke: CorrectedStroke,
  profile: Profile,
  touchMm: number,
  limit: number,
  evidenceCn: number,
  noiseCn: number,
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
  const stepU = stroke.displacementStepMm / Math.sqrt(12);
  const sigma = Math.hypot(noiseCn, limit * stepU);
  const knees = sharpKnee(profile, knee, limit, noiseCn, stepU) ?? roundedKnee(profile, knee, limit, sigma);
  const grid = sources.grid("bottom-out-step", "Bottom-out: resolution of the displacement", stepU, "mm"); // prettier-ignore
  const noise = sources.noise("bottom-out", "Bottom-out: noise of the readings", knees.noiseMm, "mm", Infinity);
  const forceNoise = sources.noise(
    "bottom-out-force",
    "Bottom-out force: noise of the readings",
    noiseCn,
    "cN",
    Infinity,
  );
  const shape = sources.session("bottom-out-shape", "Bottom-out: rounding hidden between readings");
  const hidden = (half: number): Term => term("shared", shape, half / Math.sqrt(3));
  const place = [term("noise", noise, 1), term("grid", grid, 1)];
  return {
    found: true,
    at: {
      xMm: knees.xMm,
      terms: [...place, hidden(knees.shapeMm)],
      forceCn: knees.forceCn,
      forceTerms: [term("noise", forceNoise, 1), ...scaled(place, knees.slope), hidden(knees.shapeCn)],
    },
  };
}

interface Knee {
  readonly xMm: number;
  readonly forceCn: number;
  readonly noiseMm: number;
  /** How fast the force at the knee changes with its place, cN/mm. */
  readonly slope: number;
  /** What the spacing of the readings may hide of the knee's shape, as half-widths of place and force (one source). */
  readonly shapeMm: number;
  readonly shapeCn: number;
}

/**
 * The corner of two lines; null where the knee is rounded: where one of the two positions before it already rises above
 * the line through those further back. A knee that turns like a softplus over less than 0.6 of the spacing leaves no such
 * mark, but lies earlier and higher by the logarithms below: half of that is taken, and half is uncertain either way.
 */
function sharpKnee(profile: Profile, knee: number, limit: number, noiseCn: number, stepU: number): Knee | null {
  const { xMm, forceCn } = profile;
  const last = xMm.length - 1;
  const left = localFit(profile, xMm[knee]!, xMm[Math.max(0, knee - side - 4)]!, xMm[knee - side]!, 1);
  const right = localFit(profile, xMm[knee]!, xMm[knee + 1]!, xMm[Math.min(last, knee + side)]!, 1);
  if (left === null || right === null || left.dof < 1) return null;
  const [base, slope] = left.coefficients;
  const turn = right.coefficients[1] - slope;
  if (!(turn > 0)) return null;
  for (const i of [knee - 1, knee - 2]) {
    const sigma = Math.hypot(noiseCn, slope * stepU) * Math.sqrt(1 + leverage(left, formAt(left, xMm[i]!)));
    if (forceCn[i]! - valueAt(left, xMm[i]!) > sharpness * sigma) return null;
  }
  const meeting = xMm[knee]! + (base - right.coefficients[0]) / turn;
  const x = Math.min(xMm[knee + 1]!, Math.max(xMm[knee - 1]!, meeting));
  const rightSigma = Math.hypot(noiseCn, right.coefficients[1] * stepU);
  const hidden = (hiddenShare * (xMm[knee + 1]! - xMm[knee - 1]!)) / 2;
  const part = Math.min(0.99, Math.max(0.01, (limit - slope) / turn));
  const shapeMm = (hidden / 2) * Math.log((1 - part) / part);
  const shapeCn = (hidden / 2) * turn * Math.log(1 / (1 - part));
  return {
    xMm: x - shapeMm,
    forceCn: valueAt(left, x) + shapeCn,
    noiseMm: rightSigma / turn,
    slope,
    shapeMm: -shapeMm,
    shapeCn,
  };
}

/**
 * Where the slope between next neighbours reaches the limit, by straight interpolation of that slope; the force there by a
 * parabola through five positions. Slopes over two gaps of width h set in early: by (h²/6)(1 - 2p)/w for a knee that turns
 * like a logistic of scale w and meets the limit at the share p of its turn; with p = 1/3 and w from the rate of the slope
 * that is h² x rate/(12 x limit), which is added, and uncertain by as much.
 */
function roundedKnee(profile: Profile, knee: number, limit: number, sigma: number): Knee {
  const { xMm, forceCn } = profile;
  const last = xMm.length - 1;
  const slopeAcross = (i: number): number => {
    const from = Math.max(0, i - 1);
    const to = Math.min(last, i + 1);
    return (forceCn[to]! - forceCn[from]!) / Math.max(xMm[to]! - xMm[from]!, 1e-9);
  };
  const middleOf = (i: number): number => (xMm[Math.max(0, i - 1)]! + xMm[Math.min(last, i + 1)]!) / 2;
  let x = xMm[knee]!;
  let turn = slopeAcross(knee + 1) - slopeAcross(knee - 1);
  for (const i of slopeAcross(knee) >= limit ? [knee - 1, knee - 2] : [knee, knee + 1]) {
    const before = slopeAcross(i);
    const after = slopeAcross(i + 1);
    if (!(before < limit && after >= limit)) continue;
    turn = after - before;
    x = middleOf(i) + ((limit - before) / turn) * (middleOf(i + 1) - middleOf(i));
    break;
  }
  x = Math.min(xMm[Math.min(last, knee + 1)]!, Math.max(xMm[knee - 1]!, x));
  const width = xMm[Math.min(last, knee + 1)]! - xMm[knee - 1]!;
  const perMm = Math.max(turn, 1e-9) / (width / 2);
  const slopeNoise = (Math.SQRT2 * sigma) / width;
  const near = localFit(profile, x, xMm[Math.max(0, knee - 2)]!, xMm[Math.min(last, knee + 2)]!, 2);
  const force = near === null ? forceCn[knee]! : valueAt(near, x);
  const shapeMm = ((width / 2) ** 2 * perMm) / (12 * limit);
  return {
    xMm: x + shapeMm,
    forceCn: force + limit * shapeMm,
    noiseMm: Math.min(slopeNoise / perMm, width / 2),
    slope: limit,
    shapeMm,
    shapeCn: limit * shapeMm,
  };
}
