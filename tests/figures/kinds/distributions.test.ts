import { expect, test } from "vitest";
import { empiricalDistribution } from "../../../src/figures/kinds/empirical-distribution.js";
import { tickMarks } from "../../../src/figures/kinds/empirical-panel.js";
import { latencyDistribution } from "../../../src/figures/kinds/latency-distribution.js";
import { quantileStrip } from "../../../src/figures/kinds/quantile-strip.js";
import { sampleConnection } from "../../../tools/figure-sheet/sample-latency.js";
import { none, plain, q } from "./shared.js";

const ms = (value: number) => q(value, 1, "ms");

test("every press is in the table with its standing, and excluded ones are not counted", () => {
  const made = latencyDistribution([sampleConnection("bluetooth", 20, 4, 5, true)]);
  const standings = made.data.rows.map((row) => String(row[3]));
  expect(standings.filter((standing) => standing !== "result")).toHaveLength(14);
  expect(standings.filter((standing) => standing === "valid, not kept")).toHaveLength(3);
  expect(standings).toContain("excluded: plunger touched the neighbouring key");
  expect(standings).toContain("excluded: missed");
  expect(plain(made.finding)).toMatch(
    /^bluetooth: 12 presses from [\d.]+ ms to [\d.]+ ms, L \([\d.]+ ± [\d.]+\) ms, L₉ \(.*\) ms and median \(.*\) ms, 1 more without a value\.$/,
  );
});

test("where all presses are kept there is one mean", () => {
  const connection = sampleConnection("usb", 8, 1, 3);
  const made = latencyDistribution([{ ...connection, kept: connection.valid }]);
  expect(made.data.rows.filter((row) => row[3] === "result").map((row) => row[1])).toEqual(["L", "median"]);
});

test("a sample without readings keeps its panel, and tied readings are said to be at one place", () => {
  const made = empiricalDistribution(
    [
      { label: "a", values: [] },
      { label: "b", values: [ms(8), ms(8)] },
    ],
    (sample) => sample.values.map((value, index) => ({ value, name: `press ${index}` })),
    { of: "Latency", readingNoun: "press" },
  );
  expect(plain(made.finding)).toBe("a: no press with a value; b: 2 presses all at 8.0 ms.");
});

test("equal readings stand under one another, none hides another", () => {
  const readings = [ms(8), ms(8), ms(9)].map((value, index) => ({ value, name: `press ${index}` }));
  const [ticks] = tickMarks({ label: "a", counted: [8, 8, 9], readings, marks: [], base: 1 });
  const drawn = (ticks as unknown as { readonly data: readonly { x: number; y1: number; y2: number }[] }).data;
  const [first, second, alone] = drawn;
  expect(second!.x).toBe(first!.x);
  expect(second!.y1).toBeLessThan(first!.y2);
  expect(alone!.y1 - alone!.y2).toBeGreaterThan(first!.y1 - second!.y2 - 0.03);
});

test("without any reading there are words, and absent readings are not lost", () => {
  const made = empiricalDistribution([{ label: "a" }], () => [{ value: none("missed", "ms"), name: "press 1" }], {
    of: "Latency",
    readingNoun: "press",
  });
  expect(made.empty).toBe("No item has a press with a value.");
  expect(made.data.rows).toHaveLength(1);
});

test("more than three marks and a level out of range are refused", () => {
  const marks = () => [1, 2, 3, 4].map((value) => ({ name: "m", value: ms(value) }));
  expect(() => empiricalDistribution([{ label: "a" }], () => [], { of: "Latency", marks })).toThrow(/at most 3/);
  expect(() => latencyDistribution([sampleConnection("usb", 8, 1, 3)], { level: 1 })).toThrow(/between 0 and 1/);
  expect(() => latencyDistribution([], { leval: 0.9 } as never)).toThrow(/did you mean "level"/);
});

const units = (count: number) =>
  Array.from({ length: count }, (_, index) => ({ unit: `u${index + 1}`, value: ms(index + 1) }));

test("quantiles are of type 7, and marked only where they lie among the values", () => {
  const made = quantileStrip(units(11), (unit) => unit.value, { of: "Latency" });
  expect(plain(made.finding)).toBe("The 11 units: P10 2.0 ms, median 6.0 ms, P90 10.0 ms, from 1.0 ms to 11.0 ms.");
  expect(plain(quantileStrip(units(9), (unit) => unit.value).finding)).toBe(
    "The 9 units: median 5.0 ms, from 1.0 ms to 9.0 ms.",
  );
});

test("one value, none and absent ones are said", () => {
  expect(plain(quantileStrip(units(1), (unit) => unit.value).finding)).toBe("The 1 unit at 1.0 ms.");
  expect(quantileStrip([], () => ms(1), { noun: "unit" }).empty).toBe("There are no units to show.");
  const made = quantileStrip([...units(2), { unit: "u3", value: none("not measured", "ms") }], (unit) => unit.value);
  expect(made.finding).toMatch(/; not available: u3 \(not measured\)\.$/);
});

test("a highlighted item is placed among the others of its group", () => {
  const options = { group: (unit: { unit: string }) => (unit.unit === "u11" ? "b" : "a"), highlight: "u3" };
  expect(plain(quantileStrip(units(11), (unit) => unit.value, options).finding)).toMatch(
    /^u3 reads 3.0 ms; 2 of the 9 others read less; a, 10 units:/,
  );
  expect(() => quantileStrip(units(3), (unit) => unit.value, { highlight: "u33" })).toThrow(
    /no "u33" to highlight; did you mean "u3"/,
  );
});

test("quantiles must lie between 0 and 1", () => {
  expect(() => quantileStrip(units(3), (unit) => unit.value, { quantiles: [0.5, 1] })).toThrow(/quantile 1 must lie/);
});
