import { expect, test } from "vitest";
import { heightAt, sayRangeAt, commonMiddle } from "../../../src/figures/kit/curves.js";
import { parseDate, sayDate } from "../../../src/figures/kit/dates.js";
import { extentOf, heightSpanOf, spanOf } from "../../../src/figures/kit/domain.js";
import { labelOf, nounOf, reasonWords } from "../../../src/figures/kit/entries.js";
import { keyboardLayout } from "../../../src/figures/kit/keyboard-layout.js";
import { sayThinned, thin } from "../../../src/figures/kit/thin.js";
import * as words from "../../../src/figures/kit/words.js";
import { measured } from "../../../tools/figure-sheet/sample-keys.js";
import { q } from "../kinds/shared.js";

test("words are joined with commas and one and, and a long list is counted", () => {
  expect(words.joinWords([])).toBe("");
  expect(words.joinWords(["a"])).toBe("a");
  expect(words.joinWords(["a", "b"])).toBe("a and b");
  expect(words.joinWords(["a", "b", "c", "d"])).toBe("a, b, c and d");
  expect(words.joinWords(["a", "b", "c", "d", "e", "f"])).toBe("a, b, c and 3 more");
});

test("counts agree with their nouns", () => {
  expect([0, 1, 2].map((count) => words.counted(count, "key"))).toEqual(["no keys", "1 key", "2 keys"]);
  expect(["press", "study", "key", "batch"].map(words.pluralOf)).toEqual(["presses", "studies", "keys", "batches"]);
});

test("numbers computed from quantities are said to the place of the coarsest uncertainty", () => {
  expect(words.commonPlaces([measured(45, "cN", 0.5, "a"), measured(45, "cN", 0.05, "b")])).toBe(1);
  expect(words.commonPlaces([measured(123.456, "cN", 0, "a")])).toBe(0);
  expect(words.commonPlaces([])).toBe(0);
  expect(words.sayNumber(-1.25, "cN", 1)).toBe("\u22121.2\u00a0cN");
  expect(words.sayNumber(3, "1", 0)).toBe("3");
});

test("a value without its uncertainty beside it is rounded by the rule of 354 and 949", () => {
  const say = (U: number): string => words.roughValue(q(45.2468, U));
  expect([0.354, 0.355, 0.949, 0.95, 1.0, 0.0077].map(say)).toEqual([
    "45.25",
    "45.2",
    "45.2",
    "45.2",
    "45.2",
    "45.247",
  ]);
  expect(words.roughValue(q(45, 0))).toBe("45");
});

test("shares are percentages without decimals, and a small one does not vanish", () => {
  expect([0, 0.001, 0.005, 0.614, 1].map(words.sayShare)).toEqual([
    "0\u00a0%",
    "under 1\u00a0%",
    "0\u00a0%",
    "61\u00a0%",
    "100\u00a0%",
  ]);
});

test("an item is named by its usual properties, in a fixed order, or by the accessor", () => {
  expect(labelOf({ key: "KeyA", unit: "u1" }, 0, {}, "chart")).toBe("KeyA");
  expect(labelOf({ unit: "u1", connection: "usb" }, 0, {}, "chart")).toBe("u1");
  expect(labelOf({ unit: "u1" }, 0, { label: (item) => `unit ${item.unit}` }, "chart")).toBe("unit u1");
  expect(() => labelOf({ value: 3 }, 4, {}, "chart")).toThrow(/cannot name item 5.*label: \(item\)/);
  expect([nounOf([{ key: "a" }], {}), nounOf([{ x: 1 }], {}), nounOf([], {}), nounOf([], { noun: "rig" })]).toEqual([
    "key",
    "item",
    "item",
    "rig",
  ]);
});

test("absent items are listed by reason, each reason once", () => {
  const missing = ["a", "b", "c", "d"].map((label, index) => ({
    label,
    reason: ["no peak", "no peak", "excluded", "lost"][index]!,
  }));
  expect(reasonWords(missing)).toBe("a and b (no peak), c (excluded) and 1 more");
  expect(reasonWords([])).toBe("");
});

test("dates are ISO, and a time without its offset is refused", () => {
  expect(parseDate("2026-03-09", "chart")).toBe(Date.UTC(2026, 2, 9));
  expect(parseDate("2026-03-09T08:30:00+01:00", "chart")).toBe(Date.UTC(2026, 2, 9, 7, 30));
  for (const text of ["2026-03-09T08:30:00", "9.3.2026", "2026-13-01", ""])
    expect(() => parseDate(text, "chart")).toThrow(/needs an ISO date/);
  expect(sayDate(Date.UTC(2026, 2, 9, 23, 59))).toBe("2026-03-09");
});

test("the span of an axis holds every value, is round, and starts at zero where asked", () => {
  expect(spanOf([41.2, 54.8])).toEqual([40, 60]);
  expect(spanOf([3, 9.2], { zero: true })).toEqual([0, 10]);
  const [low, high] = spanOf([5, 5]);
  expect(low).toBeLessThan(5);
  expect(high).toBeGreaterThan(5);
  expect(spanOf([0])).toEqual([-1, 1]);
  expect(heightSpanOf([-0.3, 57])).toEqual([-0.3, 60]);
  expect(heightSpanOf([0, 190], 80)).toEqual([0, 80]);
  expect(heightSpanOf([0, 57], 80)).toEqual([0, 60]);
  expect(() => heightSpanOf([0, 57], 0)).toThrow(/cut off at 0/);
  expect(extentOf([1.234, 3.49])).toEqual([1.234, 3.49]);
  expect(() => spanOf([])).toThrow(/at least one finite value/);
  expect(() => spanOf([NaN])).toThrow(/at least one finite value/);
});

test("a curve is read by interpolation on its first crossing, and not beyond its ends", () => {
  const curve = [
    [0, 0],
    [2, 10],
    [1, 30],
  ] as const;
  expect(heightAt(curve, 1)).toBe(5);
  expect(heightAt(curve, 2)).toBe(10);
  expect(heightAt(curve, 2.1)).toBeUndefined();
  expect(heightAt([], 1)).toBeUndefined();
  expect(
    commonMiddle([
      {
        label: "a",
        points: [
          [0, 1],
          [2, 1],
        ],
      },
      {
        label: "b",
        points: [
          [3, 1],
          [4, 1],
        ],
      },
    ]),
  ).toBeUndefined();
});

test("the range of curves at one place names its ends, and the curves that do not reach it", () => {
  const at = { x: 1, xSymbol: "mm", ySymbol: "cN", noun: "key" };
  const curve = (label: string, y: number, to = 2) => ({
    label,
    points: [
      [0, y],
      [to, y],
    ] as const,
  });
  expect(sayRangeAt([curve("a", 3), curve("b", 5), curve("c", 9, 0.5)], at)).toBe(
    "at 1\u00a0mm the 2 keys lie between 3.0\u00a0cN (a) and 5.0\u00a0cN (b); c does not reach it",
  );
  expect(sayRangeAt([curve("a", 3), curve("b", 3.01)], at)).toBe("at 1\u00a0mm the 2 keys lie at 3.0\u00a0cN");
  expect(sayRangeAt([curve("a", 3)], at)).toBe("at 1\u00a0mm a lies at 3.0\u00a0cN");
  expect(sayRangeAt([], at)).toBe("at 1\u00a0mm there is no curve to read");
});

test("a list is thinned by the smallest stride that fits, keeps its ends, and says so", () => {
  const numbers = Array.from({ length: 101 }, (_, index) => index);
  const thinned = thin(numbers, 30);
  expect(thinned.every).toBe(4);
  expect([thinned.points[0], thinned.points.at(-1)]).toEqual([0, 100]);
  expect(thinned.points.length).toBeLessThanOrEqual(31);
  expect(thin([1, 2, 3], 10)).toEqual({ points: [1, 2, 3], every: 1 });
  expect(sayThinned([1, 1])).toBeUndefined();
  expect(sayThinned([4, 4])).toMatch(/every 4th stored point/);
  expect(sayThinned([2, 13])).toMatch(/every 2nd to 13th stored point/);
  expect(() => thin([1], 1)).toThrow(RangeError);
});

test("the drawn keyboard has the places of the common layout in key pitches", () => {
  const ansi = new Map(keyboardLayout("ansi").map((key) => [key.code, key]));
  // Row offsets against the row of digits: the left edges of Q, A and Z lie 0.5, 0.75 and 1.25 u from that of the 1.
  const from = (code: string): number => ansi.get(code)!.x - ansi.get("Digit1")!.x;
  expect([from("KeyQ"), from("KeyA"), from("KeyZ")]).toEqual([0.5, 0.75, 1.25]);
  expect([...ansi.keys()].filter((code) => code.startsWith("Key"))).toHaveLength(26);
  expect(ansi.size).toBe(48);
  const iso = new Map(keyboardLayout("iso").map((key) => [key.code, key]));
  expect(iso.get("IntlBackslash")!.x).toBe(iso.get("KeyZ")!.x - 1);
  expect(iso.size).toBe(49);
  for (const layout of [ansi, iso]) {
    const keys = [...layout.values()];
    for (const a of keys)
      for (const b of keys)
        if (a !== b && a.row === b.row) expect(a.x + a.width <= b.x || b.x + b.width <= a.x).toBe(true);
  }
});
