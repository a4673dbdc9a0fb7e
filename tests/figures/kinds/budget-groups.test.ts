import { expect, test } from "vitest";
import { budgetGroups } from "../../../src/figures/kinds/budget-groups.js";
import { evidenceStep } from "../../../src/metrology/evidence.js";
import { Quantity, type Measured } from "../../../src/metrology/quantity.js";
import { normalSource } from "../../../src/metrology/source.js";
import { none, plain } from "./shared.js";

const ms = (...parts: readonly (readonly [label: string, u: number])[]): Quantity<"ms"> =>
  new Quantity(
    6,
    "ms",
    parts.map(([label, u]) => ({ source: normalSource(`${label}/${u}`, label, u, "ms"), contribution: u })),
    evidenceStep("test", []),
  );
const chartOf = (values: Readonly<Record<string, Measured>>, options = {}) =>
  budgetGroups(
    Object.entries(values).map(([connection, latency]) => ({ connection, latency })),
    (each) => each.latency,
    options,
  );

test("the largest line of every budget is said once where it is the same, with the span of its share", () => {
  const chart = chartOf({ usb: ms(["Zero offset", 4], ["Scatter", 3]), radio: ms(["Zero offset", 4], ["Scatter", 2]) });
  expect(plain(chart.finding)).toBe("“Zero offset” is the largest line of every budget, 64 % to 80 % of u².");
});

test("budgets that differ are said one by one", () => {
  const chart = chartOf({ usb: ms(["Zero offset", 4], ["Scatter", 3]), radio: ms(["Zero offset", 3], ["Scatter", 4]) });
  expect(plain(chart.finding)).toBe(
    "The largest line of usb is “Zero offset”, 64 % of u²; the largest line of radio is “Scatter”, 64 % of u².",
  );
});

test("the table holds every line of every item, whatever is drawn as one", () => {
  const many = ms(...["a", "b", "c", "d", "e", "f", "g"].map((label, index) => [label, index + 1] as const));
  const { rows } = chartOf({ usb: many }, { most: 2 }).data;
  expect(rows.map((row) => row[1])).toEqual(["g", "f", "e", "d", "c", "b", "a"]);
  expect(rows.reduce((sum, row) => sum + Number(row[4]), 0)).toBeCloseTo(1, 12);
});

test("an item without value or uncertainty is counted, none at all gives words", () => {
  expect(plain(chartOf({ usb: ms(["Scatter", 1]), radio: none("no press", "ms") }).finding)).toBe(
    "“Scatter” is the largest line of the budget, 100 % of u²; 1 connection without a budget.",
  );
  expect(chartOf({ radio: none("no press", "ms") }).empty).toBe("Not available: radio (no press).");
  expect(chartOf({ usb: ms() }).empty).toBe("No connection states an uncertainty.");
  expect(budgetGroups([], () => none("x"), { noun: "connection" }).empty).toBe("There are no connections to show.");
});

test.each([0, 21, 1.5, Number.NaN])("%f lines an item are refused", (most) => {
  expect(() => chartOf({ usb: ms(["a", 1]) }, { most })).toThrow("must be 1 to 20");
});
