import { expect, test } from "vitest";
import { repeatability } from "../../src/keystroke/repeatability.js";
import { cochranKernel } from "../../src/statistics/outliers/cochran.js";
import { varianceOf } from "../../src/statistics/numeric/sums.js";
import { seededRandom } from "../../src/metrology/random.js";

test("variances are pooled by their degrees of freedom", () => {
  const pooled = repeatability([[1, 2, 3], [5, 5.5], [7]]);
  const expected = (2 * varianceOf([1, 2, 3]) + 1 * varianceOf([5, 5.5])) / 3;
  for (const each of pooled) expect(each).toEqual({ variance: expected, dof: 3, keys: 2 });
});

test("no key with two cycles gives no scatter", () => {
  expect(repeatability([[1], [2], []])).toEqual([null, null, null]);
});

test("a key that scatters far more than the others stands alone, with its own degrees of freedom", () => {
  const quiet = [0, 1, 2, 3, 4].map((k) => [10 + k, 10.1 + k, 9.9 + k]);
  const [first, ...rest] = repeatability([[10, 14, 6], ...quiet]);
  expect(first).toEqual({ variance: 16, dof: 2, keys: 1 });
  for (const each of rest) expect(each!.variance).toBeCloseTo(0.01, 12);
  expect(repeatability([[10, 14, 6], ...quiet], { rejection: 0 })[1]!.keys).toBe(6);
});

test("with groups of one size the rule is Cochran's test at 1 %", () => {
  const random = seededRandom(9);
  let alone = 0;
  for (let run = 0; run < 300; run++) {
    const groups = Array.from({ length: 8 }, (_, k) => {
      const sd = k === 0 ? 1 + run / 40 : 1;
      return [0, 0, 0].map(() => sd * random.normal());
    });
    const cochran = cochranKernel(groups.map(varianceOf), { replicates: 3, alpha: 0.01 });
    const result = repeatability(groups);
    expect(result[cochran.suspect]!.keys === 1).toBe(cochran.isOutlier);
    if (cochran.isOutlier) alone++;
  }
  expect(alone).toBeGreaterThan(30);
});

test("keys that scatter alike are taken apart in about 1 % of sessions", () => {
  const random = seededRandom(21);
  let apart = 0;
  for (let run = 0; run < 2000; run++) {
    const groups = Array.from({ length: 8 }, () => [0, 0, 0].map(() => random.normal()));
    if (repeatability(groups).some((each) => each!.keys === 1)) apart++;
  }
  console.log(`sessions in which an alike key was taken apart: ${((100 * apart) / 2000).toFixed(2)} %`);
  expect(apart / 2000).toBeLessThan(0.016);
});
