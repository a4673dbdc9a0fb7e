import { expect, test } from "vitest";
import { budgetBars } from "../../../src/figures/kinds/budget-bars.js";
import { controlChart } from "../../../src/figures/kinds/control-chart.js";
import { coverageStrip } from "../../../src/figures/kinds/coverage-strip.js";
import { effortCurve } from "../../../src/figures/kinds/effort-curve.js";
import { keyboardMap } from "../../../src/figures/kinds/keyboard-map.js";
import { varianceBars } from "../../../src/figures/kinds/variance-bars.js";
import { drawChart } from "../../../src/figures/draw.js";
import { evidenceStep } from "../../../src/metrology/evidence.js";
import { Quantity } from "../../../src/metrology/quantity.js";
import { normalSource } from "../../../src/metrology/source.js";
import { none, plain, q } from "./shared.js";

const component = (label: string, value: number, low: number | null, high: number | null) => ({
  label,
  variance: q(value, 0, "cN²"),
  low,
  high,
});
const bars = (...parts: ReturnType<typeof component>[]): string =>
  plain(varianceBars(parts, (part) => part, { of: "Actuation force" }).finding);

test("the largest component is said to exceed the next only where their intervals lie apart", () => {
  expect(bars(component("Key", 4, 3, 6), component("Unit", 1, 0.2, 2))).toBe(
    "Key has the largest estimate, 80 % of the sum (sd 2.0 cN); its interval lies above that of the next, Unit.",
  );
  expect(bars(component("Key", 4, 3, 6), component("Unit", 3, 1, 9))).toContain(
    "its interval meets that of the next, Unit: the chart does not show which is larger",
  );
  expect(bars(component("Key", 4, null, 6), component("Unit", 3, 1, 9))).toContain(
    "does not show that it exceeds the next",
  );
});

test("variances beside each other have no sum to share, and the least is spoken of", () => {
  const made = (...parts: ReturnType<typeof component>[]) =>
    varianceBars(parts, (part) => part, { of: "Results", noun: "method", as: "alone" });
  const apart = made(component("one", 4, 3, 6), component("two", 1, 0.5, 2));
  expect(plain(apart.finding)).toBe(
    "two scatters least, sd 1.0 cN, and one most, sd 2.0 cN; its interval lies below that of every other method.",
  );
  expect(apart.data.columns.map(({ name }) => name)).not.toContain("share");
  expect(made(component("one", 4, 3, 6), component("two", 3, 1, 9)).finding).toContain(
    "does not show that it is the least",
  );
});

test("a negative estimate is drawn as 0, printed beside it and counted as 0", () => {
  const made = varianceBars([component("Key", 4, 3, 6), component("Operator", -0.08, null, 0.4)], (part) => part, {
    of: "Force",
  });
  expect(made.finding).toContain("1 component with a negative estimate counts as 0");
  expect(made.data.rows[1]).toEqual(["Operator", -0.08, null, 0.4, 0, 0]);
  expect(bars(component("Key", -1, null, 2))).toBe(
    "Every estimate is 0 or below; 1 component with a negative estimate counts as 0.",
  );
});

test("components without estimates are named; a reversed interval and mixed units of measure are refused", () => {
  const absent = { label: "Unit", variance: none("one unit of the model", "cN²"), low: null, high: null };
  expect(varianceBars([absent], (part) => part, { of: "Force" }).empty).toBe(
    "Not available: Unit (one unit of the model).",
  );
  expect(() => bars(component("Key", 4, 6, 3))).toThrow(/interval of Key .* runs from 6 to 3/);
});

const budget = (...parts: [string, number][]): Quantity =>
  new Quantity(
    45,
    "cN",
    parts.map(([label, u]) => ({ source: normalSource(label, label, u, "cN"), contribution: u })),
    evidenceStep("test", []),
  );

test("the budget says which line weighs most, and how many make nine tenths", () => {
  expect(plain(budgetBars(budget(["Span", 3], ["Zero", 4], ["Noise", 0.1])).finding)).toBe(
    "Of u² of (45.0 ± 9.8) cN, 64 % comes from “Zero”; the 2 largest of 3 lines make 100 %.",
  );
  expect(plain(budgetBars(budget(["Span", 3])).finding)).toBe(
    "all of the uncertainty of (45.0 ± 5.9) cN comes from “Span”.",
  );
});

test("small lines are gathered in the drawing, and stay apart in the table", () => {
  const many = budget(...Array.from({ length: 12 }, (_, index): [string, number] => [`line ${index}`, 12 - index]));
  const made = budgetBars(many, { most: 3 });
  expect(made.y.ticks).toHaveLength(5);
  expect(made.data.rows).toHaveLength(12);
  expect(() => budgetBars(many, { most: 0 })).toThrow(/draw 0 lines/);
});

test("an absent quantity, and one without uncertainty, have no budget, in words", () => {
  expect(budgetBars(none("no peak")).empty).toBe("There is no value, and so no budget: no peak.");
  expect(plain(budgetBars(q(45, 0)).empty!)).toBe("45 cN states no uncertainty, so there is no budget to show.");
});

const checks = (...values: number[]) =>
  values.map((value, index) => ({ at: `2026-0${index + 1}-05`, value: q(value, 0.2, "cN", `c${index}`) }));
const action = { min: { value: 49, symbol: "cN" }, max: { value: 51, symbol: "cN" } };

test("checks beyond an action limit signal, as do those the caller names, and the last check is spoken of", () => {
  expect(plain(controlChart(checks(50, 51.5, 50.1), (check) => check, { of: "Force", action }).finding)).toBe(
    "3 checks from 2026-01-05 to 2026-03-05: 1 signals (2026-02-05, 51.50 cN, beyond action limit); the last, 2026-03-05, does not.",
  );
  const trend = controlChart(
    checks(50, 50.2, 50.4),
    (check) => ({ ...check, signal: check.at === "2026-03-05" ? "rising three times" : "" }),
    { of: "Force", action },
  );
  expect(plain(trend.finding)).toContain("1 signals (2026-03-05, 50.40 cN, rising three times); the last one does.");
});

test("limits far smaller than the value are told apart in print, and ± U is explained where it is drawn alone", () => {
  const at = (value: number) => ({ value, symbol: "1" });
  const limits = (width: number) => ({ min: at(-width), max: at(width) });
  const made = controlChart(
    [0.3e-4, -0.2e-4].map((value, index) => ({ at: `2026-0${index + 1}-05`, value: q(value, 0, "1") })),
    (check) => check,
    { of: "Clock", centre: at(0), action: limits(3.6512345 * 1.95e-5), warning: limits(2 * 1.95e-5) },
  );
  const words = drawChart(made, "f", { title: "T" }).svg;
  for (const text of ["centre 0", "action 0.000071", "action \u22120.000071", "warning 0.000039"]) {
    expect(words).toContain(`>${text}<`);
  }
  expect(made.note).toBe("");
  expect(controlChart(checks(50), (check) => check, { of: "Force" }).note).toBe("Upright lines: ± U.");
});

test("signals of one kind are named by their day, the kind once below, and no limit runs through a name", () => {
  const made = controlChart(checks(50, 51.1, 51.6, 51.2, 50), (check) => check, { of: "Force", action });
  expect(made.note).toContain("Diamonds: beyond action limit.");
  const { svg } = drawChart(made, "f", { title: "T" });
  const limit = Number(/stroke-dasharray="6 3"><line[^>]* y1="([\d.]+)"/.exec(svg)![1]);
  const days = [...svg.matchAll(/<text [^>]*y="([\d.]+)"[^>]*>2026-0[234]-05<\/text>/g)].map((found) =>
    Number(found[1]),
  );
  expect(days.length).toBeGreaterThanOrEqual(3);
  for (const baseline of days) expect(limit < baseline - 10 || limit > baseline + 1).toBe(true);
});

test("a chart without limits judges nothing, and one without signals says so", () => {
  expect(controlChart(checks(50), (check) => check, { of: "Force" }).finding).toBe(
    "1 check on 2026-01-05: without limits to judge by.",
  );
  expect(controlChart(checks(50, 50), (check) => check, { of: "Force", action }).finding).toContain(": none signals.");
});

test("checks are drawn by date, absent ones are named, dates must be ISO", () => {
  const made = controlChart([...checks(50, 51)].reverse(), (check) => check, { of: "Force" });
  expect(made.data.rows.map((row) => row[0])).toEqual(["2026-01-05", "2026-02-05"]);
  const absent = controlChart(
    [{ at: "2026-01-05" }, ...checks(50)],
    (check) => ("value" in check ? check : { at: check.at, value: none("cell failed") }),
    { of: "Force" },
  );
  expect(absent.finding).toContain("without a value: 2026-01-05");
  expect(controlChart([], () => ({ at: "", value: q(1, 1) }), { of: "Force" }).empty).toBe("No check was recorded.");
  expect(() => controlChart([1], () => ({ at: "5 Jan", value: q(1, 1) }), { of: "Force" })).toThrow(/ISO date/);
  expect(() => controlChart(checks(50), (check) => check, { of: "Force", centre: { value: 1, symbol: "N" } })).toThrow(
    /limit is in N/,
  );
});

test("the keyboard map names the key furthest from the median, and counts what was not measured", () => {
  const keys = ["KeyA", "KeyE", "KeyP"].map((key, index) => ({ key, value: q([45, 46, 52][index]!, 0.5, "cN", key) }));
  const made = keyboardMap(keys, (key) => key.value, {
    of: "Actuation force",
    limits: { max: { value: 50, symbol: "cN" } },
  });
  expect(plain(made.finding)).toBe(
    "KeyP reads 52.00 cN, 6.00 cN above the median of the 3 keys, 46.00 cN; 2 of 3 keys lie inside at most 50 cN, 1 outside (KeyP).",
  );
  expect(made.note).toContain("Strong frame: outside the limits.");
  expect(made.note).toContain("23 alphabetic keys not measured.");
});

test("a key given twice is refused, one that the layout lacks is named, none measured gives words", () => {
  const value = () => q(45, 0.5);
  expect(() => keyboardMap([{ key: "KeyA" }, { key: "KeyA" }], value, { of: "Force" })).toThrow(/got KeyA twice/);
  expect(
    keyboardMap([{ key: "KeyA" }, { key: "F13" }], (key) => q(45, 0.5, "cN", key.key), { of: "Force" }).note,
  ).toContain("Not on the drawn keyboard: F13.");
  expect(keyboardMap([], value, { of: "Force" }).empty).toBe("No key was measured.");
  expect(keyboardMap([{ key: "KeyA" }], () => none("no contact"), { of: "Force" }).empty).toBe(
    "Not available: KeyA (no contact).",
  );
});

const ways = [
  {
    label: "more keys",
    plans: [
      { effort: 30, uncertainty: 1.1, plan: "8 keys" },
      { effort: 10, uncertainty: 3.2, plan: "1 key" },
    ],
  },
];

test("the effort curve names the cheapest plan that reaches the target, or that none does", () => {
  const says = (target?: number): string =>
    plain(
      effortCurve(ways, (way) => way.plans, {
        of: "U",
        symbol: "cN",
        ...(target === undefined ? {} : { target: { value: target, symbol: "cN" } }),
      }).finding,
    );
  expect(says()).toBe("more keys: from 3.2 cN for 10 min (1 key) to 1.1 cN for 30 min (8 keys).");
  expect(says(1.5)).toMatch(/^Of the plans shown, 8 keys \(more keys\) reaches 1.5 cN with the least effort, 30 min;/);
  expect(says(0.5)).toMatch(/^No plan shown reaches 0.5 cN;/);
});

test("of plans that cost the same the effort curve names every one", () => {
  const equal = ["a", "b"].map((label) => ({ label, plans: [{ effort: 21, uncertainty: 1, plan: "1\u00d7" }] }));
  const made = effortCurve(equal, (way) => way.plans, { of: "U", symbol: "ms", target: { value: 2.5, symbol: "ms" } });
  expect(plain(made.finding)).toMatch(
    /^Of the plans shown, 1\u00d7 \(a\) and 1\u00d7 \(b\) reach 2.5 ms with the least effort/,
  );
});

test("the effort curve names what is wanted and what no effort lowers in its margin, off every line", () => {
  const at = (value: number) => ({ value, symbol: "cN" });
  const made = effortCurve(ways, (way) => way.plans, { of: "U", symbol: "cN", target: at(3), floor: at(0.7) });
  expect(plain(made.finding)).toMatch(/; no plan of these ways gets below 0.7 cN\.$/);
  const { svg } = drawChart(made, "f", { title: "T" });
  const edge = Number(/<line[^>]*stroke-linecap="square"[^>]* x2="([\d.]+)"/.exec(svg)![1]);
  for (const text of ["wanted 3", "floor 0.7"]) {
    expect(Number(new RegExp(`<text x="([\\d.]+)"[^>]*>${text}<`).exec(svg)![1])).toBeGreaterThan(edge);
  }
  expect(() =>
    effortCurve(ways, (way) => way.plans, { of: "U", symbol: "cN", floor: { value: 1, symbol: "N" } }),
  ).toThrow(/floor is in N/);
});

test("both axes of the effort curve start at zero; negative effort and five ways are refused", () => {
  const made = effortCurve(ways, (way) => way.plans, { of: "U", symbol: "cN" });
  expect([made.x.domain![0], made.y.domain![0]]).toEqual([0, 0]);
  expect(() =>
    effortCurve([{ label: "a" }], () => [{ effort: -1, uncertainty: 1, plan: "p" }], { of: "U", symbol: "cN" }),
  ).toThrow(/at least 0/);
  expect(() =>
    effortCurve(
      [1, 2, 3, 4, 5].map((n) => ({ label: `${n}` })),
      () => [],
      { of: "U", symbol: "cN" },
    ),
  ).toThrow(/at most 4/);
  expect(effortCurve([], () => [], { of: "U", symbol: "cN" }).empty).toBe("There are no ways to compare.");
});

test("coverage counts every state, names the few, and refuses an unknown state with the nearest", () => {
  const units = ["retested", "retested", "pending"].map((state, index) => ({ unit: `u${index + 1}`, state }));
  const states = ["retested", "pending", "withdrawn"];
  expect(coverageStrip(units, (unit) => unit.state, { states }).finding).toBe(
    "Of 3 units, 2 retested, 1 pending, 0 withdrawn; pending: u3.",
  );
  expect(() => coverageStrip(units, () => "retestd", { states })).toThrow(
    /no state "retestd"; did you mean "retested"/,
  );
  expect(() => coverageStrip(units, () => "a", { states: [] })).toThrow(/0 states/);
  expect(coverageStrip([], () => "a", { states, noun: "unit" }).empty).toBe("There are no units to show.");
});
