import { expect, test } from "vitest";
import { drawChart } from "../../../src/figures/draw.js";
import { agreementChart } from "../../../src/figures/kinds/agreement-chart.js";
import { meritChange } from "../../../src/figures/kinds/merit-change.js";
import { rankShift } from "../../../src/figures/kinds/rank-shift.js";
import { regressionChart } from "../../../src/figures/kinds/regression-chart.js";
import { difference } from "../../../src/metrology/derive.js";
import { evidenceStep } from "../../../src/metrology/evidence.js";
import { expand } from "../../../src/metrology/expanded.js";
import { Quantity } from "../../../src/metrology/quantity.js";
import { normalSource } from "../../../src/metrology/source.js";
import { none, plain, q } from "./shared.js";

const names = ["old", "new"] as const;
const units = [1, 2, 3, 4].map((n) => ({
  unit: `u${n}`,
  first: q(40 + n, 1, "cN", `f${n}`),
  second: q(41 + n + (n === 4 ? 6 : 0), 1, "cN", `s${n}`),
}));

test("the mean difference is judged by what its interval holds: zero, the smallest change, neither, both", () => {
  const says = (value: number, U: number): string =>
    plain(
      agreementChart(units, (unit) => unit, { names, bias: q(value, U), smallestChange: { value: 3, symbol: "cN" } })
        .finding,
    );
  expect(says(0.2, 1)).toBe(
    "new minus old is (0.2 ± 1.0) cN on average over 4 units: its interval holds zero and lies inside ±3 cN, the smallest change that matters.",
  );
  expect(says(1.6, 1)).toContain("leaves out zero and lies inside ±3 cN");
  expect(says(-5, 1)).toContain("leaves out zero and lies beyond ±3 cN");
  expect(says(2.5, 1)).toContain("leaves out zero and does not settle whether the difference reaches ±3 cN");
});

test("without a smallest change only zero is spoken of; without a mean difference nothing is claimed", () => {
  expect(plain(agreementChart(units, (unit) => unit, { names, bias: q(2, 1) }).finding)).toBe(
    "new minus old is (2.0 ± 1.0) cN on average over 4 units: its interval leaves out zero.",
  );
  expect(agreementChart(units, (unit) => unit, { names }).finding).toBe("new minus old for 4 units.");
  expect(agreementChart(units, (unit) => unit, { names, bias: none("one pair") }).finding).toBe(
    "mean difference of 4 units not available: one pair.",
  );
});

test("differences outside the limits of agreement are named", () => {
  const limits = [q(-3, 1), q(5, 1)] as const;
  expect(plain(agreementChart(units, (unit) => unit, { names, limits }).finding)).toContain(
    "the limits of agreement are -3.0 cN and 5.0 cN, and 1 of 4 units lies outside them (u4)",
  );
  expect(plain(agreementChart(units.slice(0, 3), (unit) => unit, { names, limits }).finding)).toContain(
    "and no difference lies outside them",
  );
  expect(agreementChart(units, (unit) => unit, { names, limits: [q(-3, 1), none("too few")] }).finding).toContain(
    "limits of agreement not available: too few",
  );
});

test("a source that both values share cancels in their difference", () => {
  const shared = { source: normalSource("rig", "Rig", 2, "cN"), contribution: 2 };
  const value = (of: number, id: string) =>
    new Quantity(
      of,
      "cN",
      [shared, { source: normalSource(id, id, 0.1, "cN"), contribution: 0.1 }],
      evidenceStep("test", []),
    );
  const pair = { unit: "u1", first: value(40, "a"), second: value(41, "b") };
  const cell = agreementChart([pair], (unit) => unit, { names }).data.rows[0]![3] as Quantity;
  expect(expand(cell).U).toBeCloseTo(expand(difference(pair.second, pair.first)).U, 12);
  expect(expand(cell).U).toBeLessThan(0.3);
});

test.each([
  ["agreement chart", (items: typeof units) => agreementChart(items, (unit) => unit, { names })],
  [
    "regression chart",
    (items: typeof units) => regressionChart(items, (unit) => unit, { x: { label: "old" }, y: { label: "new" } }),
  ],
] as const)("the %s names pairs that lack a value, and says so in words where all do", (_, make) => {
  const broken = { unit: "u9", first: none("returned before the retest"), second: q(1, 1) };
  expect(make([...units, broken] as never).finding).toContain("without both values: u9 (returned before the retest)");
  expect(make([broken] as never).empty).toBe("Without both values: u9 (returned before the retest).");
  expect(make([]).empty).toMatch(/^There are no items? to compare|^There are no items to compare/);
});

test("slope and intercept stand as estimates, with the claim that the page makes of them and no other", () => {
  const fit = { name: "Deming regression", slope: q(1.1, 0.05, "1"), intercept: q(0.5, 2) };
  const made = regressionChart(units, (unit) => unit, { x: { label: "old" }, y: { label: "new" }, fit });
  expect(plain(made.finding)).toBe("Deming regression of 4 units: slope 1.100 ± 0.050, intercept (0.5 ± 2.0) cN.");
  const axes = { x: { label: "old" }, y: { label: "new" } };
  const claimed = regressionChart(units, (unit) => unit, { ...axes, fit, claim: "no departure from slope 1 is shown" });
  expect(plain(claimed.finding)).toBe(
    "Deming regression of 4 units: slope 1.100 ± 0.050, intercept (0.5 ± 2.0) cN; no departure from slope 1 is shown.",
  );
  const absent = { ...fit, slope: none("under three units", "1") };
  expect(
    regressionChart(units, (unit) => unit, { x: { label: "old" }, y: { label: "new" }, fit: absent }).finding,
  ).toBe("no line for 4 units: under three units.");
});

test("two units of measure have no line of equal values", () => {
  const pairs = units.map(({ unit, first }, index) => ({ unit, first, second: q(index, 0.1, "mm") }));
  const axes = { x: { label: "force" }, y: { label: "travel" } };
  expect(() => regressionChart(pairs, (pair) => pair, { ...axes, identity: true })).toThrow(
    /no line of equal values between cN and mm/,
  );
  expect(regressionChart(pairs, (pair) => pair, axes).finding).toBe("travel against force for 4 units.");
});

test("rank shifts name the largest, and claim more than uncertainty only where it was decided", () => {
  const ranks = [
    { unit: "a", before: 1, after: 3 },
    { unit: "b", before: 2, after: 1 },
    { unit: "c", before: 3, after: 2 },
    { unit: "d", before: 4, after: 4 },
  ];
  expect(rankShift(ranks, (rank) => rank, { names }).finding).toBe(
    "1 of 4 units keeps its rank; the largest shift is a from 1 to 3; whether a shift is more than uncertainty is not decided here.",
  );
  const decide = (change: "yes" | "undecided") =>
    rankShift(ranks, (rank) => ({ ...rank, change: rank.unit === "a" ? change : "undecided" }), { names }).finding;
  expect(decide("yes")).toContain("; more than uncertainty: a.");
  expect(decide("undecided")).toContain("; no shift is more than uncertainty.");
});

test("ranks that do not change claim no shift; ties share a rank; a missing rank is named", () => {
  const ranks = [
    { unit: "a", before: 1, after: 1 },
    { unit: "b", before: 1, after: 1 },
    { unit: "c", before: 3, after: null, reason: "withdrawn" },
  ];
  const made = rankShift(ranks, (rank) => rank, { names });
  expect(made.finding).toBe("2 of 2 units keep their rank; not ranked in both: c.");
  expect(made.data.rows[2]).toEqual(["c", 3, null, "withdrawn"]);
  expect(rankShift([{ unit: "a" }], () => ({ before: null, after: null }), { names }).empty).toBe(
    "There are no ranked units to show.",
  );
  expect(() => rankShift([{ unit: "a" }], () => ({ before: 0, after: 1 }), { names })).toThrow(/rank 0 for item 1/);
});

const grades = [
  { name: "suitable", from: 0.6 },
  { name: "not suitable", from: 0 },
];

test("merit changes quote the largest, repeat what was decided, and say a grade changes by value alone", () => {
  const merits = [
    { unit: "a", first: q(0.5, 0.05, "1", "a1"), second: q(0.7, 0.05, "1", "a2"), change: "yes" as const },
    { unit: "b", first: q(0.7, 0.05, "1", "b1"), second: q(0.71, 0.05, "1", "b2"), change: "undecided" as const },
  ];
  const made = meritChange(merits, (merit) => merit, { names, grades });
  expect(plain(made.finding)).toBe(
    "a changes most of 2 units, by 0.200 ± 0.071; moved: a; cannot tell: b; by value alone the grade changes for a.",
  );
  expect(plain(meritChange(merits.slice(1), (merit) => merit, { names, grades }).finding)).toMatch(
    /^b changes by 0.010 ± 0.071; cannot tell: b; by value alone no grade changes\.$/,
  );
});

test("the axis of merits starts at the tenth below all that is drawn, says so, and names the grades below it", () => {
  const steps = [
    { name: "suitable", from: 0.7 },
    { name: "with reservations", from: 0.5 },
  ];
  const at = (merit: number): ReturnType<typeof meritChange> =>
    meritChange([{ unit: "a" }], () => ({ first: q(merit, 0.02, "1"), second: q(0.9, 0.02, "1") }), {
      names,
      grades: steps,
    });
  expect(at(0.72).x.domain).toEqual([0.6, 1]);
  expect(at(0.72).note).toContain("The axis starts at 0.6, not at 0; below it: with reservations (from 0.5).");
  expect(at(0.62).x.domain).toEqual([0.5, 1]);
  expect(at(0.05).x.domain).toEqual([0, 1]);
  expect(at(0.05).note).not.toContain("starts");
});

test("names of grades that do not fit on one line stand on two, whole", () => {
  const steps = [
    { name: "with reservations", from: 0.5 },
    { name: "suitable in part", from: 0.7 },
    { name: "recommended for halls", from: 0.85 },
  ];
  const made = meritChange([{ unit: "a" }], () => ({ first: q(0.4, 0.02, "1"), second: q(0.9, 0.02, "1") }), {
    names,
    grades: steps,
  });
  const texts = [...drawChart(made, "f1", { title: "How?" }).svg.matchAll(/<text[^>]*>([^<]*)</g)].map(
    ([, text]) => text,
  );
  expect(texts).toEqual(
    expect.arrayContaining(["with", "reservations", "suitable", "in part", "recommended", "for halls"]),
  );
});

test("merits are ratios, grades start between 0 and 1, absent merits are named", () => {
  expect(() => meritChange([{ unit: "a" }], () => ({ first: q(1, 1), second: q(1, 1) }), { names })).toThrow(
    /merits as ratios, got cN/,
  );
  expect(() =>
    meritChange([], () => ({ first: q(0, 0, "1"), second: q(0, 0, "1") }), { names, grades: [{ name: "a", from: 8 }] }),
  ).toThrow(/starts at 8/);
  const half = meritChange([{ unit: "a" }], () => ({ first: none("no latency", "1"), second: q(0.5, 0.1, "1") }), {
    names,
  });
  expect(half.finding).toBe("no unit has a merit before and after; without both values: a (no latency).");
  expect(half.empty).toBeUndefined();
});
