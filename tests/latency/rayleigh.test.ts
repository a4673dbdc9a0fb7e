import { expect, test } from "vitest";
import { rayleighTest } from "../../src/latency/rayleigh.js";
import { drawing } from "./simulator.js";

const sizeAt = (n: number, alpha: number, runs: number): number => {
  const draw = drawing(20260301 + n);
  let rejected = 0;
  for (let run = 0; run < runs; run++) {
    const phases = Array.from({ length: n }, () => draw.uniform(0, 1));
    if (rayleighTest(phases).pValue < alpha) rejected++;
  }
  return rejected / runs;
};

test.each([5, 8, 14, 50])("at n = %i the size at 0.05 lies within 0.8 and 1.2 of it over 5000 runs", (n) => {
  const size = sizeAt(n, 0.05, 5000);
  console.log(`Rayleigh size at 0.05, n = ${n}: ${size.toFixed(4)}`);
  expect(size).toBeGreaterThan(0.04);
  expect(size).toBeLessThan(0.06);
});

test("the size at 0.01 for 14 phases lies within 0.8 and 1.2 of it over 20000 runs", () => {
  const size = sizeAt(14, 0.01, 20000);
  console.log(`Rayleigh size at 0.01, n = 14: ${size.toFixed(4)}`);
  expect(size).toBeGreaterThan(0.008);
  expect(size).toBeLessThan(0.012);
});

test("phases a half turn either side of each other cancel, and p is 1", () => {
  const found = rayleighTest([0, 0.5, 0.1, 0.6, 0.2, 0.7]);
  expect(found.resultantLength).toBeCloseTo(0, 12);
  expect(found.pValue).toBeCloseTo(1, 12);
});

test("equal phases have a resultant of 1, their own direction, and p = exp(sqrt(1 + 4n) - (1 + 2n))", () => {
  const n = 12;
  const found = rayleighTest(Array.from({ length: n }, (_, i) => i + 0.3));
  expect(found.resultantLength).toBeCloseTo(1, 12);
  expect(found.directionCycles).toBeCloseTo(0.3, 12);
  expect(found.pValue / Math.exp(Math.sqrt(1 + 4 * n) - (1 + 2 * n))).toBeCloseTo(1, 9);
});

test("a direction below zero is given between 0 and 1", () => {
  expect(rayleighTest([0.9, 0.85, 0.95, 0.9, 0.9]).directionCycles).toBeCloseTo(0.9, 12);
});

test("turning all phases by the same angle changes the direction alone", () => {
  const phases = [0.11, 0.23, 0.31, 0.77, 0.4, 0.28];
  const turned = rayleighTest(phases.map((phase) => phase + 5.25));
  const found = rayleighTest(phases);
  expect(turned.pValue).toBeCloseTo(found.pValue, 12);
  expect(turned.directionCycles).toBeCloseTo((found.directionCycles + 0.25) % 1, 12);
});

test("phases gathered by a normal of 0.1 cycle are found in at least 99 % of runs of 14", () => {
  const draw = drawing(5);
  let found = 0;
  for (let run = 0; run < 500; run++) {
    if (rayleighTest(Array.from({ length: 14 }, () => draw.normal(0.7, 0.1))).pValue < 0.01) found++;
  }
  expect(found / 500).toBeGreaterThan(0.99);
});

test("fewer than five phases, and phases that are not finite, are refused", () => {
  expect(() => rayleighTest([0.1, 0.2, 0.3, 0.4])).toThrow("at least 5 phases, got 4");
  expect(() => rayleighTest([0.1, 0.2, NaN, 0.4, 0.5])).toThrow("a phase is NaN");
});
