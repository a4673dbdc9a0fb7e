import { expect, test } from "vitest";
import { expand } from "../../src/metrology/expanded.js";
import { reduceLatency } from "../../src/latency/reduce-latency.js";
import type { Chain } from "./simulator.js";
import { drawing, expectedKeptMs, expectedLatencyMs, simulateSession, usualChain } from "./simulator.js";

const keptTruths = new Map<string, number>();

/** By 100,000 draws, once for chains that differ only in how they are read. */
function keptTruth(chain: Chain): number {
  const key = JSON.stringify({ ...chain, readers: 0, marks: false });
  const known = keptTruths.get(key);
  if (known !== undefined) return known;
  const found = expectedKeptMs(chain, drawing(43), { n: 14, k: 11, draws: 100000 });
  keptTruths.set(key, found);
  return found;
}

/**
 * Measurement model, section 8: each run draws every source of the budget anew, rig terms too, from its true
 * distribution; truth is fixed before the reduction sees anything.
 */
function coverage(chain: Chain, runs: number, seed: number) {
  const truth = expectedLatencyMs(chain);
  const truthKept = keptTruth(chain);
  const draw = drawing(seed);
  const errors: number[] = [];
  const keptErrors: number[] = [];
  let covered = 0;
  let keptCovered = 0;
  let halfWidths = 0;
  let keptHalfWidths = 0;
  let absent = 0;
  for (let run = 0; run < runs; run++) {
    const { readings, context } = simulateSession(chain, draw);
    const { latency, latencyKept } = reduceLatency(readings, context).connections[0]!;
    if (latency.absent || latencyKept.absent) {
      absent++;
      continue;
    }
    const U = expand(latency).U;
    const keptU = expand(latencyKept).U;
    errors.push(Math.abs(latency.value - truth));
    keptErrors.push(Math.abs(latencyKept.value - truthKept));
    if (errors.at(-1)! <= U) covered++;
    if (keptErrors.at(-1)! <= keptU) keptCovered++;
    halfWidths += U;
    keptHalfWidths += keptU;
  }
  const quantile = (values: number[]): number => values.sort((a, b) => a - b)[Math.ceil(0.95 * values.length) - 1]!;
  return {
    truth,
    truthKept,
    absent,
    covered: covered / runs,
    keptCovered: keptCovered / runs,
    halfWidth: halfWidths / runs,
    keptHalfWidth: keptHalfWidths / runs,
    monteCarlo: quantile(errors),
    keptMonteCarlo: quantile(keptErrors),
  };
}

const chains: readonly (readonly [string, number, Partial<Chain>])[] = [
  ["one reader, speed by calibration", 400, {}],
  ["two readers of the film", 200, { readers: 2 }],
  ["plunger's mark on film", 200, { marks: true }],
  ["fast keyboard", 200, { fixedMs: 1, scanMs: 1, pollingMs: 1 }],
  ["240 frames a second, two readers", 200, { frameMs: 1000 / 240, speedMmPerS: 100, readers: 2 }],
];

test.each(chains)("U of L and of L_k covers the truth in about 95 %% of runs: %s", (name, runs, changes) => {
  const found = coverage({ ...usualChain, ...changes }, runs, 42);
  const ms = (value: number): string => value.toFixed(2);
  console.log(
    `${name}: L ${ms(found.truth)} ms covered ${found.covered.toFixed(3)}, U ${ms(found.halfWidth)}, Monte Carlo ` +
      `${ms(found.monteCarlo)}; L_k ${ms(found.truthKept)} ms covered ${found.keptCovered.toFixed(3)}, U ` +
      `${ms(found.keptHalfWidth)}, Monte Carlo ${ms(found.keptMonteCarlo)}`,
  );
  // The bar is 93 to 97.5 %; beyond it, one standard error of a share of so few runs.
  const noise = Math.sqrt((0.95 * 0.05) / runs);
  expect(found.absent).toBe(0);
  for (const covered of [found.covered, found.keptCovered]) {
    expect(covered).toBeGreaterThanOrEqual(0.93 - noise);
    expect(covered).toBeLessThanOrEqual(0.975 + noise);
  }
  expect(found.halfWidth).toBeLessThanOrEqual(1.25 * found.monteCarlo);
  expect(found.keptHalfWidth).toBeLessThanOrEqual(1.25 * found.keptMonteCarlo);
});

test("a plunger triggered by the polling is found out, and the undivided period keeps L covered", () => {
  const chain = { ...usualChain, locked: true };
  const draw = drawing(44);
  const runs = 200;
  let covered = 0;
  let found = 0;
  let blind = 0;
  for (let run = 0; run < runs; run++) {
    const { readings, context } = simulateSession(chain, draw);
    const { latency, details } = reduceLatency(readings, context).connections[0]!;
    if (latency.absent) throw new Error(latency.reason);
    if (details.locks.find((lock) => lock.period === "polling")!.status === "locked") found++;
    const error = Math.abs(latency.value - expectedLatencyMs(chain));
    if (error <= expand(latency).U) covered++;
    const without = latency.components.filter((component) => !component.source.id.includes("/phase/"));
    if (error <= 2 * Math.hypot(...without.map((component) => component.contribution))) blind++;
  }
  console.log(
    `locked to polling: found ${found} of ${runs}, covered ${(covered / runs).toFixed(3)}, ` +
      `without the undivided term ${(blind / runs).toFixed(3)}`,
  );
  expect(found).toBe(runs);
  expect(covered / runs).toBeGreaterThanOrEqual(0.93);
  expect(blind / runs).toBeLessThan(0.8);
});

test("skewed scatter, published and not gated at 93 %: L_k still covers its own expectation in 90 % of runs", () => {
  const found = coverage({ ...usualChain, retryMs: 6 }, 200, 43);
  console.log(
    `skewed: L covered ${found.covered.toFixed(3)}, L_k covered ${found.keptCovered.toFixed(3)} ` +
      `(${found.truthKept.toFixed(2)} ms against ${found.truth.toFixed(2)} ms)`,
  );
  expect(found.keptCovered).toBeGreaterThan(0.9);
});
