import { expect, test } from "vitest";
import { combSpacing } from "../../src/latency/comb-spacing.js";
import { detectGrid } from "../../src/latency/polling-grid.js";
import { combPeak, combRange, resultantLength } from "../../src/latency/periodogram.js";
import { drawing } from "./simulator.js";

const detect = (timesMs: readonly number[], periodMs: number | null = 7.5, stepMs = 1) =>
  detectGrid(timesMs, {
    stepMs,
    periods: [{ period: "polling", label: "polling interval", periodMs }],
    seed: 11,
    path: "session/u07/s2/connection/bluetooth",
    evidence: [],
  });

/** Film times of a link that adds 0 to 4 whole intervals, with some jitter, read on frames. */
const combed = (count: number, spacingMs: number, jitterMs: number, seed: number): number[] => {
  const draw = drawing(seed);
  return Array.from({ length: count }, () =>
    Math.floor(40 + spacingMs * Math.floor(draw.uniform(0, 5)) + draw.normal(0, jitterMs) + draw.uniform(0, 1)),
  );
};

test("a comb of 7.5 ms is found, with its spacing and what it suggests", () => {
  const found = detect(combed(20, 7.5, 0.4, 1));
  expect(found.verdict).toBe("comb");
  expect(found.pValue).toBeLessThan(0.01);
  if (found.spacing.absent) throw new Error(found.spacing.reason);
  expect(Math.abs(found.spacing.value - 7.5)).toBeLessThan(2.5 * found.spacing.u);
  expect(found.suggestion).toContain("the stated polling interval is that long");
});

test("combs are found in at least 90 % of runs of 14 presses, smooth scatter is called a comb in at most 1 %", () => {
  let found = 0;
  for (let run = 0; run < 40; run++) if (detect(combed(14, 7.5, 0.5, 100 + run)).verdict === "comb") found++;
  let claimed = 0;
  const draw = drawing(77);
  const smooth = [
    () => draw.uniform(40, 70),
    () => draw.normal(50, 6),
    () => 40 - 8 * Math.log(1 - draw.uniform(0, 1)),
    () => 40 + draw.uniform(0, 8) + draw.uniform(0, 5),
  ];
  const runs = 400;
  for (let run = 0; run < runs; run++) {
    const times = Array.from({ length: 14 }, () => Math.floor(smooth[run % 4]!() + draw.uniform(0, 1)));
    if (detect(times).verdict === "comb") claimed++;
  }
  console.log(`combs of 14 presses found: ${found} of 40; claimed in smooth scatter: ${claimed} of ${runs}`);
  expect(found / 40).toBeGreaterThanOrEqual(0.9);
  expect(claimed / runs).toBeLessThanOrEqual(0.01);
});

test("with fewer than 12 presses nothing is claimed, however clear the comb", () => {
  const found = detect([40, 47.5, 55, 62.5, 70, 40, 47.5, 55, 62.5, 70, 40], 7.5, 0.1);
  expect(found.verdict).toBe("not_resolved");
  expect(found.pValue).toBeNull();
  expect(found.suggestion).toContain("11 presses are too few to look for a comb (12 are needed).");
});

test("two groups are no comb", () => {
  const times = Array.from({ length: 16 }, (_, i) => (i % 2 === 0 ? 40 : 60) + (i % 3) * 0.05);
  const found = detect(times, null, 0.1);
  expect(found.verdict).toBe("none");
  expect(found.suggestion).toContain("The presses fall into 2 groups 19.99 ms apart; fewer than three make no comb.");
});

test("scatter of a few frames is too narrow to look", () => {
  const found = detect([50, 51, 50, 52, 51, 50, 51, 52, 50, 51, 52, 51, 50, 51], 1);
  expect(found.verdict).toBe("not_resolved");
  expect(found.suggestion).toContain("scatter too little against the frame");
});

test("equal presses and no presses are not resolved", () => {
  expect(detect(Array<number>(14).fill(50)).verdict).toBe("not_resolved");
  expect(detect([]).verdict).toBe("not_resolved");
});

test("scatter of polling alone is said to be what one expects, wider scatter to have more in it, none to be too little", () => {
  const draw = drawing(3);
  const polled = (periodMs: number) =>
    Array.from({ length: 20 }, () => Math.floor(30 + draw.uniform(0, periodMs) + draw.uniform(0, 1)));
  const alone = detect(polled(8), 8);
  expect(alone.widths[0]!.pValue).toBeGreaterThan(0.05);
  expect(alone.suggestion).toContain("is what one expects");
  const wider = detect(polled(20), 8);
  expect(wider.widths[0]!.pValue).toBeLessThan(0.01);
  expect(wider.suggestion).toContain("has more in it than polling");
  const locked = detect(Array<number>(14).fill(30), 8);
  expect(locked.suggestion).toContain("is below what random phases give");
});

test("without a stated period no width is compared", () => {
  expect(detect(combed(14, 7.5, 0.5, 5), null).widths).toEqual([]);
});

test("the order of presses does not matter, and the same presses give the same answer", () => {
  const times = combed(16, 7.5, 0.4, 9);
  expect(detect([...times].reverse())).toEqual(detect(times));
});

test("a comb's spacing is fitted by least squares, and a common factor of the teeth is taken out", () => {
  const found = combSpacing([0, 0, 7.4, 7.6, 15, 15, 30, 30], 7.4);
  expect(found.teeth).toBe(4);
  expect(Math.abs(found.spacingMs - 7.5)).toBeLessThan(0.02);
  expect(combSpacing([0, 0, 10, 10, 20, 20, 40, 40], 5)).toMatchObject({ spacingMs: 10, u: 0, teeth: 4 });
  expect(combSpacing([4, 4, 4], 5)).toMatchObject({ teeth: 1, spacingMs: 5 });
  expect(() => combSpacing([1, 2, 3], NaN)).toThrow("spacing to start from is NaN");
});

test("a stray time makes no tooth", () => {
  expect(combSpacing([0, 0, 0, 6, 12, 12, 12], 6)).toMatchObject({ teeth: 2, spacingMs: 12 });
});

test("the periodogram is 1 on a comb's own frequency, and of its harmonics the longest spacing is taken", () => {
  const times = [0, 8, 8, 16, 24, 32, 40];
  expect(resultantLength(times, 1 / 8)).toBeCloseTo(1, 12);
  expect(combPeak(times, combRange(times, 0.1)!).resultantLength).toBeCloseTo(1, 9);
  const peak = combPeak(times, combRange(times, 0.1)!);
  expect(1 / peak.frequencyPerMs).toBeCloseTo(8, 0);
});
