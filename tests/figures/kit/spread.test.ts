import fc from "fast-check";
import { expect, test } from "vitest";
import { lanesOf } from "../../../src/figures/kit/lanes.js";
import { placeLabels } from "../../../src/figures/kit/place-labels.js";
import { spreadLabels } from "../../../src/figures/kit/spread.js";

const labels = fc.array(
  fc.tuple(fc.double({ min: 0, max: 300, noNaN: true }), fc.double({ min: 1, max: 40, noNaN: true })),
  {
    minLength: 1,
    maxLength: 20,
  },
);

test("spread labels never overlap and keep their order", () => {
  fc.assert(
    fc.property(labels, (pairs) => {
      const lengths = pairs.map(([, length]) => length);
      const moved = spreadLabels(
        pairs.map(([at]) => at),
        lengths,
      );
      const order = pairs.map((_, index) => index).sort((a, b) => pairs[a]![0] - pairs[b]![0] || a - b);
      order.slice(1).forEach((index, place) => {
        const before = order[place]!;
        expect(moved[index]! - moved[before]!).toBeGreaterThanOrEqual((lengths[index]! + lengths[before]!) / 2 - 1e-9);
      });
    }),
    { seed: 4, numRuns: 200 },
  );
});

test("labels with room enough stay where they want to be", () => {
  expect(spreadLabels([10, 50, 90], [20, 20, 20])).toEqual([10, 50, 90]);
});

test("two labels at one place part evenly, in the given order", () => {
  expect(spreadLabels([50, 50], [10, 10])).toEqual([45, 55]);
});

test("labels stay inside their range where they fit", () => {
  expect(spreadLabels([0, 2, 100], [20, 20, 20], [0, 100])).toEqual([10, 30, 90]);
});

test("no labels give no positions", () => {
  expect(spreadLabels([], [])).toEqual([]);
});

test("a label takes the side it prefers where nothing is in the way, and another where a line is", () => {
  const frame = { x: 0, y: 0, width: 400, height: 300 };
  const request = { x: 200, y: 150, width: 60, height: 12, prefer: ["e"] as const };
  expect(placeLabels([request], [], frame)[0]!.x).toBeGreaterThan(200);
  const wall = Array.from({ length: 60 }, (_, step): [number, number] => [230, step * 5]);
  expect(placeLabels([request], wall, frame)[0]!.x + 60).toBeLessThan(230);
});

test("a label that may name several places takes one that is free, and says which", () => {
  const frame = { x: 0, y: 0, width: 400, height: 300 };
  const blocked = Array.from({ length: 400 }, (_, step): [number, number] => [
    140 + (step % 20) * 6,
    90 + Math.floor(step / 20) * 6,
  ]);
  const [placed] = placeLabels([{ x: 200, y: 150, width: 40, height: 12, elsewhere: [[60, 150]] }], blocked, frame);
  expect(placed).toMatchObject({ namedX: 60, namedY: 150 });
});

test("labels at one point do not cover each other and stay in the frame", () => {
  const frame = { x: 0, y: 0, width: 400, height: 300 };
  const requests = Array.from({ length: 5 }, () => ({ x: 395, y: 150, width: 80, height: 12 }));
  const boxes = placeLabels(requests, [], frame);
  boxes.forEach((a, index) => {
    expect(a.x + a.width).toBeLessThanOrEqual(400);
    for (const b of boxes.slice(index + 1)) {
      const isApart = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
      expect(isApart).toBe(true);
    }
  });
});

test("stretches that touch get lanes of their own, and a lane is used again once it is free", () => {
  expect(
    lanesOf([
      { from: 0, to: 3 },
      { from: 2, to: 5 },
      { from: 4, to: 6 },
      { from: 3, to: 3 },
    ]),
  ).toEqual([0, 1, 0, 2]);
  expect(lanesOf([])).toEqual([]);
});
