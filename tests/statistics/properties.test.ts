import fc from "fast-check";
import { expect, test } from "vitest";
import {
  algorithmAKernel,
  autocorrelationKernel,
  blandAltmanKernel,
  changePointKernel,
  concordanceKernel,
  demingKernel,
  driftKernel,
  grubbsKernel,
  hodgesLehmannKernel,
  holmKernel,
  kendallKernel,
  madKernel,
  mannWhitneyKernel,
  meanIntervalKernel,
  meanKernel,
  medianKernel,
  momentsKernel,
  oneWayKernel,
  pairedTKernel,
  predictionIntervalKernel,
  quantileIntervalKernel,
  quantileKernel,
  remlKernel,
  sdIntervalKernel,
  shapiroWilkKernel,
  signedRankKernel,
  spearmanKernel,
  spreadKernel,
  toleranceFactorKernel,
  predictionFactorKernel,
} from "../../src/statistics/index.js";
import type { QuantileType } from "../../src/statistics/index.js";

const runs = { seed: 20261125, numRuns: 60 };

/** Values on a grid of thousandths, so that shifting and scaling by powers of two keeps what is equal equal. */
const values = (least: number, most = 25) =>
  fc
    .array(fc.integer({ min: -20_000, max: 20_000 }), { minLength: least, maxLength: most })
    .filter((list) => new Set(list).size >= 3)
    .map((list) => list.map((v) => v / 1024));
const shift = fc.integer({ min: -50, max: 50 });
const scale = fc.constantFrom(0.25, 0.5, 2, 8);

function near(got: number, want: number): void {
  expect(Math.abs(got - want)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(want)));
}

const locations = {
  mean: meanKernel,
  median: medianKernel,
  "Hodges-Lehmann": hodgesLehmannKernel,
  "Algorithm A": (v: readonly number[]) => algorithmAKernel(v).location,
  "quantile 0.3": (v: readonly number[]) => quantileKernel(v, { p: 0.3 }),
  "lower end of the mean's interval": (v: readonly number[]) => meanIntervalKernel(v).lower,
  "upper end of a prediction": (v: readonly number[]) => predictionIntervalKernel(v).upper,
} as const;

for (const [name, location] of Object.entries(locations)) {
  test(`${name} moves with a shift, grows with a scale and does not see the order`, () => {
    fc.assert(
      fc.property(values(5), shift, scale, (list, by, times) => {
        const own = location(list);
        near(location(list.map((v) => v + by)), own + by);
        near(location(list.map((v) => v * times)), own * times);
        near(location([...list].reverse()), own);
      }),
      runs,
    );
  });
}

const spreads = {
  sd: (v: readonly number[]) => spreadKernel(v).sd,
  "median absolute deviation": (v: readonly number[]) => madKernel(v),
  "upper end of the sd's interval": (v: readonly number[]) => sdIntervalKernel(v).upper,
} as const;

for (const [name, width] of Object.entries(spreads)) {
  test(`${name} ignores a shift, grows with a scale and does not see the order`, () => {
    fc.assert(
      fc.property(values(5), shift, scale, (list, by, times) => {
        const own = width(list);
        near(width(list.map((v) => v + by)), own);
        near(width(list.map((v) => v * times)), own * times);
        near(width([...list].reverse()), own);
      }),
      runs,
    );
  });
}

const pure = {
  skewness: (v: readonly number[]) => momentsKernel(v).skewness,
  "Grubbs' statistic": (v: readonly number[]) => grubbsKernel(v).statistic,
  "Shapiro-Wilk W": (v: readonly number[]) => shapiroWilkKernel(v).statistic,
  autocorrelation: (v: readonly number[]) => autocorrelationKernel(v),
  "place of the change point": (v: readonly number[]) => changePointKernel(v, { draws: 99 }).at,
} as const;

for (const [name, statistic] of Object.entries(pure)) {
  test(`${name} changes neither with a shift nor with a scale`, () => {
    fc.assert(
      fc.property(values(6), shift, scale, (list, by, times) => {
        near(statistic(list.map((v) => v * times + by)), statistic(list));
      }),
      runs,
    );
  });
}

test("a quantile grows with its probability, for every type", () => {
  fc.assert(
    fc.property(values(4), fc.constantFrom<QuantileType>(1, 2, 3, 4, 5, 6, 7, 8, 9), (list, type) => {
      const at = [0, 0.1, 0.2, 0.35, 0.5, 0.66, 0.9, 1].map((p) => quantileKernel(list, { p, type }));
      at.slice(1).forEach((value, i) => expect(value).toBeGreaterThanOrEqual(at[i]! - 1e-12));
      expect(at[7]).toBe(Math.max(...list));
    }),
    runs,
  );
});

test("exchanging the samples turns a difference round and keeps the p-value", () => {
  fc.assert(
    fc.property(values(4, 12), values(4, 12), (a, b) => {
      const one = mannWhitneyKernel(a, b);
      const two = mannWhitneyKernel(b, a);
      near(one.pValue, two.pValue);
      near(one.shift, -two.shift);
      near(one.superiority, 1 - two.superiority);
    }),
    runs,
  );
});

test("exchanging the methods turns a paired difference round and keeps the p-value", () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: -999, max: 999 })), {
        minLength: 6,
        maxLength: 15,
      }),
      (pairs) => {
        const [a, b] = [pairs.map(([x]) => x / 64), pairs.map(([, y]) => y / 64)];
        fc.pre(new Set(a.map((x, i) => x - b[i]!)).size > 2);
        near(pairedTKernel(a, b).pValue, pairedTKernel(b, a).pValue);
        near(signedRankKernel(a, b).pValue, signedRankKernel(b, a).pValue);
        near(blandAltmanKernel(a, b).bias.value, -blandAltmanKernel(b, a).bias.value);
        near(blandAltmanKernel(a, b).lowerLimit.value, -blandAltmanKernel(b, a).upperLimit.value);
      },
    ),
    runs,
  );
});

test("a rank correlation only sees the order of the values", () => {
  fc.assert(
    fc.property(values(6, 14), (list) => {
      const other = list.map((v, i) => v + ((i * 7) % 5));
      fc.pre(new Set(other).size > 2);
      near(kendallKernel(list.map(Math.cbrt), other).value, kendallKernel(list, other).value);
      near(spearmanKernel(list.map(Math.cbrt), other).value, spearmanKernel(list, other).value);
    }),
    runs,
  );
});

test("Deming regression with the methods exchanged has the inverse slope", () => {
  fc.assert(
    fc.property(values(6, 14), (list) => {
      const other = list.map((v, i) => 1.2 * v + ((i * 7) % 5) - 2);
      near(demingKernel(list, other).slope.value * demingKernel(other, list).slope.value, 1);
    }),
    runs,
  );
});

test("concordance never exceeds the correlation", () => {
  fc.assert(
    fc.property(values(6, 14), (list) => {
      const other = list.map((v, i) => v + ((i * 7) % 5));
      const { value, pearson } = concordanceKernel(list, other);
      expect(Math.abs(value)).toBeLessThanOrEqual(Math.abs(pearson) + 1e-12);
    }),
    runs,
  );
});

test("the slope of a drift scales with the values and against the abscissae", () => {
  fc.assert(
    fc.property(values(5, 14), scale, (list, times) => {
      const days = list.map((_, i) => i * i + 1);
      near(
        driftKernel(
          days.map((d) => d * times),
          list,
        ).slope,
        driftKernel(days, list).slope / times,
      );
      near(
        driftKernel(
          days,
          list.map((v) => v * times + 3),
        ).slope,
        driftKernel(days, list).slope * times,
      );
    }),
    runs,
  );
});

test("adjusted p-values are never below the raw ones and keep their order", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }), (p) => {
      const adjusted = holmKernel(p);
      p.forEach((raw, i) => expect(adjusted[i]).toBeGreaterThanOrEqual(raw));
      p.forEach((a, i) => p.forEach((b, j) => a < b && expect(adjusted[i]).toBeLessThanOrEqual(adjusted[j]!)));
    }),
    runs,
  );
});

test("sums of squares add up to the total, for any sizes of the groups", () => {
  fc.assert(
    fc.property(fc.array(values(3, 6), { minLength: 2, maxLength: 5 }), (groups) => {
      const { ssBetween, ssWithin } = oneWayKernel(groups);
      const all = groups.flat();
      near(ssBetween + ssWithin, spreadKernel(all).sd ** 2 * (all.length - 1));
    }),
    runs,
  );
});

test("REML equals the analysis of variance to eight digits on balanced data with no negative estimate", () => {
  fc.assert(
    fc.property(fc.array(values(4, 4), { minLength: 5, maxLength: 8 }), (groups) => {
      const anova = oneWayKernel(groups);
      fc.pre(anova.between.raw > 1e-3 * anova.msWithin);
      const unit = groups.flatMap((group, i) => group.map(() => `u${i}`));
      const [between, residual] = remlKernel(groups.flat(), { unit }, { intervals: false }).components;
      expect(Math.abs(between!.variance! / anova.between.raw - 1)).toBeLessThan(1e-8);
      expect(Math.abs(residual!.variance! / anova.msWithin - 1)).toBeLessThan(1e-8);
    }),
    { ...runs, numRuns: 30 },
  );
});

test("intervals shrink as values are added", () => {
  const widths = [8, 16, 32, 64].map((n) => {
    // Evenly spread normal scores, so that only n differs.
    const list = Array.from({ length: n }, (_, i) => Math.tan(((i + 0.5) / n - 0.5) * 2.2));
    const mean = meanIntervalKernel(list);
    const sd = sdIntervalKernel(list);
    const median = quantileIntervalKernel(list);
    return [
      mean.upper - mean.lower,
      sd.upper / sd.lower,
      median.upper - median.lower,
      toleranceFactorKernel(n),
      predictionFactorKernel(n, { further: 5 }),
    ];
  });
  widths.slice(1).forEach((now, i) => now.forEach((width, k) => expect(width).toBeLessThan(widths[i]![k]!)));
});

test("inputs are left as they are", () => {
  const list = Object.freeze([3, 1, 2, 5, 4, 9, 7]);
  expect(() => {
    medianKernel(list);
    hodgesLehmannKernel(list);
    shapiroWilkKernel(list);
    mannWhitneyKernel(list, list);
    changePointKernel(list, { draws: 99 });
  }).not.toThrow();
  expect(list).toEqual([3, 1, 2, 5, 4, 9, 7]);
});
