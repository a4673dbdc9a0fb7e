import { expect, test } from "vitest";
import { enNumber } from "../../src/comparison/index.js";
import { coverageFactor } from "../../src/metrology/index.js";
import { expectPublished, publishedEntry } from "../reference/load.js";
import { own, quantity } from "./support.js";

test("without shared sources it is the E_n number (no published example with data; the stored one is a closed form)", () => {
  const entry = publishedEntry("proficiency-consensus.json", "en-zeta-pb");
  const { x, U, referenceIndex } = entry.input as { x: number[]; U: number[]; referenceIndex: number };
  const k = coverageFactor(Infinity);
  const results = x.map((value, i) => own(`lab ${i}`, value, U[i]! / k));
  const reference = own("reference", x[referenceIndex]!, U[referenceIndex]! / k);
  const found = results.map((result) => enNumber(reference, result));
  expectPublished(
    entry,
    "En",
    found.map(({ value }) => value),
  );
  expect(found.map(({ agrees }) => agrees)).toEqual(found.map(({ value }) => Math.abs(value) <= 1));
  expect(found.every(({ rule }) => rule === "independent")).toBe(true);
});

test("with a shared source it is the difference over its own U, in which that source has cancelled", () => {
  const rig = { id: "rig", u: 3 };
  const found = enNumber(quantity(10, [rig]), quantity(11, [rig, { id: "own", u: 0.25 }]));
  expect(found.rule).toBe("shared");
  expect(found.value).toBeCloseTo(1 / (coverageFactor(Infinity) * 0.25), 12);
  expect(found.agrees).toBe(false);
});

test("which of the two has the uncertainty does not matter, but one must", () => {
  expect(enNumber(own("a", 1, 0.5), quantity(2)).value).toBeCloseTo(-enNumber(quantity(2), own("a", 1, 0.5)).value, 12);
  expect(() => enNumber(quantity(1), quantity(2))).toThrow(/above 0/);
});
