import { expect, test } from "vitest";
import { forceCurve } from "../../../src/figures/kinds/force-curve.js";
import { Quantity } from "../../../src/metrology/quantity.js";
import { sampleKeys } from "../../../tools/figure-sheet/sample-keys.js";
import { none, plain } from "./shared.js";

const tactile = sampleKeys("tactile");
const linear = sampleKeys("linear");

test("the finding quotes the drawn cycle's points, and says how far the peak stands above the valley", () => {
  expect(plain(forceCurve(tactile, { key: "KeyF" }).finding)).toMatch(
    /^KeyF, cycle 2 of 3, actuates at [\d.]+ mm and [\d.]+ cN, resets at [\d.]+ mm and [\d.]+ cN and bottoms out at [\d.]+ mm and [\d.]+ cN; its tactile peak of [\d.]+ cN lies at [\d.]+ mm, [\d.]+ cN above the valley after it\.$/,
  );
});

test("a linear key has no peak, and the reason is said", () => {
  const made = forceCurve(linear, { key: "KeyF" });
  expect(made.finding).toContain("no tactile peak (no local peak of at least 3 cN before actuation)");
  expect(made.data.rows.slice(0, 3).map((row) => row[0])).toEqual(["actuation", "reset", "bottom-out"]);
});

test("the table lists the marked points as measured, then every curve, thinned as its note says", () => {
  const made = forceCurve(tactile, { key: "KeyF" });
  const points = made.data.rows.filter((row) => row[2] instanceof Quantity);
  expect(points.map((row) => row[0])).toEqual(["actuation", "reset", "tactile peak", "bottom-out", "valley"]);
  expect(points[0]![2]).toBe(tactile[2]!.cycles[1]!.characteristics.preTravel);
  expect(new Set(made.data.rows.map((row) => row[1])).size).toBe(8);
  expect(made.data.rows.length).toBeLessThan(450);
  expect(made.data.note).toMatch(/every \d+(st|nd|rd|th) stored point/);
});

test("the other keys can be left out", () => {
  const made = forceCurve(tactile, { key: "KeyF", others: false });
  expect(new Set(made.data.rows.map((row) => row[1]))).toEqual(new Set(["KeyF"]));
  expect(made.note).not.toContain("Faint");
});

test("a stroke that was not recorded is said, and no loss is claimed", () => {
  const keys = tactile.map((key) => ({
    ...key,
    cycles: key.cycles.map((cycle) => ({ ...cycle, curve: { press: cycle.curve.press, release: [] } })),
  }));
  const made = forceCurve(keys, { key: "KeyF" });
  expect(made.note).toContain("No release stroke was recorded.");
  expect(made.note).not.toContain("work lost");
});

test("a point that could not be located is neither drawn nor claimed", () => {
  const keys = tactile.map((key) => ({
    ...key,
    cycles: key.cycles.map((cycle) => ({
      ...cycle,
      characteristics: {
        ...cycle.characteristics,
        preTravel: none("no contact", "mm"),
        actuationForce: none("no contact"),
      },
    })),
  }));
  const made = forceCurve(keys, { key: "KeyF" });
  expect(made.finding).not.toContain("actuates");
  expect(made.data.rows.map((row) => row[0])).not.toContain("actuation");
});

test("a key without a press stroke gives words, and one that is not there the nearest that is", () => {
  const keys = tactile.map((key) => ({ ...key, cycles: [] }));
  expect(forceCurve(keys, { key: "KeyF" }).empty).toBe("KeyF has no press stroke to draw.");
  expect(() => forceCurve(tactile, { key: "KeyG" })).toThrow(/no key "KeyG"; did you mean "Key[A-Z]"/);
  expect(() => forceCurve([], { key: "KeyG" })).toThrow(/no keys to choose/);
  expect(() => forceCurve(tactile, { key: "KeyF", other: true } as never)).toThrow(/did you mean "others"/);
});

test("forces far beyond the end of the travel are cut off, and the note says so", () => {
  const keys = tactile.map((key) => ({
    ...key,
    cycles: key.cycles.map((cycle) => ({
      ...cycle,
      curve: { ...cycle.curve, press: [...cycle.curve.press, [3.8, 400] as const] },
    })),
  }));
  const made = forceCurve(keys, { key: "KeyF" });
  expect(made.y.domain![1]).toBeLessThan(100);
  expect(made.note).toContain("Forces beyond the end of the travel are cut off.");
});
