import tQuantile from "@stdlib/stats-base-dists-t-quantile";
import { mean } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { bootstrapKept, seedOf } from "../../src/latency/bootstrap-kept.js";
import { keptCount, keptMean, standardDeviation } from "../../src/latency/kept-mean.js";
import { drawing } from "./simulator.js";

/** The 10 fastest of 12 normal presses of sd 1, many times. */
function simulate(runs: number): { readonly means: number[]; readonly us: number[]; readonly naive: number[] } {
  const draw = drawing(12);
  const means: number[] = [];
  const us: number[] = [];
  const naive: number[] = [];
  for (let run = 0; run < runs; run++) {
    const values = Array.from({ length: 12 }, () => draw.normal(0, 1));
    const found = keptMean(values, { kept: 10 });
    means.push(found.mean);
    us.push(found.u);
    naive.push(standardDeviation(found.keptIndices.map((i) => values[i]!)) / Math.sqrt(10));
  }
  return { means, us, naive };
}

test("10 of 12 normal presses kept are low by 0.27 sigma (derived; recomputed here)", () => {
  const bias = mean(simulate(20000).means)!;
  console.log(`bias of the 10 fastest of 12: ${bias.toFixed(4)} sigma`);
  expect(bias).toBeCloseTo(-0.27, 2);
});

test("s / sqrt(10) of the kept says 0.257 sigma, and their mean scatters by more; s_w sqrt(n) / k says what it scatters by", () => {
  const { means, us, naive } = simulate(20000);
  const rms = (values: readonly number[]): number => Math.sqrt(mean(values, (value) => value * value)!);
  const scatter = standardDeviation(means);
  console.log(
    `10 of 12: scatter of the mean ${scatter.toFixed(4)}; rms u ${rms(us).toFixed(4)}; ` +
      `rms s/sqrt(10) ${rms(naive).toFixed(4)}, mean ${mean(naive)!.toFixed(4)}`,
  );
  expect(scatter).toBeCloseTo(0.297, 2);
  expect(rms(us) / scatter).toBeGreaterThan(0.95);
  expect(rms(us) / scatter).toBeLessThan(1.05);
  expect(rms(naive)).toBeLessThan(0.9 * scatter);
});

test("U with k - 1 degrees of freedom covers the expectation of the 10 fastest of 12 in 94 to 96 % of normal runs", () => {
  const { means, us } = simulate(20000);
  const expectation = mean(means)!;
  const factor = tQuantile(0.975, 9);
  const covered = means.filter((value, i) => Math.abs(value - expectation) <= factor * us[i]!).length / means.length;
  console.log(`coverage of L_k, press scatter alone, 10 of 12: ${covered.toFixed(4)}`);
  expect(covered).toBeGreaterThan(0.94);
  expect(covered).toBeLessThan(0.96);
});

test("the uncertainty of kept minus all is what the difference scatters by", () => {
  const draw = drawing(8);
  const differences: number[] = [];
  const us: number[] = [];
  for (let run = 0; run < 5000; run++) {
    const found = keptMean(
      Array.from({ length: 14 }, () => draw.normal(0, 1)),
      { kept: 11 },
    );
    differences.push(found.minusAll);
    us.push(found.minusAllU ** 2);
  }
  const ratio = Math.sqrt(mean(us)!) / standardDeviation(differences);
  console.log(`u(L_k - L) over its scatter, 11 of 14: ${ratio.toFixed(3)}`);
  expect(ratio).toBeGreaterThan(0.85);
  expect(ratio).toBeLessThan(1.15);
});

test("where all are kept the mean and u are those of all", () => {
  const values = [3, 1, 4, 1, 5, 9, 2, 6];
  const found = keptMean(values, { kept: 8 });
  expect(found.mean).toBeCloseTo(mean(values)!, 12);
  expect(found.u).toBeCloseTo(standardDeviation(values) / Math.sqrt(8), 12);
  expect(found.minusAll).toBe(0);
  expect(found.minusAllU).toBe(0);
});

test("by hand: of 1, 2, 3, 9 the three fastest average 2, with s_w of 1, 2, 3, 3", () => {
  const found = keptMean([9, 1, 3, 2], { kept: 3 });
  expect(found.mean).toBe(2);
  expect(found.winsorizedSd).toBeCloseTo(Math.sqrt(11 / 12), 12);
  expect(found.u).toBeCloseTo((Math.sqrt(11 / 12) * 2) / 3, 12);
  expect(found.dof).toBe(2);
  expect(found.keptIndices).toEqual([1, 2, 3]);
  expect(found.minusAll).toBeCloseTo(2 - 15 / 4, 12);
});

test("among ties the earlier press is kept", () => {
  expect(keptMean([5, 5, 5, 5], { kept: 2 }).keptIndices).toEqual([0, 1]);
});

test("adding a constant shifts the mean alone, and stretching scales mean and u", () => {
  const values = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 4, maxLength: 20 });
  fc.assert(
    fc.property(
      values,
      fc.double({ min: -9, max: 9, noNaN: true }),
      fc.double({ min: 0.1, max: 9, noNaN: true }),
      (list, shift, scale) => {
        const kept = Math.max(2, list.length - 2);
        const found = keptMean(list, { kept });
        const moved = keptMean(
          list.map((value) => value * scale + shift),
          { kept },
        );
        expect(moved.mean).toBeCloseTo(found.mean * scale + shift, 6);
        expect(moved.u).toBeCloseTo(found.u * scale, 6);
      },
    ),
    { seed: 1, numRuns: 200 },
  );
});

test("fewer presses keep the same share, to the nearest whole number", () => {
  const method = { presses: 14, kept: 11 };
  expect([14, 13, 12, 11, 10, 9, 16].map((valid) => keptCount(valid, method))).toEqual([11, 10, 9, 9, 8, 7, 13]);
});

test("keeping one, none, or more than there are, and latencies that are not finite, are refused", () => {
  expect(() => keptMean([1, 2, 3], { kept: 1 })).toThrow("k must be a whole number from 2 to n");
  expect(() => keptMean([1, 2, 3], { kept: 4 })).toThrow("cannot keep 4 of 3");
  expect(() => keptMean([1, 2, 3], { kept: NaN })).toThrow("cannot keep NaN");
  expect(() => keptMean([1, Infinity, 3], { kept: 2 })).toThrow("a latency is Infinity ms");
  expect(() => keptCount(5, { presses: 10, kept: 11 })).toThrow("keeps 11 of 10");
});

test("the bootstrap gives the same interval for the same seed and for any order of presses", () => {
  const values = [45, 47, 50, 52, 49, 48, 46, 51, 47, 55];
  const found = bootstrapKept(values, { kept: 8, seed: 3 });
  expect(bootstrapKept([...values].reverse(), { kept: 8, seed: 3 })).toEqual(found);
  expect(bootstrapKept(values, { kept: 8, seed: 4 })).not.toEqual(found);
});

test("the bootstrap's standard error agrees with s_w sqrt(n) / k within a fifth for normal presses", () => {
  const draw = drawing(21);
  const ratios: number[] = [];
  for (let run = 0; run < 60; run++) {
    const values = Array.from({ length: 14 }, () => draw.normal(20, 2));
    ratios.push(
      bootstrapKept(values, { kept: 11, seed: run, draws: 500 }).standardErrorMs / keptMean(values, { kept: 11 }).u,
    );
  }
  const ratio = mean(ratios)!;
  console.log(`bootstrap standard error over s_w sqrt(n)/k, 11 of 14: ${ratio.toFixed(3)}`);
  expect(Math.abs(ratio - 1)).toBeLessThan(0.2);
});

test("the bootstrap of equal presses has no width", () => {
  const found = bootstrapKept([7, 7, 7, 7], { kept: 3, seed: 1 });
  expect([found.lowMs, found.highMs, found.standardErrorMs]).toEqual([7, 7, 0]);
});

test("a bootstrap of one value, or with draws that make no interval, is refused", () => {
  expect(() => bootstrapKept([1], { kept: 1, seed: 1 })).toThrow("at least 2 values");
  expect(() => bootstrapKept([1, 2], { kept: 3, seed: 1 })).toThrow("cannot keep 3 of 2");
  expect(() => bootstrapKept([1, 2], { kept: 1, seed: 1, draws: 10 })).toThrow("at least 100");
  expect(() => bootstrapKept([1, 2], { kept: 1, seed: 1, level: NaN })).toThrow("level is NaN");
});

test("a seed from a text is a whole number, and differs between texts", () => {
  expect(Number.isInteger(seedOf("session/u07/s2"))).toBe(true);
  expect(seedOf("session/u07/s2")).not.toBe(seedOf("session/u07/s3"));
});
