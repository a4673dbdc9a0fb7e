import { expect, test } from "vitest";
import { seededRandom } from "../../src/metrology/random.js";

const first = (seed: number): number => seededRandom(seed).uniform();

test("one seed gives one stream, on every machine", () => {
  const random = seededRandom(1);
  const drawn = [random.uniform(), random.normal(), random.below(100)];
  const again = seededRandom(1);
  expect([again.uniform(), again.normal(), again.below(100)]).toEqual(drawn);
});

test("the first draws of neighbouring seeds are spread evenly and unrelated", () => {
  const draws = Array.from({ length: 2000 }, (_, seed) => first(seed));
  const mean = draws.reduce((total, x) => total + x, 0) / draws.length;
  expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / draws.length));
  let lag = 0;
  for (let i = 1; i < draws.length; i++) lag += (draws[i]! - mean) * (draws[i - 1]! - mean);
  expect(Math.abs(lag / draws.length) * 12).toBeLessThan(4 / Math.sqrt(draws.length));
});

test("normal draws have mean 0 and variance 1", () => {
  const random = seededRandom(7);
  const draws = Array.from({ length: 20_000 }, () => random.normal());
  const mean = draws.reduce((total, x) => total + x, 0) / draws.length;
  const variance = draws.reduce((total, x) => total + (x - mean) ** 2, 0) / draws.length;
  expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(draws.length));
  expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / draws.length));
});

test("a seed that is no whole number is refused", () => {
  for (const seed of [1.5, NaN, Infinity]) expect(() => seededRandom(seed)).toThrow(/must be a whole number/);
});
