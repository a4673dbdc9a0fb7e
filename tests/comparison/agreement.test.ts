import fc from "fast-check";
import { expect, test } from "vitest";
import { agreementOf, demingLine } from "../../src/comparison/index.js";
import { expand } from "../../src/metrology/index.js";
import { tQuantile } from "../../src/statistics/numeric/distributions.js";
import { expectPublished, publishedEntry } from "../reference/load.js";
import { absent, own, present, quantity } from "./support.js";

interface Pair {
  readonly first: ReturnType<typeof quantity>;
  readonly second: ReturnType<typeof quantity>;
}
const pairs = (xs: readonly number[], ys: readonly number[]): readonly Pair[] =>
  xs.map((x, i) => ({ first: quantity(x), second: quantity(ys[i]!) }));
const same = (pair: Pair): Pair => pair;

test("bias and limits with their intervals are those of Bland and Altman 1986", () => {
  const entry = publishedEntry("bland-altman.json", "ba1986-pefr");
  const [wright, mini] = [entry.input["wright1"] as number[], entry.input["mini1"] as number[]];
  const found = agreementOf(pairs(mini, wright), same, { id: "peak flow" });
  const bias = present(found.bias);
  expectPublished(entry, "biasExact", bias.value);
  expectPublished(entry, "sd", present(found.sd).value);
  expectPublished(entry, "seBias", bias.u);
  const { U } = expand(bias);
  expectPublished(entry, "biasCiLower", bias.value - U);
  expectPublished(entry, "biasCiUpper", bias.value + U);
});

test("limits and their intervals are those of Bland and Altman 1999", () => {
  const entry = publishedEntry("bland-altman.json", "ba1999-sbp-first");
  const first = (name: string): readonly number[] => (entry.input[name] as number[][]).map(([reading]) => reading!);
  const found = agreementOf(pairs(first("S"), first("J")), same, { id: "pressure" });
  expectPublished(entry, "biasExact", present(found.bias).value);
  expectPublished(entry, "sdExact", present(found.sd).value);
  const [lower, upper] = found.limits.map(present);
  expectPublished(entry, "lower", lower!.value);
  expectPublished(entry, "upper", upper!.value);
  // The paper takes z for t in the intervals of the limits and 2.92 s²/n for their variance; both round to its digits.
  const ends = (limit: ReturnType<typeof present>): readonly number[] => [
    limit.value - 1.96 * limit.u,
    limit.value + 1.96 * limit.u,
  ];
  expectPublished(entry, "lowerLimitCi", ends(lower!));
  expectPublished(entry, "upperLimitCi", ends(upper!));
});

test("values that lie too close together for a line give an absence", () => {
  const line = demingLine(pairs([0, 0, 0, 4e-308, 5e-308], [0, 1, 2, 3, 4]), same, { id: "x" });
  expect(line.slope.absent && line.slope.reason).toMatch(/line/);
});

test("a source that the differences share widens the bias, one of an item alone does not", () => {
  const rig = { id: "rig/new/span", u: 0.5 };
  const items = [0.9, 1.1, 1.0, 1.2].map((d, i) => ({
    first: quantity(40 + i, [{ id: `old ${i}`, u: 9 }]),
    second: quantity(40 + i + d, [rig]),
  }));
  const bias = present(agreementOf(items, same, { id: "x" }).bias);
  const scatter = Math.sqrt([0.9, 1.1, 1.0, 1.2].reduce((s, d) => s + (d - 1.05) ** 2, 0) / 3 / 4);
  expect(bias.u).toBeCloseTo(Math.hypot(scatter, 0.5), 10);
  const upper = present(agreementOf(items, same, { id: "x" }).limits[1]);
  expect(upper.components.some(({ source }) => source.id === "rig/new/span")).toBe(true);
});

test("too few pairs give absences that say how many are needed, and nulls", () => {
  const none = agreementOf([], same, { id: "x" });
  expect(none.bias.absent && none.bias.reason).toBe("no item has both values, where at least 2 are needed");
  const two = agreementOf(pairs([1, 2], [2, 2.5]), same, { id: "x" });
  expect(two.bias.absent).toBe(false);
  expect(two.limits[0].absent && two.limits[0].reason).toBe("2 pairs, where at least 3 are needed");
  expect([two.concordance, two.passingBablok, two.proportional]).toEqual([null, null, null]);
  expect(two.line.slope.absent).toBe(true);
});

test("an item that lacks a value is left out of all", () => {
  const items = [...pairs([1, 2, 3, 4], [1.1, 2.2, 2.9, 4.1]), { first: quantity(9), second: absent("not retested") }];
  const found = agreementOf(items, (item) => item, { id: "x" });
  expect(found.pairs.count).toBe(4);
});

test("the line is the published Deming regression where both methods are equally uncertain", () => {
  const entry = publishedEntry("method-comparison-regression.json", "deming-ten-points");
  const [xs, ys] = [entry.input["x"] as number[], entry.input["y"] as number[]];
  const line = demingLine(
    xs.map((x, i) => ({ first: own(`x${i}`, x, 0.2), second: own(`y${i}`, ys[i]!, 0.2) })),
    same,
    { id: "x" },
  );
  expectPublished(entry, "slope1", present(line.slope).value);
  expectPublished(entry, "intercept1", present(line.intercept).value);
  const twice = demingLine(
    xs.map((x, i) => ({ first: own(`x${i}`, x, 0.2), second: own(`y${i}`, ys[i]!, 0.2 * Math.SQRT2) })),
    same,
    { id: "x" },
  );
  expect(twice.errorRatio).toBeCloseTo(2, 12);
  expectPublished(entry, "slope2", present(twice.slope).value);
});

test("four pairs have a line and no band, since three left ones have none", () => {
  const four = demingLine(pairs([1, 2, 3, 5], [1.1, 2.2, 2.9, 4.9]), same, { id: "x" });
  expect(present(four.slope).value).toBeCloseTo(0.95, 1);
  expect(four.band).toBeUndefined();
  expect(demingLine(pairs([1, 2, 3, 5, 6], [1.1, 2.2, 2.9, 4.9, 6]), same, { id: "x" }).band).toHaveLength(41);
});

test("at x = 0 the band is the interval of the intercept, by the same jackknife", () => {
  const xs = [-4, -1, 0, 2, 3, 6, 7];
  const ys = [-3.7, -1.2, 0.3, 1.8, 3.4, 5.7, 7.3];
  const line = demingLine(pairs(xs, ys), same, { id: "x" });
  const intercept = present(line.intercept);
  const half = tQuantile(0.975, xs.length - 2) * intercept.u;
  const near = line.band!.map((point) => ({ ...point, from: Math.abs(point.x) })).sort((a, b) => a.from - b.from)[0]!;
  const slope = present(line.slope).value;
  expect((near.low + near.high) / 2).toBeCloseTo(intercept.value + slope * near.x, 10);
  expect((near.high - near.low) / 2).toBeCloseTo(half, 1);
});

test("adding one number to every second value moves the bias by it and leaves the scatter", () => {
  const values = fc.uniqueArray(fc.integer({ min: 0, max: 1000 }), { minLength: 5, maxLength: 12 });
  fc.assert(
    fc.property(values, fc.double({ min: -20, max: 20, noNaN: true }), (xs, by) => {
      const ys = xs.map((x, i) => x + Math.sin(i));
      const plain = agreementOf(pairs(xs, ys), same, { id: "x" });
      const shifted = agreementOf(
        pairs(
          xs,
          ys.map((y) => y + by),
        ),
        same,
        { id: "x" },
      );
      expect(present(shifted.bias).value).toBeCloseTo(present(plain.bias).value + by, 8);
      expect(present(shifted.sd).value).toBeCloseTo(present(plain.sd).value, 8);
    }),
    { seed: 6, numRuns: 100 },
  );
});

test("two units of measure are refused", () => {
  expect(() =>
    agreementOf([1], () => ({ first: quantity(1), second: quantity(1, [], "mm") as never }), { id: "x" }),
  ).toThrow(/convert one of them/);
});
