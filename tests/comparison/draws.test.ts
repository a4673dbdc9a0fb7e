import { expect, test } from "vitest";
import { drawnTogether } from "../../src/comparison/drawn-together.js";
import { gatherOwnSources } from "../../src/comparison/own-sources.js";
import { covariance, evidenceStep, jointDraws } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { quantity } from "./support.js";

const rig = { id: "rig", u: 0.7 };
const two = [
  quantity(10, [rig, { id: "a1", u: 0.3, dof: 4 }, { id: "a2", u: 0.4, dof: 6 }]),
  quantity(12, [
    { ...rig, times: -1 },
    { id: "b1", u: 0.2 },
    { id: "b2", u: 0.1 },
  ]),
];

test("gathered sources keep every covariance, and the uncertainty up to the variance of Student's distribution", () => {
  const gathered = gatherOwnSources(two);
  expect(covariance(gathered[0]!, gathered[1]!)).toBeCloseTo(covariance(two[0]!, two[1]!), 12);
  expect(gathered[0]!.u).toBeCloseTo(two[0]!.u, 12);
  expect(gathered[1]!.u).toBeCloseTo(two[1]!.u, 12);
  expect(gathered.map(({ components }) => components.length)).toEqual([2, 2]);
});

test("above 30 degrees of freedom a gathered source is normal with the variance of Student's distribution", () => {
  const [found] = gatherOwnSources([
    quantity(0, [
      { id: "a", u: 0.6, dof: 40 },
      { id: "b", u: 0.8, dof: 60 },
    ]),
  ]);
  const dof = Math.floor(1 / (0.6 ** 4 / 40 + 0.8 ** 4 / 60));
  expect(found!.u).toBeCloseTo(Math.sqrt(dof / (dof - 2)), 12);
  expect(found!.components[0]!.source).toMatchObject({ distribution: "normal", dof: Infinity });
});

test("gathered and single sources give the same spread of draws (20,000 of each)", () => {
  const spread = (values: readonly ReturnType<typeof quantity>[]): readonly number[] => {
    const sums = [0, 0, 0];
    jointDraws(values, { seed: 5, draws: 20000 }, ([x, y]) => {
      sums[0]! += (x! - 10) ** 2;
      sums[1]! += (y! - 12) ** 2;
      sums[2]! += (x! - 10) * (y! - 12);
    });
    return sums.map((sum) => sum / 20000);
  };
  const [single, gathered] = [spread(two), spread(gatherOwnSources(two))];
  single.forEach((value, i) => expect(gathered[i]! / value).toBeCloseTo(1, 0));
  expect(gathered[2]).toBeCloseTo(-0.49, 1);
});

test("results drawn together have the covariance matrix of their draws", () => {
  const random = seededRandom(6);
  const [x, y, z] = [0, 1, 2].map(() => new Float64Array(5000));
  for (let i = 0; i < 5000; i++) {
    const [a, b] = [random.normal(), random.normal()];
    x![i] = a;
    y![i] = 0.6 * a + 0.8 * b;
    z![i] = x![i]! - y![i]!;
  }
  const evidence = evidenceStep("test", []);
  const found = drawnTogether(
    "test",
    "Test",
    [x!, y!, z!].map((draws) => ({ value: 1, draws, evidence })),
  );
  const sample = (a: Float64Array, b: Float64Array): number => {
    const [ma, mb] = [a, b].map((v) => v.reduce((s, each) => s + each, 0) / v.length);
    return a.reduce((s, each, i) => s + (each - ma!) * (b[i]! - mb!), 0) / (a.length - 1);
  };
  expect(found[0]!.u ** 2).toBeCloseTo(sample(x!, x!), 8);
  expect(covariance(found[0]!, found[1]!)).toBeCloseTo(sample(x!, y!), 8);
  expect(found[2]!.u ** 2).toBeCloseTo(sample(z!, z!), 6);
});

test("a result that never varies has no uncertainty, and unequal numbers of draws are refused", () => {
  const evidence = evidenceStep("test", []);
  const flat = new Float64Array(10).fill(1);
  expect(drawnTogether("t", "T", [{ value: 1, draws: flat, evidence }])[0]!.u).toBe(0);
  expect(() =>
    drawnTogether("t", "T", [
      { value: 1, draws: flat, evidence },
      { value: 1, draws: new Float64Array(9), evidence },
    ]),
  ).toThrow(/number of draws/);
  expect(drawnTogether("t", "T", [])).toEqual([]);
});
