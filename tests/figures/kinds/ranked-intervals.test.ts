import { expect, test } from "vitest";
import { drawChart } from "../../../src/figures/draw.js";
import { rankedIntervals } from "../../../src/figures/kinds/ranked-intervals.js";
import type { RankedBracket } from "../../../src/figures/kinds/ranked-intervals.js";
import { none, plain, q } from "./shared.js";

const units = (...values: (number | string)[]) =>
  values.map((value, index) => ({
    unit: `u${index + 1}`,
    force: typeof value === "number" ? q(value, 1, "cN", `u${index}`) : none(value),
  }));
const ranked = (values: (number | string)[], brackets: readonly RankedBracket[] = []) =>
  rankedIntervals(units(...values), (unit) => unit.force, { brackets, of: "Actuation force", noun: "unit" });
const finding = (...given: Parameters<typeof ranked>): string => plain(ranked(...given).finding);

test("units stand in the order of their values, smallest first, ties in the given order", () => {
  const { rows } = ranked([46, 44, 46, 30]).data;
  expect(rows.map(([unit]) => unit)).toEqual(["u4", "u2", "u1", "u3"]);
});

test("the finding tells the span, the brackets and who stands in none", () => {
  expect(finding([46, 30, 44, 45], [{ first: 1, last: 3 }])).toBe(
    "From 30.0 cN (u2) to 46.0 cN (u1); 1 bracket joins units that cannot be told apart; u2 stands in none.",
  );
  expect(finding([30, 40])).toBe("From 30.0 cN (u1) to 40.0 cN (u2); every unit can be told from its neighbours.");
});

test("one unit is quoted, no unit is said, absent ones are counted", () => {
  expect(finding([30, "not measured"])).toBe("u1 is the only unit, with 30.0 cN; 1 unit without a value is not drawn.");
  expect(finding(["not measured"])).toBe("No unit has a value; 1 unit without a value is not drawn.");
  expect(ranked([]).empty).toBe("There are no units to show.");
});

test("the table lists the brackets of each unit, which may be several", () => {
  const brackets = [
    { first: 0, last: 2 },
    { first: 2, last: 3 },
  ];
  expect(ranked([30, 31, 32, 33], brackets).data.rows.map((row) => row.at(-1))).toEqual(["1", "1", "1 2", "2"]);
});

test("overlapping brackets are drawn beside one another, at the rows that they join", () => {
  const brackets = [
    { first: 0, last: 2 },
    { first: 2, last: 3 },
  ];
  const { svg } = drawChart(ranked([30, 31, 32, 33], brackets), "f", { title: "t" });
  const paths = [...svg.matchAll(/d="M([\d.]+),([\d.]+)H([\d.]+)V([\d.]+)H/g)].map((found) =>
    found.slice(1).map(Number),
  );
  expect(paths).toHaveLength(2);
  const [one, other] = paths as [number[], number[]];
  expect(other[2]! - one[2]!).toBeGreaterThan(6);
  expect(one[3]! - one[1]!).toBeGreaterThan(other[3]! - other[1]!);
});

test.each([
  [{ first: 1, last: 1 }, "places 1 to 1"],
  [{ first: -1, last: 1 }, "places -1 to 1"],
  [{ first: 0, last: 2 }, "must join two or more of 0 to 1"],
  [{ first: Number.NaN, last: 1 }, "NaN"],
])("a bracket %o is refused", (bracket, words) => {
  expect(() => ranked([30, 31], [bracket])).toThrow(words);
});
