import { expect, test } from "vitest";
import {
  Quantity,
  boundedSource,
  compareWithMonteCarlo,
  evidenceStep,
  expand,
  isQuantity,
  linear,
  monteCarlo,
  normalSource,
  observedSource,
  secondOrderUncertainty,
} from "../../src/metrology/index.js";
import type { Source } from "../../src/metrology/index.js";
import { expectPublished, publishedEntry } from "../reference/load.js";

const nowhere = evidenceStep("published example", []);
const file = "gum-supplement1-examples.json";
const add = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0);
const quantity = (source: Source, value = 0, symbol = "1"): Quantity =>
  new Quantity(value, symbol, [{ source, contribution: source.u }], nowhere);
const halfWidth = ([low, high]: readonly [number, number]): number => (high - low) / 2;

test("JCGM 101 9.2.2: four standard normal inputs", () => {
  const entry = publishedEntry(file, "s1-additive-normal");
  const inputs = [1, 2, 3, 4].map((i) => quantity(normalSource(`x${i}`, "x", 1, "1")));
  const propagated = linear(inputs, [1, 1, 1, 1], "sum");
  expectPublished(entry, "u", propagated.u);
  expectPublished(entry, "halfWidth95exact", roundTo(expand(propagated).U, 15));
  const simulated = monteCarlo(inputs, add, { seed: 11, trials: 200_000 });
  expect(Math.abs(simulated.u - 2)).toBeLessThan(0.012);
  expect(Math.abs(halfWidth(simulated.interval) - 3.92)).toBeLessThan(0.03);
});

test("JCGM 101 9.2.3: four rectangular inputs have a narrower interval than the law of propagation gives", () => {
  const entry = publishedEntry(file, "s1-additive-rectangular");
  const inputs = [1, 2, 3, 4].map((i) => quantity(boundedSource(`x${i}`, "x", Math.sqrt(3), "1")));
  const both = compareWithMonteCarlo(inputs, add, "1", { seed: 12, trials: 200_000 });
  expect(isQuantity(both.propagated) && both.propagated.u).toBeCloseTo(2, 12);
  // The file allows 0.03 for 2e5 trials.
  const exact = entry.expected.find((e) => e.name === "halfWidth95exact")!.value as number;
  expect(Math.abs(halfWidth(both.simulated!.shortest) - exact)).toBeLessThan(0.03);
  expect(Math.abs(halfWidth(both.simulated!.interval) - exact)).toBeLessThan(0.03);
});

test("JCGM 101 9.2.4: one dominant rectangular input is reported as a disagreement", () => {
  const entry = publishedEntry(file, "s1-additive-one-dominant");
  const inputs = [1, 1, 1, 10].map((u, i) => quantity(boundedSource(`x${i}`, "x", u * Math.sqrt(3), "1")));
  const both = compareWithMonteCarlo(inputs, add, "1", { seed: 13, trials: 200_000 });
  if (!isQuantity(both.propagated)) throw new Error("absent");
  expectPublished(entry, "u", both.propagated.u);
  expectPublished(entry, "halfWidth95lawOfPropagation", expand(both.propagated).U);
  expect(Math.abs(halfWidth(both.simulated!.shortest) - 17.0158141)).toBeLessThan(0.06);
  expect(both.warning).toMatch(/use the Monte Carlo interval$/);
});

test("JCGM 101 9.3: mass calibration at first order, with higher-order terms, and by Monte Carlo", () => {
  const entry = publishedEntry(file, "s1-mass-calibration");
  const inputs = [
    quantity(normalSource("mRc", "m", 0.05, "mg"), 100000, "mg"),
    quantity(normalSource("dmRc", "dm", 0.02, "mg"), 1.234, "mg"),
    quantity(boundedSource("rhoA", "a", 0.1, "kg/m3"), 1.2, "kg/m3"),
    quantity(boundedSource("rhoW", "w", 1000, "kg/m3"), 8000, "kg/m3"),
    quantity(boundedSource("rhoR", "r", 50, "kg/m3"), 8000, "kg/m3"),
  ] as const;
  const formula = ([m, d, a, w, r]: readonly number[]): number =>
    (m! + d!) * (1 + (a! - 1.2) * (1 / w! - 1 / r!)) - 100000;
  const both = compareWithMonteCarlo(inputs, formula, "mg", { seed: 14, trials: 400_000 });
  if (!isQuantity(both.propagated)) throw new Error("absent");
  expectPublished(entry, "estimate", both.propagated.value);
  expectPublished(entry, "uFirstOrder", both.propagated.u);
  const { U } = expand(both.propagated);
  expectPublished(entry, "intervalFirstOrder", [both.propagated.value - U, both.propagated.value + U]);
  const higher = secondOrderUncertainty(
    inputs.map((q) => q.value),
    inputs.map((q) => q.u),
    formula,
  );
  expectPublished(entry, "uHigherOrder", higher.full);
  expect(Math.abs(both.simulated!.u - 0.0755)).toBeLessThan(0.0003);
  expect(Math.abs(both.simulated!.shortest[0] - 1.0834)).toBeLessThan(0.003);
  expect(Math.abs(both.simulated!.shortest[1] - 1.3825)).toBeLessThan(0.003);
  expect(both.warning).not.toBe("");
});

test("a type A source is drawn from Student's distribution of its degrees of freedom", () => {
  const q = quantity(observedSource("s", "s", 1, "1", 5));
  const simulated = monteCarlo([q], ([x]) => x, { seed: 15, trials: 200_000 });
  expect(Math.abs(halfWidth(simulated.interval) - 2.5706)).toBeLessThan(0.03);
});

test("one seed gives one result, another seed another", () => {
  const q = quantity(normalSource("s", "s", 1, "1"));
  const run = (seed: number): number => monteCarlo([q], ([x]) => x, { seed, trials: 1000 }).u;
  expect(run(3)).toBe(run(3));
  expect(run(3)).not.toBe(run(4));
});

test("a shared source is drawn once a trial, so a difference cancels it", () => {
  const shared = normalSource("rig/span", "Span", 1, "cN");
  const simulated = monteCarlo([quantity(shared, 5, "cN"), quantity(shared, 3, "cN")], ([a, b]) => a - b, { seed: 1 });
  expect(simulated.u).toBeLessThan(1e-12);
});

function roundTo(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}
