import fc from "fast-check";
import { expect, test } from "vitest";
import { adjustClaims } from "../../src/comparison/index.js";
import { holmKernel } from "../../src/statistics/index.js";
import { seededRandom } from "../../src/statistics/numeric/random.js";

const adjusted = (...asked: readonly (readonly [p: number, share: number])[]): readonly number[] =>
  adjustClaims(asked.map(([p, share]) => ({ p, share }))).map((each) => each.adjusted);

test("equal shares of any size give Holm's method", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 }),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      (pValues, share) => {
        const found = adjusted(...pValues.map((p) => [p, share] as const));
        holmKernel(pValues).forEach((p, index) => expect(found[index]).toBeCloseTo(p, 12));
      },
    ),
    { seed: 1 },
  );
});

test("a question with half of the level needs p at most half of it, whatever the others say", () => {
  expect(adjusted([0.025, 50], [0.5, 30], [0.5, 20])[0]).toBeCloseTo(0.05, 12);
  expect(adjusted([0.5, 50], [0.011, 20], [0.5, 30])[1]).toBeCloseTo(0.055, 12);
});

test("the share of a question that is answered goes to those that are left", () => {
  const [first, second] = adjusted([0.001, 60], [0.04, 40]);
  expect(first).toBeCloseTo(0.001 / 0.6, 12);
  expect(second).toBeCloseTo(0.04, 12);
});

test("with nothing there, at most 5 % of reports claim anything, and what is claimed follows the shares", () => {
  const random = seededRandom(7);
  const shares = [45, 35, 10, 10];
  const reports = 20_000;
  const counts = [0, 0, 0, 0];
  let any = 0;
  for (let report = 0; report < reports; report++) {
    const said = adjustClaims(shares.map((share) => ({ p: random.uniform(), share })));
    said.forEach((each, index) => (counts[index]! += each.adjusted <= 0.05 ? 1 : 0));
    any += said.some((each) => each.adjusted <= 0.05) ? 1 : 0;
  }
  expect(any / reports).toBeGreaterThan(0.044);
  expect(any / reports).toBeLessThan(0.054);
  shares.forEach((share, index) => expect(counts[index]! / reports / (0.0005 * share)).toBeCloseTo(1, 0));
});

test("the order of the questions is kept, and what belongs to them with it", () => {
  const found = adjustClaims([
    { p: 0.9, share: 1, about: "a" },
    { p: 0.01, share: 3, about: "b" },
  ]);
  expect(found.map(({ about }) => about)).toEqual(["a", "b"]);
  expect(adjustClaims([])).toEqual([]);
});

test("a p-value out of range and a share of nothing are refused", () => {
  expect(() => adjusted([1.2, 1])).toThrow("p-value 1 is 1.2");
  expect(() => adjusted([0.1, 1], [NaN, 1])).toThrow("p-value 2 is NaN");
  expect(() => adjusted([0.1, 0])).toThrow("the share of question 1 is 0");
});
