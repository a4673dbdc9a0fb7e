import { expect, test } from "vitest";
import { bandHalfWidth, bandOutline, stepOutline } from "../../../src/figures/kit/empirical-steps.js";
import { scatter } from "../../../tools/figure-sheet/sample-keys.js";

test("the band's half-width is sqrt(ln(2/alpha)/(2n)): 1.3581 for n = 1 at 95 %", () => {
  // The same number is the 5 % point of the limiting Kolmogorov distribution, 1.3581, to which the bound is sharp.
  expect(bandHalfWidth(1, 0.95)).toBeCloseTo(1.3581, 4);
  expect(bandHalfWidth(100, 0.95)).toBeCloseTo(0.13581, 5);
  expect(bandHalfWidth(100, 0.99)).toBeCloseTo(0.16276, 5);
});

test("the band holds the whole true curve in at least 95 % of samples", () => {
  const { uniform } = scatter(77);
  let held = 0;
  const runs = 1000;
  for (let run = 0; run < runs; run++) {
    const sorted = Array.from({ length: 14 }, uniform).sort((a, b) => a - b);
    const half = bandHalfWidth(14, 0.95);
    const isHeld = sorted.every((value, index) => index / 14 >= value - half && (index + 1) / 14 <= value + half);
    if (isHeld) held++;
  }
  expect(held / runs).toBeGreaterThanOrEqual(0.95);
  expect(held / runs).toBeLessThanOrEqual(0.985);
});

test("tied values make one higher step, and the line runs from end to end", () => {
  expect(stepOutline([1, 2, 2, 4], 0, 5)).toEqual([
    [0, 0],
    [1, 0],
    [1, 0.25],
    [2, 0.25],
    [2, 0.75],
    [4, 0.75],
    [4, 1],
    [5, 1],
  ]);
});

test("the band is cut at 0 and 1", () => {
  const outline = bandOutline(stepOutline([1], 0, 2), 0.7);
  expect(Math.min(...outline.map(([, share]) => share))).toBe(0);
  expect(Math.max(...outline.map(([, share]) => share))).toBe(1);
});

test("a distribution without readings, or a level out of range, has no band", () => {
  expect(() => bandHalfWidth(0, 0.95)).toThrow(RangeError);
  expect(() => bandHalfWidth(NaN, 0.95)).toThrow(RangeError);
  expect(() => bandHalfWidth(5, 1)).toThrow(RangeError);
});
