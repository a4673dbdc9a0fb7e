import { expect, test } from "vitest";
import { doubtfulSpans, driftConsequences, failedChecks } from "../../src/comparison/index.js";
import { derive, expand, sum } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { absent, own, present, quantity } from "./support.js";

interface Check {
  readonly date: string;
  readonly good: boolean;
}
const check = (date: string, good = true): Check => ({ date, good });
const rules = { date: ({ date }: Check) => date, isGood: ({ good }: Check) => good };

test("a span reaches from the last good to the next good check, in whatever order the checks are given", () => {
  const checks = [
    check("2026-05-18"),
    check("2026-04-27", false),
    check("2026-05-11", false),
    check("2026-04-20"),
    check("2026-03-02"),
  ];
  const [span, ...more] = doubtfulSpans(checks, rules);
  expect(more).toEqual([]);
  expect(span).toMatchObject({ from: "2026-04-20", until: "2026-05-18", firstFailed: "2026-04-27" });
  expect(span!.failed.map(({ date }) => date)).toEqual(["2026-04-27", "2026-05-11"]);
});

test("a calibration ends a span as a good check does, and one before it begins it", () => {
  const checks = [check("2026-04-20"), check("2026-05-11", false), check("2026-05-18")];
  expect(doubtfulSpans(checks, { ...rules, calibrated: ["2026-05-12"] })[0]!.until).toBe("2026-05-12");
  expect(doubtfulSpans(checks, { ...rules, calibrated: ["2026-04-28"] })[0]!.from).toBe("2026-04-28");
  const still = [check("2026-04-20"), check("2026-05-11", false), check("2026-05-18", false), check("2026-05-25")];
  const spans = doubtfulSpans(still, { ...rules, calibrated: ["2026-05-12"] });
  expect(spans.map(({ from, until }) => [from, until])).toEqual([
    ["2026-04-20", "2026-05-12"],
    ["2026-05-12", "2026-05-25"],
  ]);
});

test("a span without a good check before or after it is open there", () => {
  expect(doubtfulSpans([check("2026-05-11", false)], rules)).toMatchObject([
    { from: null, until: null, lastGood: null, nextGood: null },
  ]);
  expect(doubtfulSpans([check("2026-05-11")], rules)).toEqual([]);
  expect(() => doubtfulSpans([check("May")], rules)).toThrow(/2026-03-02/);
});

test("of 3000 seeded rigs in order with 40 checks each, at most 5 % have a failed check (gate 6 %)", () => {
  const random = seededRandom(31);
  let rigs = 0;
  for (let rig = 0; rig < 3000; rig++) {
    const checks = Array.from({ length: 40 }, (_, i) => ({
      value: own(`c${i}`, 44 + 0.12 * random.normal(), 0.12),
      reference: quantity(44),
    }));
    if (failedChecks(checks).some(Boolean)) rigs++;
  }
  expect(rigs / 3000).toBeLessThanOrEqual(0.06);
  expect(failedChecks([])).toEqual([]);
});

const shift = quantity(0.012, [{ id: "check", u: 0.0008 }], "1");
const consequence = (
  value: number,
  u: number,
  start: string,
): ReturnType<typeof driftConsequences<string>>[number] | undefined =>
  driftConsequences(["u04/s1"], {
    date: () => start,
    result: () => own("result", value, u),
    effect: (result) => derive([result, shift], ([force, share]) => force * share, "cN"),
    span: { from: "2026-04-20", until: "2026-05-18", firstFailed: "2026-04-27" },
    id: "rig/tester-2/shift",
  })[0];

test("the effect is given in the result's own unit and as a share of its U", () => {
  const found = consequence(45, 0.5, "2026-05-04T09:10:00Z")!;
  expect(found.standing).toBe("shifted");
  expect(present(found.effect).value).toBeCloseTo(0.54, 10);
  expect(found.share).toBeCloseTo(0.54 / expand(own("x", 45, 0.5)).U, 10);
});

test("an effect within a third of U needs no action, a larger one is taken off and issued again", () => {
  expect(consequence(45, 1.2, "2026-05-04")!.action).toBe("no action");
  const again = consequence(45, 0.3, "2026-05-04")!;
  expect(again.action).toBe("re-issue");
  expect(present(again.corrected).value).toBeCloseTo(45 - 0.54, 10);
});

test("an effect that a correction cannot take off well enough is measured again", () => {
  expect(consequence(45, 0.01, "2026-05-04")!.action).toBe("retest");
  expect(consequence(45, 0.01, "2026-05-04")!.reason).toContain("times as large");
});

test("before the first failed check half of the shift is taken off, and whether it was there becomes uncertainty", () => {
  const found = consequence(45, 0.3, "2026-04-22")!;
  expect(found.standing).toBe("may be shifted");
  const corrected = present(found.corrected);
  expect(corrected.value).toBeCloseTo(45 - 0.27, 10);
  expect(present(found.correction).value).toBeCloseTo(-0.27, 10);
  const onset = corrected.components.find(({ source }) => source.id.endsWith("/onset"))!;
  expect(Math.abs(onset.contribution)).toBeCloseTo(0.27, 10);
});

test("what is printed adds up: the result and the correction beside it make the corrected result, in value and uncertainty", () => {
  for (const day of ["2026-04-22", "2026-05-04"]) {
    const { result, correction, corrected } = consequence(45, 0.3, day)!;
    const added = present(sum(result, correction));
    expect(present(corrected).value).toBeCloseTo(added.value, 12);
    expect(present(corrected).u).toBeCloseTo(added.u, 12);
    expect(present(correction).value).toBeCloseTo(day === "2026-04-22" ? -0.27 : -0.54, 10);
  }
});

test("a correction covers the truth whether or not the shift was there yet (2000 seeded runs)", () => {
  const random = seededRandom(32);
  let covered = 0;
  for (let run = 0; run < 2000; run++) {
    const began = random.uniform() < 0.5;
    const truth = 45;
    const value = truth * (began ? 1.012 : 1) + 0.3 * random.normal();
    const corrected = present(consequence(value, 0.3, "2026-04-22")!.corrected);
    if (Math.abs(corrected.value - truth) <= expand(corrected).U) covered++;
  }
  expect(covered / 2000).toBeGreaterThan(0.93);
});

test("results outside the span are left out, those of its end days are not", () => {
  expect(consequence(45, 0.5, "2026-04-19")).toBeUndefined();
  expect(consequence(45, 0.5, "2026-05-19")).toBeUndefined();
  expect(consequence(45, 0.5, "2026-04-20")).toBeDefined();
  expect(consequence(45, 0.5, "2026-05-18T23:00:00Z")).toBeDefined();
});

test("an unknown effect is measured again, a missing result needs no action, another unit of measure is refused", () => {
  const span = { from: null, until: null, firstFailed: "2026-04-27" };
  const common = { date: () => "2026-05-04", span, id: "x" };
  const unknown = driftConsequences([1], {
    ...common,
    result: () => own("r", 45, 1),
    effect: () => absent("no check says"),
  });
  expect(unknown[0]).toMatchObject({ action: "retest", share: null });
  const missing = driftConsequences([1], { ...common, result: () => absent("few keys"), effect: () => quantity(1) });
  expect(missing[0]!.action).toBe("no action");
  expect(() =>
    driftConsequences([1], { ...common, result: () => own("r", 45, 1), effect: () => quantity(1, [], "mm") }),
  ).toThrow(/mm/);
  expect(() =>
    driftConsequences([1], { ...common, result: () => own("r", 45, 1), effect: () => quantity(1), negligible: NaN }),
  ).toThrow(/negligible/);
});
