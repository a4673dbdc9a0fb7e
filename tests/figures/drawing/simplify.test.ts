import fc from "fast-check";
import { expect, test } from "vitest";
import { simplifyPolyline, type Point } from "../../../src/figures/drawing/simplify.js";
import { simplifyPath, simplifyTolerancePx } from "../../../src/figures/drawing/simplify-paths.js";

function distance([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const square = (bx - ax) ** 2 + (by - ay) ** 2;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

const polylines = fc.array(
  fc.tuple(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: -500, max: 500, noNaN: true })),
  {
    minLength: 2,
    maxLength: 120,
  },
);

test("no dropped point lies further from the kept line than the tolerance", () => {
  fc.assert(
    fc.property(polylines, fc.double({ min: 0, max: 20, noNaN: true }), (points, tolerance) => {
      const kept = simplifyPolyline(points, tolerance);
      let at = 0;
      for (const point of points) {
        if (kept[at + 1] === point) at++;
        const nearest = Math.min(...kept.slice(1).map((end, index) => distance(point, kept[index]!, end)));
        expect(nearest).toBeLessThanOrEqual(tolerance + 1e-9);
      }
    }),
    { seed: 1, numRuns: 100 },
  );
});

test("the kept points are some of the given ones, in their order, with both ends", () => {
  fc.assert(
    fc.property(polylines, (points) => {
      const kept = simplifyPolyline(points, 3);
      expect(kept[0]).toBe(points[0]);
      expect(kept.at(-1)).toBe(points.at(-1));
      const places = kept.map((point) => points.indexOf(point as [number, number]));
      expect([...places].sort((a, b) => a - b)).toEqual(places);
    }),
    { seed: 2, numRuns: 100 },
  );
});

test("points on a straight line leave its ends, and a closed loop is not collapsed to its start", () => {
  expect(
    simplifyPolyline(
      [
        [0, 0],
        [1, 1],
        [2, 2],
        [5, 5],
      ],
      0,
    ),
  ).toEqual([
    [0, 0],
    [5, 5],
  ]);
  expect(
    simplifyPolyline(
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 0],
      ],
      0.1,
    ),
  ).toHaveLength(4);
});

test("a curve of 50,000 points is thinned without deep recursion", () => {
  const points = Array.from({ length: 50_000 }, (_, index): Point => [index / 100, Math.sin(index / 5000) * 100]);
  expect(simplifyPolyline(points, 0.1).length).toBeLessThan(400);
});

test("a tolerance or a coordinate that is not a number is refused", () => {
  expect(() =>
    simplifyPolyline(
      [
        [0, 0],
        [1, 1],
      ],
      NaN,
    ),
  ).toThrow(/tolerance/);
  expect(() =>
    simplifyPolyline(
      [
        [0, 0],
        [1, NaN],
        [2, 2],
      ],
      1,
    ),
  ).toThrow(/point 2/);
});

test("only long paths of straight lines are thinned; curves, arcs and short paths stay", () => {
  const long = `M${Array.from({ length: 300 }, (_, index) => `${index},${index * 2}`).join("L")}`;
  expect(simplifyPath(long)).toBe("M0,0L299,598");
  expect(simplifyPath(`${long}Z`)).toBe("M0,0L299,598Z");
  expect(simplifyPath(long + long)).toBe("M0,0L299,598M0,0L299,598");
  for (const path of ["M0,0L1,1L2,2", "M0,0C1,1,2,2,3,3", "m4.5,0a4.5,4.5,0,1,1,-9,0", "M1,2H5V7"])
    expect(simplifyPath(path)).toBe(path);
  expect(simplifyTolerancePx).toBeLessThanOrEqual(0.25);
});
