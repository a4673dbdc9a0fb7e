import { expect, test } from "vitest";
import { commonPlaces, tablePlaces } from "../../src/dossier/column-places.js";
import { numberText } from "../../src/dossier/render-number.js";
import { table } from "../../src/figures/index.js";
import { Quantity, evidenceStep } from "../../src/metrology/index.js";
import type { Evidence } from "../../src/metrology/index.js";

const rows: Evidence = { kind: "rows", file: "units/u01/unit.yaml", firstLine: 3, lastLine: 3, columns: [] };
const computed = (value: number): Quantity => new Quantity(value, "cN", [], evidenceStep(`value ${value}`, [rows]));

test("numbers of one column have one number of decimals, and no zero that all would end with", () => {
  expect(commonPlaces([45.1, 44.94])).toBe(2);
  expect(commonPlaces([45, 44])).toBe(0);
  expect(commonPlaces([0.03, -0.01, 0])).toBe(2);
  expect(commonPlaces([101.23, 99.941])).toBe(1);
  expect(commonPlaces([0, 0.05, 1], 6)).toBe(2);
});

test("a column whose numbers differ too much in size has none in common, nor has one of zeros", () => {
  expect(commonPlaces([123.4, 0.001234])).toBeNull();
  expect(commonPlaces([0, 0])).toBeNull();
  expect(commonPlaces([])).toBeNull();
});

test("columns that show the terms of a sum have the decimals of its finest, also where a whole column is rounder", () => {
  const cells = { old: computed(42.5), step: computed(-0.03), now: computed(42.47), round: computed(0) };
  const places = tablePlaces(
    table(
      ["old", "step", "round", "now"].map((key) => ({ key, label: key, symbol: "cN", show: "value" as const })),
      [cells],
      { finding: "A sum." },
    ),
  );
  const printed = Object.values(cells).map((number) => numberText(number, { places: places.get(number)! }));
  expect(printed).toEqual(["42.50\u00a0cN", "\u22120.03\u00a0cN", "42.47\u00a0cN", "0.00\u00a0cN"]);
});

test("what a file states, and what has an uncertainty, keeps the digits that it has", () => {
  const source = { id: "s", label: "s", type: "A", distribution: "normal", dof: Infinity } as const;
  const stated = new Quantity(35, "cN", [], rows);
  const known = new Quantity(35.123, "cN", [{ source, contribution: 1 } as never], evidenceStep("mean", [rows]));
  const cells = [stated, known, computed(35.25)];
  const places = tablePlaces(
    table(
      [{ key: "of", label: "Of" }],
      cells.map((of) => ({ of })),
      { finding: "Three." },
    ),
  );
  expect(cells.map((number) => places.get(number))).toEqual([undefined, undefined, 2]);
});
