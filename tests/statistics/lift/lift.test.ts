import { expect, expectTypeOf, test } from "vitest";
import { derive } from "../../../src/metrology/derive.js";
import type { Evidence } from "../../../src/metrology/evidence.js";
import { evidenceLeaves } from "../../../src/metrology/evidence.js";
import type { Measured, Count } from "../../../src/metrology/quantity.js";
import { Absent, Quantity } from "../../../src/metrology/quantity.js";
import type { Component } from "../../../src/metrology/source.js";
import { normalSource } from "../../../src/metrology/source.js";
import { blandAltman } from "../../../src/statistics/agreement/bland-altman.js";
import { count } from "../../../src/statistics/describe/count.js";
import { mean } from "../../../src/statistics/describe/mean.js";
import { spread } from "../../../src/statistics/describe/spread.js";
import { liftFactors } from "../../../src/statistics/lift/lift-factors.js";
import { liftPaired, liftSamples, liftTrend } from "../../../src/statistics/lift/lift-paired.js";
import { lift } from "../../../src/statistics/lift/lift.js";
import { pairedT, twoSampleT } from "../../../src/statistics/tests/t-tests.js";

const rig = normalSource("rig/span", "Span of the tester", 0.3, "cN");

function rows(line: number): Evidence {
  return { kind: "rows", file: "units/u01/s1/force.csv", firstLine: line, lastLine: line, columns: ["force_cN"] };
}

function force(value: number, line: number, extra: readonly Component[] = []): Quantity<"cN"> {
  const noise = normalSource(`stroke/${line}`, "Noise", 0.4, "cN");
  return new Quantity(
    value,
    "cN",
    [{ source: rig, contribution: 0.3 }, { source: noise, contribution: 0.4 }, ...extra],
    rows(line),
  );
}

function present<S extends string>(measured: Measured<S>): Quantity<S> {
  if (measured.absent) throw new Error(measured.reason);
  return measured;
}

const keys = [45.1, 46.3, 44.2, 47.7].map((value, i) => ({
  key: `Key${i}`,
  actuationForce: force(value, i + 2) as Measured<"cN">,
}));
const noContact = {
  key: "KeyX",
  actuationForce: new Absent("cN", "the contact never closed", rows(9)) as Measured<"cN">,
};

test("a mean keeps a shared source whole and divides private ones", () => {
  const result = present(spread(keys, (key) => key.actuationForce).mean);
  expect(result.value).toBeCloseTo(45.825, 12);
  expect(result.u).toBeCloseTo(Math.hypot(0.3, 0.4 / 2), 12);
  expect(result.components).toHaveLength(5);
});

test("a standard deviation does not carry what moves all values together", () => {
  const sd = present(spread(keys, (key) => key.actuationForce).sd);
  expect(sd.components.find((c) => c.source.id === "rig/span")?.contribution).toBeCloseTo(0, 12);
});

test("differences over one standard uncertainty agree with exact weights", () => {
  const plain = lift((values: readonly number[]) => values.reduce((a, b) => a + b) / values.length, "same");
  const one = present(plain(keys, (key) => key.actuationForce));
  const two = present(mean(keys, (key) => key.actuationForce));
  expect(one.components.map((c) => c.source.id).sort()).toEqual(two.components.map((c) => c.source.id).sort());
  for (const c of one.components) {
    expect(c.contribution).toBeCloseTo(two.components.find((d) => d.source.id === c.source.id)!.contribution, 12);
  }
});

test("a shared offset moves a median by exactly that offset, whatever the gaps", () => {
  const middle = lift((values: readonly number[]) => [...values].sort((a, b) => a - b)[1]!, "same");
  const result = present(middle(keys.slice(0, 3), (key) => key.actuationForce));
  expect(result.components.find((c) => c.source.id === "rig/span")?.contribution).toBeCloseTo(0.3, 12);
});

test("absent items are left out and the evidence says how many and why", () => {
  const result = spread([...keys, noContact], (key) => key.actuationForce);
  expect(result.n.count).toBe(4);
  const evidence = present(result.mean).evidence;
  expect(evidence.kind === "step" && evidence.note).toBe("1 of 5 left out: the contact never closed (1)");
  expect(evidenceLeaves(evidence).map((leaf) => leaf.firstLine)).toEqual([2, 3, 4, 5]);
  expect(evidence.kind === "step" && evidence.operation).toBe("mean and standard deviation of 4 values");
});

test("all absent gives an absence with the reasons, and a count of 0", () => {
  const result = spread([noContact, noContact], (key) => key.actuationForce);
  expect(result.mean.absent && result.mean.reason).toContain("the contact never closed (2)");
  expect(result.mean.symbol).toBe("cN");
  expect(result.n.count).toBe(0);
});

test("too few values give an absence that says what is needed", () => {
  const result = spread(keys.slice(0, 1), (key) => key.actuationForce);
  expect(result.sd.absent && result.sd.reason).toBe("spread needs at least 2 values, got 1");
});

test("an empty list, differing symbols and unknown options are refused", () => {
  expect(() => spread([] as typeof keys, (key) => key.actuationForce)).toThrow(/at least one item; the list is empty/);
  const odd = [force(1, 2), new Quantity(2, "mN", [], rows(3))] as Measured<"cN">[];
  expect(() => spread(odd, (q) => q)).toThrow("item 1 is in cN but item 2 in mN");
  expect(() => mean(keys, (key) => key.actuationForce, { levle: 0.9 } as object)).toThrow("mean has no option levle");
});

test("the sampling error replaces what moves single values, and keeps what they share", () => {
  const { mean: average, sd } = spread(keys, (key) => key.actuationForce, { sampling: "keys of u01" });
  const scatter = present(sd).value / 2;
  expect(
    present(average)
      .components.map((c) => c.source.id)
      .sort(),
  ).toEqual(["rig/span", "sample/keys of u01/mean"]);
  expect(present(average).u).toBeCloseTo(Math.hypot(0.3, scatter), 12);
  expect(present(average).components.find((c) => c.source.type === "A")?.source.dof).toBe(3);
});

test("the difference of a t test carries its standard error and degrees of freedom where it speaks of the population", () => {
  const both = [
    [force(41, 1), force(43, 2), force(46, 3)],
    [force(45, 4), force(44, 5), force(49, 6)],
  ] as const;
  const accessor = (each: Measured<"cN">): Measured<"cN"> => each;
  const { difference, standardError, dof } = twoSampleT(...both, accessor, { sampling: "hands of u01" });
  const [source] = present(difference).components.filter((c) => c.source.id === "sample/hands of u01/difference");
  expect(source!.contribution).toBeCloseTo(present(standardError).value, 12);
  expect(source!.source.dof).toBeCloseTo(present(dof).value, 12);
  expect(present(difference).u).toBeGreaterThanOrEqual(source!.contribution);
  expect(present(twoSampleT(...both, accessor).difference).u).toBeLessThan(source!.contribution);
  const paired = pairedT(
    [0, 1, 2],
    (i) => both[0][i]!,
    (i) => both[1][i]!,
    { sampling: "pairs of u01" },
  );
  expect(present(paired.difference).components.map((c) => c.source.id)).toContain("sample/pairs of u01/difference");
});

test("an accessor called sampling where the kernel states none is refused", () => {
  const largest = lift((values: readonly number[]) => Math.max(...values), "same", { name: "largest" });
  expect(() => largest(keys, (key) => key.actuationForce, { sampling: "x" })).toThrow(
    "largest states no sampling error",
  );
});

test("shapes give squared, ratio, statistic, flag, text, plain, lists and nested objects", () => {
  const all = lift(
    (values: readonly number[]) => ({
      variance: values.length,
      share: 0.5,
      p: 0.03,
      any: true,
      rule: "a rule",
      index: 2,
      scores: values.map((v) => v / 2),
      inner: { low: values[0]!, none: null as number | null },
    }),
    {
      variance: "squared",
      share: "ratio",
      p: "statistic",
      any: "flag",
      rule: "text",
      index: "plain",
      scores: ["same"],
      inner: { low: "same", none: "same" },
    },
    { name: "everything" },
  );
  const result = all(keys, (key) => key.actuationForce);
  expect(result.variance.symbol).toBe("cN²");
  expect(result.share.symbol).toBe("1");
  expect(present(result.p).components).toEqual([]);
  expect(result.any).toBe(true);
  expect(result.rule).toBe("a rule");
  expect(result.index).toBe(2);
  const scores = result.scores as readonly Measured<"cN">[];
  expect(present(scores[1]!).u).toBeCloseTo(0.25, 12);
  expect(present(result.inner.low).u).toBeCloseTo(0.5, 12);
  expect(result.inner.none.absent && result.inner.none.reason).toBe("these values do not determine it");
});

test("the compiler knows the symbol of each result", () => {
  const result = spread(keys, (key) => key.actuationForce);
  expectTypeOf(result.mean).toEqualTypeOf<Measured<"cN">>();
  expectTypeOf(result.n).toEqualTypeOf<Count>();
  const variance = lift((values: readonly number[]) => values.length, "squared");
  expectTypeOf(variance(keys, (key) => key.actuationForce)).toEqualTypeOf<Measured<"cN²">>();
  const slope = liftTrend((xs: readonly number[], ys: readonly number[]) => ys[0]! / xs[0]!, "slope");
  const days = new Quantity(2, "d", [], rows(1));
  expectTypeOf(
    slope(
      keys,
      () => days,
      (key) => key.actuationForce,
    ),
  ).toEqualTypeOf<Measured<"cN/d">>();
  expect(
    slope(
      keys,
      () => days,
      (key) => key.actuationForce,
    ).symbol,
  ).toBe("cN/d");
  expect(derive([result.mean], ([m]) => m * 2, "cN").symbol).toBe("cN");
});

test("a part of the result that may be missing keeps its types, and is absent where it is", () => {
  const agreement = blandAltman(
    keys,
    (key) => key.actuationForce,
    (key) => key.actuationForce,
  );
  expectTypeOf(agreement.proportional.slope).toEqualTypeOf<Measured<"1">>();
  expect(agreement.proportional.slope.absent).toBe(true);
});

test("the sampling error of one mean is one source, whichever function gives it", () => {
  const options = { sampling: "keys of u01" };
  const one = present(mean(keys, (key) => key.actuationForce, options));
  const two = present(spread(keys, (key) => key.actuationForce, options).mean);
  expect(one.components.map((c) => c.source.id).sort()).toEqual(two.components.map((c) => c.source.id).sort());
});

test("pairs lose both values where one is absent, and must share a symbol", () => {
  const bias = liftPaired(
    (xs: readonly number[], ys: readonly number[]) => ({
      bias: ys.reduce((t, y, i) => t + y - xs[i]!, 0) / xs.length,
      n: xs.length,
    }),
    { bias: "same", n: "count" },
    { name: "bias" },
  );
  const units = keys.map((key, i) => ({
    before: key.actuationForce,
    after: i === 0 ? noContact.actuationForce : force(50, 20 + i),
  }));
  const result = bias(
    units,
    (u) => u.before,
    (u) => u.after,
  );
  expect(result.n.count).toBe(3);
  expect(present(result.bias).components.find((c) => c.source.id === "rig/span")?.contribution ?? 0).toBeCloseTo(0, 12);
  expect(present(result.bias).u).toBeCloseTo((0.4 * Math.SQRT2) / Math.sqrt(3), 12);
  const odd = new Quantity(1, "mm", [], rows(3)) as unknown as Measured<"cN">;
  expect(() =>
    bias(
      units,
      (u) => u.before,
      () => odd,
    ),
  ).toThrow("bias: item 1 is in cN and in mm");
});

test("two samples may differ in length", () => {
  const shift = liftSamples((a: readonly number[], b: readonly number[]) => b.length - a.length, "same", {
    name: "shift",
  });
  expect(present(shift(keys.slice(0, 1), keys, (key) => key.actuationForce)).value).toBe(3);
});

test("levels go with their values when an item is left out", () => {
  const seen = liftFactors((_: readonly number[], factors) => factors["key"]!.join(" "), "text", { name: "levels" });
  expect(seen([noContact, ...keys], (key) => key.actuationForce, { key: (key) => key.key })).toBe(
    "Key0 Key1 Key2 Key3",
  );
});

test("a count counts items, or the values that are there", () => {
  expect(count(keys).count).toBe(4);
  const present = count([...keys, noContact], (key) => key.actuationForce);
  expect(present.count).toBe(4);
  expect(present.evidence.kind === "step" && present.evidence.note).toBe("1 of 5 are absent");
  expect(count([]).count).toBe(0);
});
