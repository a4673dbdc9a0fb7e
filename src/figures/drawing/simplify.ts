/** A point of a polyline. */
export type Point = readonly [x: number, y: number];

/**
 * Thins a polyline so that no dropped point lies further than `tolerance` from the line that is kept (the algorithm of
 * Douglas and Peucker, Cartographica 10:112, 1973, with distance to the segment, and a stack in place of recursion).
 * First and last point stay; at most 2 points come back unchanged; repeated points are dropped.
 * @param tolerance at least 0, in the points' own unit, which must be the same for x and y
 * @throws RangeError where the tolerance or a coordinate is not a number
 */
export function simplifyPolyline(points: readonly Point[], tolerance: number): readonly Point[] {
  if (!(tolerance >= 0)) throw new RangeError(`the tolerance is ${tolerance}; it must be at least 0`);
  const bad = points.findIndex(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y));
  if (bad >= 0) throw new RangeError(`point ${bad + 1} of the curve is not a pair of numbers`);
  if (points.length <= 2) return points;
  const kept = new Uint8Array(points.length);
  kept[0] = 1;
  kept[points.length - 1] = 1;
  const spans: [number, number][] = [[0, points.length - 1]];
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [first, last] = span;
    let farthest = -1;
    let distance = tolerance;
    for (let index = first + 1; index < last; index++) {
      const d = distanceToSegment(points[index]!, points[first]!, points[last]!);
      if (d > distance) [farthest, distance] = [index, d];
    }
    if (farthest < 0) continue;
    kept[farthest] = 1;
    spans.push([first, farthest], [farthest, last]);
  }
  return points.filter((_, index) => kept[index] === 1);
}

function distanceToSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}
