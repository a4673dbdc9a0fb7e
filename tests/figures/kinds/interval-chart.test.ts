import { expect, test } from "vitest";
import { intervalChart } from "../../../src/figures/kinds/interval-chart.js";
import { none, plain, q } from "./shared.js";

const limits = { min: { value: 35, symbol: "cN" }, max: { value: 55, symbol: "cN" } };
const keys = (...values: (number | string)[]) =>
  values.map((value, index) => ({
    key: `Key${"ABCDEFGH"[index]}`,
    force: typeof value === "number" ? q(value, 1, "cN", `k${index}`) : none(value),
  }));
const finding = (values: (number | string)[], options = {}): string =>
  plain(intervalChart(keys(...values), (key) => key.force, options).finding);

test("the reading furthest from the median is named, with the median", () => {
  expect(finding([45, 46, 44, 61.2])).toBe("KeyD reads 61.2 cN, 15.7 cN above the median of the 4 keys, 45.5 cN.");
  expect(finding([45, 46, 30])).toBe("KeyC reads 30.0 cN, 15.0 cN below the median of the 3 keys, 45.0 cN.");
});

test("readings that print equally far from the median are named together", () => {
  expect(finding([40, 45, 50])).toBe(
    "KeyA (40.0 cN) and KeyC (50.0 cN) lie furthest from the median of the 3 keys, 45.0 cN.",
  );
  expect(finding([45, 45.01, 45.02])).toBe("All 3 keys read 45.0 cN.");
});

test("one reading is quoted with its uncertainty, two are compared", () => {
  expect(finding([45])).toBe("KeyA: (45.0 ± 1.0) cN, the only key.");
  expect(finding([45, 47.5])).toBe("KeyA reads 45.0 cN and KeyB 47.5 cN, 2.5 cN apart.");
  expect(finding([45, 45])).toBe("Both keys read 45.0 cN.");
});

test("limits are judged with a guard band of U: inside, outside, undecided", () => {
  expect(finding([45, 46, 44], { limits })).toContain(
    "all 3 keys lie inside 35 cN to 55 cN by at least their uncertainty.",
  );
  expect(finding([45, 54.5, 61], { limits })).toContain(
    "; 1 of 3 keys lies inside 35 cN to 55 cN, 1 outside (KeyC), 1 undecided (KeyB).",
  );
  expect(finding([45], { limits })).toContain("; the key lies inside 35 cN to 55 cN by at least its uncertainty.");
});

test("a limit exactly one U away still counts as inside, and a value on the limit is undecided", () => {
  expect(finding([54, 46, 44], { limits: { max: { value: 55, symbol: "cN" } } })).toContain(
    "all 3 keys lie inside at most 55 cN",
  );
  expect(finding([55, 46, 44], { limits })).toContain("1 undecided (KeyA)");
});

test("typical values and limits that bind the mean are drawn and not judged", () => {
  const shown = intervalChart(keys(45, 60, 44), (key) => key.force, {
    limits: [
      { ...limits, force: "typical" },
      { ...limits, binds: "mean" },
    ],
  });
  expect(shown.finding).not.toContain("inside");
  expect(shown.note).toMatch(/typical, not judged.*binds the mean, not judged here/);
  expect(shown.data.columns.map((column) => column.name)).toEqual(["key", "value"]);
});

test("a limit far beyond the values is said and not drawn", () => {
  const made = intervalChart(keys(45, 46, 44), (key) => key.force, {
    limits: { max: { value: 150, symbol: "cN" }, source: "a standard" },
  });
  expect(plain(made.note!)).toBe("Dashed: at most 150 cN (a standard); 150 cN beyond the axis.");
  expect(made.x.domain![1]).toBeLessThan(60);
});

test("an absent value keeps its row in chart and table, with its reason", () => {
  const made = intervalChart(keys(45, "no peak", 44), (key) => key.force, { limits });
  expect(made.data.rows).toHaveLength(3);
  expect(made.data.rows[1]![1]).toMatchObject({ absent: true, reason: "no peak" });
  expect(made.finding).toMatch(/not available: KeyB \(no peak\)\.$/);
  expect(made.y.ticks).toHaveLength(3);
});

test("without a value there are words and no axes", () => {
  expect(intervalChart([], () => q(1, 1), { noun: "key" }).empty).toBe("There are no keys to show.");
  const made = intervalChart(keys("no peak", "no peak"), (key) => key.force);
  expect(made.empty).toBe("Not available: KeyA and KeyB (no peak).");
  expect(made.data.rows).toHaveLength(2);
});

test("by value puts the largest first, ties in the given order, absent ones last", () => {
  const made = intervalChart(keys(44, "none", 46, 44), (key) => key.force, { sort: "value" });
  expect(made.data.rows.map((row) => row[0])).toEqual(["KeyC", "KeyA", "KeyD", "KeyB"]);
});

test("unknown options, mixed units of measure and empty limits are refused", () => {
  expect(() => finding([45], { limit: limits })).toThrow(/did you mean "limits"/);
  expect(() => intervalChart([q(1, 1), q(1, 1, "mm")], (value) => value, { label: () => "a" })).toThrow(
    /mixes cN and mm/,
  );
  expect(() => finding([45], { limits: {} })).toThrow(/none of min, max, nominal/);
  expect(() => finding([45], { limits: { min: { value: 1, symbol: "N" } } })).toThrow(/limit is in N/);
  expect(() => intervalChart([{ key: "a" }], () => 3 as never)).toThrow(/needs a quantity or an absence for item 1/);
});

test("what the page says of the values stands in place of the furthest one, and limits and absences are said all the same", () => {
  expect(finding([45, 46, "not recorded"], { limits, says: "The keys differ" })).toBe(
    "The keys differ; all 2 keys lie inside 35 cN to 55 cN by at least their uncertainty; not available: KeyC (not recorded).",
  );
});
