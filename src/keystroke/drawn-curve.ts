import type { CorrectedStroke } from "./correction.js";
import type { DrawnCurve } from "./model.js";

/** A drawn curve keeps within this of every reading, in either direction. */
const keptMm = 0.002;
const keptCn = 0.1;
/** Points of one stroke at most; where more would be needed, the tolerance doubles until they fit. */
const mostPoints = 240;

type Point = readonly [mm: number, cN: number];

/**
 * The curve of a cycle as drawn: rows as recorded and corrected, touch at 0 mm, simplified by Douglas and Peucker
 * (The Canadian Cartographer 10 (1973) 112) with distances counted in 0.002 mm and 0.1 cN; 240 points a stroke at most.
 * A stroke that was not recorded is empty. Never the basis of a number.
 */
export function drawnCurve(
  press: CorrectedStroke | null,
  release: CorrectedStroke | null,
  touchMm: number,
): DrawnCurve {
  return { press: simplified(press, touchMm), release: simplified(release, touchMm) };
}

function simplified(stroke: CorrectedStroke | null, touchMm: number): readonly Point[] {
  if (stroke === null) return [];
  const points = Array.from(stroke.xMm, (x, i): Point => [x - touchMm, stroke.forceCn[i]!]);
  for (let tolerance = 1; ; tolerance *= 2) {
    const kept = simplify(points, tolerance);
    if (kept.length <= mostPoints) return kept.map(([x, force]) => [rounded(x, 4), rounded(force, 3)]);
  }
}

function simplify(points: readonly Point[], tolerance: number): readonly Point[] {
  if (points.length <= 2) return points;
  const keep = new Uint8Array(points.length);
  keep[0] = 1;
  keep[points.length - 1] = 1;
  const open: [number, number][] = [[0, points.length - 1]];
  for (let pair = open.pop(); pair !== undefined; pair = open.pop()) {
    const [from, to] = pair;
    let worst = tolerance;
    let at = -1;
    for (let i = from + 1; i < to; i++) {
      const distance = distanceTo(points[from]!, points[to]!, points[i]!);
      if (distance > worst) {
        worst = distance;
        at = i;
      }
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return points.filter((_, i) => keep[i] === 1);
}

/** Distance of a point from a segment, in kept millimetres and centinewtons. */
function distanceTo(a: Point, b: Point, p: Point): number {
  const bx = (b[0] - a[0]) / keptMm;
  const by = (b[1] - a[1]) / keptCn;
  const px = (p[0] - a[0]) / keptMm;
  const py = (p[1] - a[1]) / keptCn;
  const length = bx * bx + by * by;
  const share = length > 0 ? Math.min(1, Math.max(0, (px * bx + py * by) / length)) : 0;
  return Math.hypot(px - share * bx, py - share * by);
}

function rounded(value: number, places: number): number {
  const power = 10 ** places;
  return Math.round(value * power) / power + 0;
}
