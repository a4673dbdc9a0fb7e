import { expect, test } from "vitest";
import { cheapestMeanPlan, floorOf, meanPlan } from "../../src/comparison/index.js";

const scatter = { betweenSd: 1.5, repeatSd: 0.2, floorU: 0.35, population: 26 };
const cost = { study: 7, key: 4.2, cycle: 0.27 };

test("k comes from t: eight keys of the scatter alone have 2.36, and two have 12.7", () => {
  const alone = { betweenSd: 1, repeatSd: 0, floorU: 0, population: 1e9 };
  // Student's t, 0.975: 2.364624 for 7 and 12.706205 for 1 degree of freedom.
  expect(meanPlan(alone, 8, 3).U).toBeCloseTo(2.364624 / Math.sqrt(8), 5);
  expect(meanPlan(alone, 2, 3).U).toBeCloseTo(12.706205 / Math.sqrt(2), 5);
  expect(meanPlan(alone, 1, 3).U).toBe(Infinity);
});

test("no number of keys and cycles gets below the floor, and all keys with many cycles come near it", () => {
  for (const keys of [2, 6, 26]) {
    for (const cycles of [1, 30]) expect(meanPlan(scatter, keys, cycles).U).toBeGreaterThan(floorOf(scatter));
  }
  expect(meanPlan(scatter, 26, 1000).U).toBeCloseTo(floorOf(scatter), 3);
  expect(cheapestMeanPlan(scatter, { wantedU: 0.9 * floorOf(scatter), cost })).toBeNull();
});

test("the cheapest plan reaches what is wanted, and no cheaper one of all does", () => {
  for (const wantedU of [3, 1.5, 1]) {
    const best = cheapestMeanPlan(scatter, { wantedU, cost, fewestKeys: 6 })!;
    expect(best.U).toBeLessThanOrEqual(wantedU);
    expect(best.keys).toBeGreaterThanOrEqual(6);
    for (let keys = 6; keys <= 26; keys++) {
      for (let cycles = 1; cycles <= 12; cycles++) {
        const total = cost.study + keys * (cost.key + cycles * cost.cycle);
        if (total < best.cost - 1e-9) expect(meanPlan(scatter, keys, cycles).U).toBeGreaterThan(wantedU);
      }
    }
  }
});

test("a plan keeps to the fewest keys of the method, more than there are are refused", () => {
  expect(cheapestMeanPlan(scatter, { wantedU: 100, cost })!.keys).toBe(2);
  expect(cheapestMeanPlan(scatter, { wantedU: 100, cost, fewestKeys: 6 })!).toMatchObject({ keys: 6, cycles: 1 });
  expect(() => cheapestMeanPlan(scatter, { wantedU: 1, cost, fewestKeys: 27 })).toThrow(/27/);
  expect(() => cheapestMeanPlan(scatter, { wantedU: NaN, cost })).toThrow(/wantedU/);
});
