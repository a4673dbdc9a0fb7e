import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  Absent,
  Quantity,
  decideAll,
  decideConformity,
  evidenceStep,
  normalSource,
  verdictWord,
} from "../../src/metrology/index.js";

const nowhere = evidenceStep("test", []);
const exact = (value: number, symbol = "cN"): Quantity => new Quantity(value, symbol, [], nowhere);
const result = (value: number, u: number): Quantity =>
  new Quantity(value, "cN", [{ source: normalSource("s", "s", u, "cN"), contribution: u }], nowhere);
const limits = { min: exact(35), max: exact(55) };

test("a result inside both limits by its uncertainty conforms", () => {
  const verdict = decideConformity(result(45, 2), limits);
  expect(verdictWord(verdict)).toBe("conforms");
  expect(verdict.guardBand).toBeCloseTo(3.92, 2);
});

test("a result nearer to a limit than its uncertainty is undecided, on either side of the limit", () => {
  for (const value of [52, 54.9, 55, 55.1, 58]) {
    expect(verdictWord(decideConformity(result(value, 2), limits))).toBe("undecided");
  }
  expect(verdictWord(decideConformity(result(59, 2), limits))).toBe("does not conform");
});

// ILAC-G8:09/2019 Table 1, one-sided and normal, result at the acceptance limit: the risk for w/u = 1.96 is 2.5 %.
test("the risk of a wrong call at the acceptance limit is 2.5 % for one limit", () => {
  const verdict = decideConformity(result(55 - 1.95997 * 2, 2), { max: exact(55) });
  expect(verdict.outcome).toBe("yes");
  expect(verdict.wrongCall).toBeCloseTo(0.025, 5);
});

// JCGM 106:2012, 7.4: conformance probability of a result, normal (formula recomputed here).
test("the conformance probability is the normal probability between the limits", () => {
  const verdict = decideConformity(result(54, 2), limits);
  expect(verdict.probability).toBeCloseTo(normalCdf(0.5, 0, 1) - normalCdf(-9.5, 0, 1), 10);
});

test("an absent result is undecided with its reason", () => {
  const verdict = decideConformity(new Absent("cN", "no contact channel"), limits);
  expect(verdict.outcome).toBe("undecided");
  expect(verdict.statement).toContain("no contact channel");
});

test("limits of another unit of measure, crossed limits and no limits are refused", () => {
  expect(() => decideConformity(result(1, 1), { max: exact(1, "mm") })).toThrow(/cannot compare cN with a limit in mm/);
  expect(() => decideConformity(result(1, 1), { min: exact(2), max: exact(1) })).toThrow(/above the upper limit/);
  expect(() => decideConformity(result(1, 1), {})).toThrow(/at least one limit/);
});

test("a unit conforms only if every key does", () => {
  const of = (...values: number[]) =>
    decideAll(
      values.map((v) => decideConformity(result(v, 1), limits)),
      "keys",
    );
  expect(of(45, 46).outcome).toBe("yes");
  expect(of(45, 54.5).outcome).toBe("undecided");
  expect(of(45, 54.5, 60).outcome).toBe("no");
  expect(of().outcome).toBe("undecided");
  expect(of(45, 54.5, 60).statement).toBe("3 keys judged: 1 conforms, 1 does not, 1 undecided");
});

test("verdicts that were joined before are joined with all that they cite, and the rule is said once", () => {
  const keys = [45, 46].map((v) => decideConformity(result(v, 1), limits));
  const joined = decideAll(keys, "keys");
  const all = decideAll([joined, joined], "limits");
  expect(all.cites).toEqual(joined.cites);
  expect(all.cites).toHaveLength(2);
  expect(all.rule).toBe(joined.rule);
  expect(all.statement).toBe("2 limits judged: 2 conform");
});

test("a yes and a no are never wrong with a probability above 2.5 % a limit", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 70, noNaN: true }),
      fc.double({ min: 0.01, max: 10, noNaN: true }),
      (v, u) => {
        const verdict = decideConformity(result(v, u), limits);
        if (verdict.wrongCall !== null) expect(verdict.wrongCall).toBeLessThanOrEqual(0.05 + 1e-9);
      },
    ),
    { seed: 2, numRuns: 500 },
  );
});
