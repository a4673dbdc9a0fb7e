import { quantileSorted } from "d3-array";
import { expect, test } from "vitest";
import { standardDeviation } from "../../src/latency/kept-mean.js";
import { maritzJarrett, quantileInterval } from "../../src/latency/order-statistics.js";
import { drawing } from "./simulator.js";

test.each([
  [0.5, 0.85, 1.15],
  [0.9, 0.7, 1.2],
])("the standard error at p = %d is near the scatter of that quantile over normal samples of 14", (p, low, high) => {
  const draw = drawing(44);
  const quantiles: number[] = [];
  let squares = 0;
  for (let run = 0; run < 4000; run++) {
    const sorted = Array.from({ length: 14 }, () => draw.normal(0, 1)).sort((a, b) => a - b);
    quantiles.push(quantileSorted(sorted, p)!);
    squares += maritzJarrett(sorted, p) ** 2;
  }
  const ratio = Math.sqrt(squares / 4000) / standardDeviation(quantiles);
  console.log(`Maritz-Jarrett over scatter, n = 14, p = ${p}: ${ratio.toFixed(3)}`);
  expect(ratio).toBeGreaterThan(low);
  expect(ratio).toBeLessThan(high);
});

test("three values, the middle one: the weights 7/27, 13/27, 7/27 of the ideal bootstrap", () => {
  const second = (7 * 1 + 13 * 0 + 7 * 1) / 27;
  expect(maritzJarrett([-1, 0, 1], 0.5)).toBeCloseTo(Math.sqrt(second), 12);
});

test("equal values have no standard error", () => {
  expect(maritzJarrett([4, 4, 4, 4], 0.9)).toBe(0);
});

test("for 10 values the 95 % interval of the median runs from the 2nd to the 9th, and holds it with 97.85 %", () => {
  const sorted = Array.from({ length: 10 }, (_, i) => i + 1);
  const interval = quantileInterval(sorted, 0.5);
  expect([interval.lowMs, interval.highMs]).toEqual([2, 9]);
  expect(interval.attained).toBeCloseTo(1 - 2 * (11 / 1024), 10);
});

test("the upper side of P90 needs 36 values at 95 %, and 35 say so", () => {
  const values = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
  expect(quantileInterval(values(36), 0.9).highMs).toBe(35);
  const short = quantileInterval(values(35), 0.9);
  expect(short.highMs).toBeNull();
  expect(short.attained).toBeNull();
  expect(short.reason).toBe("35 presses do not bound the 90 % point from above at 95 %");
});

test("too few values bound neither side", () => {
  const interval = quantileInterval([1, 2], 0.5);
  expect([interval.lowMs, interval.highMs]).toEqual([null, null]);
  expect(interval.reason).toContain("from below or above");
});

test("the interval holds the median in at least 95 % of skewed runs", () => {
  const draw = drawing(9);
  let held = 0;
  for (let run = 0; run < 2000; run++) {
    const sorted = Array.from({ length: 14 }, () => -Math.log(draw.uniform(0, 1))).sort((a, b) => a - b);
    const { lowMs, highMs } = quantileInterval(sorted, 0.5);
    if (lowMs! <= Math.LN2 && Math.LN2 <= highMs!) held++;
  }
  expect(held / 2000).toBeGreaterThan(0.975);
});

test("p, level and lengths that make no sense are refused", () => {
  expect(() => maritzJarrett([1], 0.5)).toThrow("at least 2 values");
  expect(() => maritzJarrett([1, 2], NaN)).toThrow("p is NaN");
  expect(() => quantileInterval([], 0.5)).toThrow("at least 1 value");
  expect(() => quantileInterval([1], 1)).toThrow("p is 1");
  expect(() => quantileInterval([1], 0.5, 0)).toThrow("level is 0");
});
