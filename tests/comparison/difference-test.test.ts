import fc from "fast-check";
import { expect, test } from "vitest";
import { equivalencePValue, testDifference, zeroPValue } from "../../src/comparison/index.js";
import { tCdf } from "../../src/statistics/numeric/distributions.js";
import { expectPublished, publishedEntry } from "../reference/load.js";
import { own, quantity } from "./support.js";

const meanOf = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
const sdOf = (x: readonly number[]): number =>
  Math.sqrt(x.reduce((a, b) => a + (b - meanOf(x)) ** 2, 0) / (x.length - 1));

test("two independent means are tested as Welch's test does, with its degrees of freedom truncated", () => {
  const entry = publishedEntry("nonparametric-and-tests.json", "sleep-t");
  const [x, y] = [entry.input["x"] as number[], entry.input["y"] as number[]];
  const mean = (id: string, data: number[]): ReturnType<typeof own> =>
    own(id, meanOf(data), sdOf(data) / Math.sqrt(data.length), { dof: data.length - 1 });
  const { difference, pValue } = testDifference(mean("x", x), mean("y", y));
  expectPublished(entry, "tWelch", difference.value / difference.u);
  const exact = 2 * tCdf(-Math.abs(difference.value / difference.u), 17);
  expect(pValue).toBe(exact);
  expect(pValue).toBeCloseTo((entry.expected.find(({ name }) => name === "pWelch")!.value as number) ?? 0, 2);
});

test("the two one-sided tests are those of the published example, from its mean, sd and n", () => {
  const entry = publishedEntry("nonparametric-and-tests.json", "tost-one-sample-summary");
  const { mean, sd, n, mu, marginInSd } = entry.input as Record<string, number>;
  const d = own("mean", mean! - mu!, sd! / Math.sqrt(n!), { dof: n! - 1 });
  const margin = quantity(marginInSd! * sd!);
  const values = Object.fromEntries(entry.expected.map(({ name, value }) => [name, value as number]));
  expectPublished(entry, values["pLower"]! > values["pUpper"]! ? "pLower" : "pUpper", equivalencePValue(d, margin));
});

test("what two results share does not make their difference uncertain", () => {
  const rig = { id: "rig/span", u: 5 };
  const { difference, pValue } = testDifference(
    quantity(50, [rig, { id: "a", u: 0.1 }]),
    quantity(49, [rig, { id: "b", u: 0.1 }]),
  );
  expect(difference.u).toBeCloseTo(Math.SQRT2 * 0.1, 12);
  expect(pValue).toBeLessThan(1e-10);
});

test("without any uncertainty equal values are equal and others differ", () => {
  expect(testDifference(quantity(3), quantity(3)).pValue).toBe(1);
  expect(testDifference(quantity(3), quantity(3.1)).pValue).toBe(0);
  expect(equivalencePValue(quantity(1), quantity(2))).toBe(0);
  expect(equivalencePValue(quantity(2), quantity(2))).toBe(1);
});

test("a p-value does not depend on the sign or the unit of measure of a difference", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -50, max: 50, noNaN: true }),
      fc.double({ min: 0.01, max: 9, noNaN: true }),
      (d, u) => {
        const p = zeroPValue(own("d", d, u, { dof: 7 }));
        expect(zeroPValue(own("d", -d, u, { dof: 7 }))).toBe(p);
        expect(zeroPValue(own("d", 1000 * d, 1000 * u, { dof: 7 }))).toBeCloseTo(p, 10);
      },
    ),
    { seed: 1, numRuns: 200 },
  );
});

test("a margin that is not above 0, or in another unit of measure, is refused", () => {
  expect(() => equivalencePValue(own("d", 1, 1), quantity(0))).toThrow(/above 0/);
  expect(() => equivalencePValue(own("d", 1, 1), quantity(-1))).toThrow(/above 0/);
  expect(() => equivalencePValue(own("d", 1, 1), quantity(1, [], "mm"))).toThrow(/convert one of them first/);
});
