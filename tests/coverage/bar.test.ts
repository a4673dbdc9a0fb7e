import { expect, test } from "vitest";
import { missesOf } from "../../tools/coverage/bar.js";
import type { Tally } from "../../tools/coverage/tally.js";
import { addTallies, emptyTally, tallyOf } from "../../tools/coverage/tally.js";
import { replaceBetween } from "../../tools/coverage/write-page.js";

const line = (all: Partial<Tally>) =>
  ({ name: { characteristic: "preTravel", target: "key" }, all: { ...emptyTally, ...all }, byShape: {} }) as const;

test("an interval covers the truth at its ends, and counts on which side it misses", () => {
  const interval = { value: 2, low: 1, high: 3, boundedShare: 0.25, monteCarloHalfWidth: 0.5 };
  expect(tallyOf(interval, 3)).toMatchObject({ results: 1, covered: 1, below: 0, above: 0, errors: -1 });
  expect(tallyOf(interval, 0.9)).toMatchObject({ results: 1, covered: 0, below: 1, drawnHalfWidths: 1 });
  expect(tallyOf(interval, 3.1)).toMatchObject({ covered: 0, above: 1 });
  expect(tallyOf(null, 1)).toMatchObject({ results: 0, absent: 1, given: 0 });
  expect(tallyOf(interval, null)).toMatchObject({ results: 0, absent: 0, given: 1 });
  expect(tallyOf(null, null)).toMatchObject({ rightlyAbsent: 1, absent: 0 });
  expect(() => tallyOf({ ...interval, low: NaN }, 2)).toThrow(RangeError);
});

test("tallies add field by field", () => {
  const one = tallyOf({ value: 2, low: 1, high: 3, boundedShare: 1, monteCarloHalfWidth: null }, 2);
  expect(addTallies(one, one)).toMatchObject({ results: 2, covered: 2, halfWidths: 2, boundedShares: 2 });
});

test("a line passes between 93 and 97.5 percent, ends included", () => {
  expect(missesOf(line({ results: 1000, covered: 930 }))).toEqual([]);
  expect(missesOf(line({ results: 1000, covered: 975 }))).toEqual([]);
  expect(missesOf(line({ results: 1000, covered: 929 }))).toEqual(["covered below 93.0 %"]);
  expect(missesOf(line({ results: 1000, covered: 976 }))).toEqual(["covered above 97.5 %"]);
  expect(missesOf(line({}))).toEqual(["no result"]);
});

test("more than 97.5 percent is allowed only where bounded sources rule and U is no wider than their draws", () => {
  const wide = { results: 1000, covered: 999, boundedShares: 600, drawn: 10, drawnHalfWidths: 12, monteCarloHalfWidths: 10 }; // prettier-ignore
  expect(missesOf(line(wide))).toEqual([]);
  expect(missesOf(line({ ...wide, boundedShares: 400 }))).toEqual(["covered above 97.5 %"]);
  expect(missesOf(line({ ...wide, drawnHalfWidths: 13 }))).toEqual(["covered above 97.5 %"]);
});

test("more than 2 percent absent without cause, or given without cause, miss the bar", () => {
  const fine = { results: 980, covered: 931, absent: 20, given: 2, rightlyAbsent: 98 };
  expect(missesOf(line(fine))).toEqual([]);
  expect(missesOf(line({ ...fine, absent: 21 }))).toEqual(["absent above 2.0 %"]);
  expect(missesOf(line({ ...fine, given: 3 }))).toEqual(["wrongly given above 2.0 %"]);
});

test("only what stands between two marks of a page is replaced", () => {
  const page = "a\n<!-- x:begin -->old<!-- x:end -->\nb";
  expect(replaceBetween(page, "x", "new")).toBe("a\n<!-- x:begin -->\n\nnew\n\n<!-- x:end -->\nb");
  expect(() => replaceBetween(page, "y", "new")).toThrow(RangeError);
});
