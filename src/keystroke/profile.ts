import type { CorrectedStroke } from "./correction.js";

/**
 * Force as a function of displacement along one stroke: one entry a position, ascending (a release too), so that dwells,
 * repeated rows and back steps weigh no more than any other place.
 */
export interface Profile {
  readonly xMm: Float64Array;
  readonly forceCn: Float64Array;
  /** Rows left out because the probe had moved back; 0 in a clean record. */
  readonly retreatRows: number;
  /** Largest move back against the stroke's direction, mm. */
  readonly retreatMm: number;
  /** Median distance of neighbouring positions, mm; 0 with fewer than two. */
  readonly spacingMm: number;
}

/** Positions within this share of the smoothing window are one position. */
const binShare = 1 / 24;
/** A move back of this share of the smoothing window is more than trembling. */
const retreatShare = 1 / 10;

/**
 * Averages a stroke to one force a position.
 *
 * Rows during which the probe had moved back by more than 1.5 steps of the displacement reading (and a tenth of the
 * window) lie on another path of the hysteresis loop and are left out. The others are grouped in cells of one step, at
 * least 1/24 of the window, counted from the first row; a cell's position and force are its rows' means.
 *
 * @param stroke rows in file order, corrected
 * @param windowMm the method's smoothing window, above 0
 */
export function profileOf(stroke: CorrectedStroke, windowMm: number): Profile {
  const { xMm, forceCn } = stroke;
  const direction = stroke.stroke === "press" ? 1 : -1;
  const tolerance = Math.max(1.5 * stroke.displacementStepMm, retreatShare * windowMm);
  const cellMm = Math.max(stroke.displacementStepMm, binShare * windowMm);
  const cells = new Map<number, { x: number; force: number; rows: number }>();
  let furthest = -Infinity;
  let retreatRows = 0;
  let retreatMm = 0;
  const origin = xMm[0] ?? 0;
  for (let i = 0; i < xMm.length; i++) {
    const along = direction * xMm[i]!;
    if (along > furthest) furthest = along;
    if (furthest - along > tolerance) {
      retreatRows++;
      retreatMm = Math.max(retreatMm, furthest - along);
      continue;
    }
    const index = Math.round((xMm[i]! - origin) / cellMm);
    const cell = cells.get(index);
    if (cell === undefined) cells.set(index, { x: xMm[i]!, force: forceCn[i]!, rows: 1 });
    else {
      cell.x += xMm[i]!;
      cell.force += forceCn[i]!;
      cell.rows++;
    }
  }
  const sorted = [...cells.values()]
    .map((cell) => [cell.x / cell.rows, cell.force / cell.rows] as const)
    .sort((a, b) => a[0] - b[0]);
  const positions = Float64Array.from(sorted, (cell) => cell[0]);
  return {
    xMm: positions,
    forceCn: Float64Array.from(sorted, (cell) => cell[1]),
    retreatRows,
    retreatMm,
    spacingMm: medianSpacing(positions),
  };
}

function medianSpacing(positions: Float64Array): number {
  if (positions.length < 2) return 0;
  const gaps = new Float64Array(positions.length - 1);
  for (let i = 0; i < gaps.length; i++) gaps[i] = positions[i + 1]! - positions[i]!;
  gaps.sort();
  return gaps[gaps.length >> 1]!;
}

/** Force at a position by straight lines between neighbours; the end values outside. An empty profile gives 0. */
export function interpolate(profile: Profile, xMm: number): number {
  const { xMm: xs, forceCn } = profile;
  const last = xs.length - 1;
  if (last < 0) return 0;
  if (xMm <= xs[0]!) return forceCn[0]!;
  if (xMm >= xs[last]!) return forceCn[last]!;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= xMm) low = middle;
    else high = middle;
  }
  const share = (xMm - xs[low]!) / (xs[high]! - xs[low]!);
  return forceCn[low]! + share * (forceCn[high]! - forceCn[low]!);
}
