import { expect, test } from "vitest";
import { Random, randomFor } from "../../tools/simulation/random.js";

const draws = (n: number, draw: () => number): number[] => Array.from({ length: n }, draw);
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const sd = (values: readonly number[]): number => {
  const centre = mean(values);
  return Math.sqrt(mean(values.map((v) => (v - centre) ** 2)));
};

test("one seed and one path give one stream, whatever else was drawn", () => {
  const alone = draws(
    5,
    (
      (r) => () =>
        r.uniform()
    )(randomFor(1, "unit", "u07")),
  );
  randomFor(1, "unit", "u06").normal();
  const again = draws(
    5,
    (
      (r) => () =>
        r.uniform()
    )(randomFor(1, "unit", "u07")),
  );
  expect(again).toEqual(alone);
  expect(randomFor(1, "unit", "u08").uniform()).not.toBe(alone[0]);
  expect(randomFor(2, "unit", "u07").uniform()).not.toBe(alone[0]);
  expect(randomFor(1, "a", "bc").uniform()).not.toBe(randomFor(1, "ab", "c").uniform());
});

test("each distribution has its stated mean and standard deviation", () => {
  const random = new Random(7);
  const n = 40_000;
  const near = (values: readonly number[], centre: number, spread: number): void => {
    expect(Math.abs(mean(values) - centre)).toBeLessThan((4 * spread) / Math.sqrt(n));
    expect(Math.abs(sd(values) / spread - 1)).toBeLessThan(0.02);
  };
  near(
    draws(n, () => random.normal(3, 0.5)),
    3,
    0.5,
  );
  near(
    draws(n, () => random.rectangular(2)),
    0,
    2,
  );
  near(
    draws(n, () => random.exponential(1.5)),
    1.5,
    1.5,
  );
  near(
    draws(n, () => random.between(1, 4)),
    2.5,
    3 / Math.sqrt(12),
  );
});

test("first numbers of neighbouring seeds are not alike", () => {
  const firsts = Array.from({ length: 4000 }, (_, i) => randomFor(i, "x").normal());
  const lag = mean(firsts.slice(1).map((v, i) => v * firsts[i]!));
  expect(Math.abs(lag)).toBeLessThan(0.07);
  expect(Math.abs(mean(firsts))).toBeLessThan(0.07);
});

test("a seed that is no whole number is refused", () => {
  expect(() => new Random(0.5)).toThrow(RangeError);
  expect(() => new Random(NaN)).toThrow(RangeError);
});
