import fc from "fast-check";
import { expect, test } from "vitest";
import * as s from "../../src/statistics/index.js";
import { Undetermined } from "../../src/statistics/index.js";

/** Kernels on one array, with options that they need. */
const single: Readonly<Record<string, (values: readonly number[]) => unknown>> = {
  mean: (v) => s.meanKernel(v),
  spread: (v) => s.spreadKernel(v),
  median: (v) => s.medianKernel(v),
  quantile: (v) => s.quantileKernel(v, { p: 0.5 }),
  mad: (v) => s.madKernel(v),
  hodgesLehmann: (v) => s.hodgesLehmannKernel(v),
  algorithmA: (v) => s.algorithmAKernel(v),
  moments: (v) => s.momentsKernel(v),
  autocorrelation: (v) => s.autocorrelationKernel(v),
  harrellDavis: (v) => s.harrellDavisKernel(v, { p: 0.5 }),
  shapiroWilk: (v) => s.shapiroWilkKernel(v),
  andersonDarling: (v) => s.andersonDarlingKernel(v),
  meanInterval: (v) => s.meanIntervalKernel(v),
  sdInterval: (v) => s.sdIntervalKernel(v),
  quantileInterval: (v) => s.quantileIntervalKernel(v),
  toleranceInterval: (v) => s.toleranceIntervalKernel(v),
  heldShare: (v) => s.heldShareKernel(v),
  predictionInterval: (v) => s.predictionIntervalKernel(v),
  bootstrapInterval: (v) => s.bootstrapIntervalKernel(v, { statistic: (x) => Math.max(...x), draws: 100 }),
  grubbs: (v) => s.grubbsKernel(v),
  grubbsPair: (v) => s.grubbsPairKernel(v, { draws: 1000 }),
  dixon: (v) => s.dixonKernel(v),
  generalisedEsd: (v) => s.generalisedEsdKernel(v),
  hampel: (v) => s.hampelKernel(v),
  tukeyFences: (v) => s.tukeyFencesKernel(v),
  individuals: (v) => s.individualsKernel(v),
  ewma: (v) => s.ewmaKernel(v, { target: 0, sigma: 1 }),
  cusum: (v) => s.cusumKernel(v, { target: 0, sigma: 1 }),
  runRules: (v) => s.runRulesKernel(v, { centre: 0, sigma: 1, draws: 100 }),
  changePoint: (v) => s.changePointKernel(v, { draws: 99 }),
  runsTest: (v) => s.runsTestKernel(v),
  ecdf: (v) => s.ecdfKernel(v),
  histogram: (v) => s.histogramKernel(v),
  kernelDensity: (v) => s.kernelDensityKernel(v),
  pollingMixture: (v) => s.pollingMixtureKernel(v, { period: 8 }),
  oneWay: (v) => s.oneWayKernel([v, v]),
  mandel: (v) => s.mandelKernel([v, v, v]),
  reml: (v) => s.remlKernel(v, { unit: v.map((_, i) => `${i % 3}`) }),
};

const paired: Readonly<Record<string, (x: readonly number[], y: readonly number[]) => unknown>> = {
  blandAltman: (x, y) => s.blandAltmanKernel(x, y),
  deming: (x, y) => s.demingKernel(x, y),
  passingBablok: (x, y) => s.passingBablokKernel(x, y),
  concordance: (x, y) => s.concordanceKernel(x, y),
  kendall: (x, y) => s.kendallKernel(x, y),
  spearman: (x, y) => s.spearmanKernel(x, y),
  pairedT: (x, y) => s.pairedTKernel(x, y),
  equivalence: (x, y) => s.equivalenceKernel(x, y, { margin: 1 }),
  signedRank: (x, y) => s.signedRankKernel(x, y),
  drift: (x, y) => s.driftKernel(x, y),
};

for (const [name, kernel] of Object.entries(single)) {
  test(`${name} refuses NaN and infinity with their position, and no values with what is needed`, () => {
    expect(() => kernel([1, 2, NaN, 4, 5, 6, 7, 8, 9, 10])).toThrow(/value 3 of 10 is NaN/);
    expect(() => kernel([1, Infinity, 3, 4, 5, 6, 7, 8, 9, 10])).toThrow(/value 2 of 10 is Infinity/);
    expect(() => kernel([])).toThrow(Undetermined);
    expect(() => kernel([])).toThrow(/at least/);
  });
}

for (const [name, kernel] of Object.entries(paired)) {
  test(`${name} refuses NaN, lengths that differ and no pairs`, () => {
    expect(() => kernel([1, 2, 3, 4, 5], [1, 2, NaN, 4, 5])).toThrow(/NaN/);
    expect(() => kernel([1, 2, 3, 4, 5], [1, 2, 3, 4])).toThrow(/pairs, got 5 values and 4 values/);
    expect(() => kernel([], [])).toThrow(Undetermined);
  });
}

const equal = new Array<number>(12).fill(5);

test("equal values have a defined answer or an error that says that nothing varies", () => {
  expect(s.spreadKernel(equal).sd).toBe(0);
  expect(s.meanIntervalKernel(equal)).toMatchObject({ lower: 5, upper: 5 });
  expect(s.grubbsKernel(equal)).toMatchObject({ statistic: 0, isOutlier: false, pValue: 1 });
  expect(s.dixonKernel(equal)).toMatchObject({ statistic: 0, isOutlier: false, pValue: 1 });
  expect(s.generalisedEsdKernel(equal)).toMatchObject({ outliers: [], pValue: 1 });
  expect(s.grubbsPairKernel(equal, { draws: 1000 })).toMatchObject({ statistic: 1, areOutliers: false });
  expect(s.hampelKernel(equal).outside).toEqual([]);
  expect(s.tukeyFencesKernel(equal).outside).toEqual([]);
  expect(s.oneWayKernel([equal, equal])).toMatchObject({ F: null, pValue: null, rSquared: null });
  expect(s.algorithmAKernel(equal)).toMatchObject({ location: 5, scale: 0 });
  expect(s.mannWhitneyKernel(equal, equal)).toMatchObject({ pValue: 1, shift: 0, superiority: 0.5 });
  expect(s.kolmogorovSmirnovKernel(equal, equal)).toMatchObject({ statistic: 0, pValue: 1 });
  const without: readonly (() => unknown)[] = [
    () => s.momentsKernel(equal),
    () => s.shapiroWilkKernel(equal),
    () => s.autocorrelationKernel(equal),
    () => s.pairedTKernel(equal, equal),
    () => s.signedRankKernel(equal, equal),
    () => s.concordanceKernel(equal, equal),
    () => s.kendallKernel(equal, equal),
    () => s.driftKernel(equal, equal),
    () => s.changePointKernel(equal),
    () => s.histogramKernel(equal),
    () => s.kernelDensityKernel(equal),
    () => s.remlKernel(equal, { unit: equal.map((_, i) => `${i % 3}`) }),
    () => s.cochranKernel([0, 0, 0], { replicates: 3 }),
    () => s.demingKernel(equal, equal),
    () => s.passingBablokKernel(equal, equal),
  ];
  for (const call of without) expect(call).toThrow(Undetermined);
});

test("Deming regression of values that are equal but for rounding is undetermined, and never gives NaN", () => {
  const ys = [1, 2, 3, 4, 5.5];
  const ulp = Number.EPSILON * 4;
  const nearly = [5, 5, 5 + ulp, 5, 5 + 2 * ulp];
  expect(() => s.demingKernel(nearly, ys)).toThrow("the two methods do not vary together");
  expect(() => s.demingKernel(ys, nearly)).toThrow("the two methods do not vary together");
  expect(() => s.demingKernel([5, 5, 5, 5, 6], ys)).toThrow(Undetermined);
  expect(() => s.demingKernel([0, 0, 0, 1e-320, 3e-320], ys)).toThrow(Undetermined);
  expect(s.demingKernel([5, 5 + 1e-9, 5 + 2e-9, 5 + 3e-9, 5 + 4.5e-9], ys).slope.value).toBeCloseTo(1e9, -4);
  const value = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constantFrom(5, 5 + ulp, 1e-300));
  fc.assert(
    fc.property(fc.array(fc.tuple(value, value), { minLength: 4, maxLength: 7 }), (pairs) => {
      try {
        const { slope, intercept } = s.demingKernel(
          pairs.map(([x]) => x),
          pairs.map(([, y]) => y),
        );
        for (const part of [slope, intercept])
          expect([part.value, part.standardError, part.lower, part.upper].every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(Undetermined);
      }
    }),
    { seed: 1, numRuns: 500 },
  );
});

test("a misspelt option is refused with the nearest valid name", () => {
  expect(() => s.meanIntervalKernel([1, 2], { levl: 0.9 } as object)).toThrow(
    "meanInterval has no option levl (it takes level); did you mean level?",
  );
  expect(() => s.meanKernel([1, 2], { trim: 0.1 } as object)).toThrow("mean has no option trim (it takes none)");
  expect(() => s.grubbsKernel([1, 2, 3], { side: "larges" as "largest" })).toThrow("nearest is largest");
});

test("a level, probability or size out of range is refused with its value", () => {
  expect(() => s.meanIntervalKernel([1, 2], { level: 95 })).toThrow("level is 95; it must be between 0 and 1");
  expect(() => s.quantileKernel([1, 2], { p: 1.2 })).toThrow("the option p of quantile is 1.2");
  expect(() => s.toleranceFactorKernel(1)).toThrow("the sample size is 1");
  expect(() => s.equivalenceKernel([1, 2, 3], [2, 3, 5])).toThrow("margin is NaN");
  expect(() => s.holmKernel([0.2, 1.2])).toThrow("p-value 2 is 1.2");
});

test("a median's interval at 95 % needs six values and says so", () => {
  expect(() => s.quantileIntervalKernel([1, 2, 3, 4, 5])).toThrow("needs at least 6 values, got 5");
  expect(s.quantileIntervalKernel([1, 2, 3, 4, 5, 6])).toMatchObject({ lower: 1, upper: 6 });
});

test("ties and zeros of decimal readings are seen through their rounding", () => {
  // 45.1 - 44.8 and 44.3 - 44 differ in the last place; 0.1 + 0.2 - 0.3 is not 0.
  const tied = s.signedRankKernel([44.8, 44, 45], [45.1, 44.3, 44]);
  expect(tied.statistic).toBe(3);
  expect(s.signedRankKernel([0.3, 1], [0.1 + 0.2, 2]).n).toBe(1);
});

test("a tied pair counts half", () => {
  expect(s.mannWhitneyKernel([1, 2], [2, 3]).statistic).toBe(3.5);
  expect(s.kendallKernel([1, 2, 2, 3], [1, 2, 3, 4]).value).toBeCloseTo(5 / Math.sqrt(30), 12);
});

test("too few pairs for a level give a test without an interval", () => {
  const { lower, upper, pValue } = s.signedRankKernel([1, 2, 3], [2, 4, 6]);
  expect([lower, upper, pValue]).toEqual([null, null, 0.25]);
});

test("a negative variance component is 0 and keeps its raw estimate", () => {
  const { between } = s.oneWayKernel([
    [1, 9],
    [4, 10],
    [3, 7.5],
  ]);
  expect(between.variance).toBe(0);
  expect(between.raw).toBeLessThan(0);
  expect(between.lower).toBe(0);
  expect(between.upper).toBeGreaterThan(0);
});

test("REML merges factors that split the values alike, and leaves single levels to the residual", () => {
  const y = [1, 2, 4, 5, 9, 8, 3, 3.5, 7, 7.5];
  const day = y.map((_, i) => `d${i >> 1}`);
  const { components } = s.remlKernel(y, { day, mount: day.map((d) => `m-${d}`), serial: y.map((_, i) => `${i}`) });
  expect(components.map((c) => c.name)).toEqual(["day + mount", "residual + serial"]);
});

test("REML gives an upper limit only at zero, warns under five levels, and gives no estimate under three", () => {
  const y = [1, 9, 5, 2, 8, 5, 3, 7, 5.2, 1.5, 8.8, 4.9];
  const four = s.remlKernel(y, { unit: y.map((_, i) => `u${Math.floor(i / 3)}`) }).components[0]!;
  expect(four).toMatchObject({
    variance: 0,
    lower: null,
    warning: "only 4 levels: the interval is wide and the estimate rough",
  });
  expect(four.upper).toBeGreaterThan(0);
  const two = s.remlKernel(y, { unit: y.map((_, i) => `u${i % 2}`) }).components[0]!;
  expect(two).toMatchObject({ variance: null, upper: null, warning: "only 2 levels: no estimate" });
});

test("effects that the design cannot separate are refused by name", () => {
  const y = [1, 2, 3, 4, 5, 7];
  const hand = ["l", "l", "l", "r", "r", "r"];
  expect(() => s.factorEffectsKernel(y, { hand, side: hand })).toThrow("cannot separate the effects of hand, side");
});

test("unbalanced cells are refused with the cell and the way out", () => {
  const items = ["a", "a", "a", "b", "b", "b", "b"];
  const others = ["x", "x", "y", "x", "x", "y", "y"];
  expect(() => s.nestedKernel([1, 2, 3, 4, 5, 6, 7], { items, others })).toThrow(/use reml/);
});

test("a plan that cannot reach the wanted uncertainty says how near it comes", () => {
  const scatter = { betweenSd: 2, repeatSd: 1, sharedU: 0.5 };
  const cost = { study: 10, key: 5, cycle: 1 };
  expect(() => s.cheapestPlanKernel(scatter, { wantedU: 0.4, cost })).toThrow(/the best is 0\.53/);
});

test("seeded results are the same every time and differ with the seed", () => {
  const x = [3, 1, 4, 1.5, 5, 9, 2.6];
  const at = (seed: number) => s.bootstrapIntervalKernel(x, { statistic: (v) => v[0]! + v[1]!, draws: 200, seed });
  expect(at(5)).toEqual(at(5));
  expect(at(5)).not.toEqual(at(6));
});
