import { expect, test } from "vitest";
import fc from "fast-check";
import { cubicTerm, formAt, leverage, localFit, slopeAt, valueAt } from "../../src/keystroke/local-fit.js";
import type { Profile } from "../../src/keystroke/profile.js";
import { expectPublished, publishedEntry } from "../reference/load.js";

const file = "savitzky-golay.json";

function profile(xs: readonly number[], ys: readonly number[]): Profile {
  return { xMm: Float64Array.from(xs), forceCn: Float64Array.from(ys), retreatRows: 0, retreatMm: 0, spacingMm: 0 };
}

type Fit = NonNullable<ReturnType<typeof localFit>>;

/** What a fit over evenly spaced points makes of a unit reading at each of them. */
function weights(points: number, of: (fit: Fit) => number): number[] {
  const places = Array.from({ length: points }, (_, i) => i);
  return places.map((unit) => {
    const series = profile(places, places.map((i) => (i === unit ? 1 : 0))); // prettier-ignore
    return of(localFit(series, (points - 1) / 2, 0, points - 1, 2)!);
  });
}

const derivatives = [
  ["der0", (fit: Fit) => fit.coefficients[0]],
  ["der1", (fit: Fit) => fit.coefficients[1]],
  ["der2", (fit: Fit) => 2 * fit.coefficients[2]],
] as const;

for (const points of [5, 7, 9, 11, 13, 15, 21]) {
  for (const [name, of] of derivatives) {
    const id = `sg-${points}-deg2-${name}`;
    if (points > 9 && name !== "der0") continue;
    test(`evenly spaced points give the published coefficients: ${id}`, () => {
      const entry = publishedEntry(file, id);
      const norm = entry.expected.find((each) => each.name === "norm")!.value as number;
      const got = weights(points, of).map((weight) => Math.round(weight * norm * 1e8) / 1e8 + 0);
      expectPublished(entry, "integers", got);
    });
  }
}

test("the first two points are smoothed by the parabola through the first five", () => {
  const entry = publishedEntry(file, "sg-5-deg2-ends");
  for (const [at, name] of [
    [0, "first"],
    [1, "second"],
  ] as const) {
    const norm = entry.expected.find((each) => each.name === `${name}Norm`)!.value as number;
    const got = weights(5, (fit) => valueAt(fit, at) * norm).map((weight) => Math.round(weight * 1e8) / 1e8 + 0);
    expectPublished(entry, name, got);
  }
});

test("a filtered series and its first derivative are the published ones, ends included", () => {
  const entry = publishedEntry(file, "sg-filter-example");
  const data = entry.input["data"] as number[];
  const series = profile(data.map((_, i) => i), data); // prettier-ignore
  const fits = data.map((_, i) => {
    const from = Math.min(Math.max(0, i - 2), data.length - 5);
    return localFit(series, from + 2, from, from + 4, 2)!;
  });
  expectPublished(entry, "smoothed", fits.map((fit, i) => valueAt(fit, i))); // prettier-ignore
  expectPublished(entry, "firstDerivative", fits.map((fit, i) => slopeAt(fit, i))); // prettier-ignore
});

const unevenPositions = fc.uniqueArray(fc.integer({ min: 0, max: 100 }), { minLength: 6, maxLength: 30 });

test("a parabola over uneven and repeated positions is returned exactly, with nothing for a cubic to add", () => {
  fc.assert(
    fc.property(unevenPositions, fc.integer({ min: -50, max: 50 }), (places, tenths) => {
      const of = (x: number): number => 40 + 3 * x + (tenths / 10) * x * x;
      const xs = [...places, places[2]!].map((place) => place / 100).sort((a, b) => a - b);
      const series = profile(xs, xs.map(of)); // prettier-ignore
      const fit = localFit(series, 0.5, 0, 1, 2)!;
      expect(valueAt(fit, 0.4)).toBeCloseTo(of(0.4), 6);
      expect(slopeAt(fit, 0.4)).toBeCloseTo(3 + (0.8 * tenths) / 10, 5);
      expect(Math.abs(cubicTerm(series, fit, 0.5).slopeExcess)).toBeLessThan(1e-5);
    }),
    { seed: 3, numRuns: 200 },
  );
});

test("the slope that a parabola shows beyond a cubic is that of the cubic's own", () => {
  const xs = Array.from({ length: 13 }, (_, i) => (i - 6) / 100);
  const series = profile(xs, xs.map((x) => 40 - 300 * x * x + 2000 * x ** 3)); // prettier-ignore
  const fit = localFit(series, 0, -0.06, 0.06, 2)!;
  expect(fit.coefficients[1] - cubicTerm(series, fit, 0).slopeExcess).toBeCloseTo(0, 9);
});

test("the mean of n readings has the leverage 1/n", () => {
  const fit = localFit(profile([0, 1, 2, 3], [1, 2, 1, 2]), 1.5, 0, 3, 0)!;
  expect(leverage(fit, formAt(fit, 1.5))).toBeCloseTo(0.25, 12);
});

test("too few different positions for the degree give no fit", () => {
  expect(localFit(profile([1, 1, 1], [1, 2, 3]), 1, 0, 2, 1)).toBeNull();
  expect(localFit(profile([1, 2], [1, 2]), 1, 0, 3, 2)).toBeNull();
  expect(localFit(profile([], []), 1, 0, 3, 0)).toBeNull();
  expect(localFit(profile([1, 1, 1], [1, 2, 3]), 1, 0, 2, 0)!.coefficients[0]).toBe(2);
});
