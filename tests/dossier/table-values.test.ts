import { expect, test } from "vitest";
import type { TableValue } from "../../src/figures/table.js";
import { table } from "../../src/figures/table.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Count, Quantity } from "../../src/metrology/quantity.js";
import { rowLabels } from "../../src/dossier/table-values.js";

const q = new Quantity(4.5, "cN", [], evidenceStep("test", []));
const labels = (...rows: readonly (readonly TableValue[])[]): readonly string[] =>
  rowLabels(
    table(
      rows[0]!.map((_, index) => ({ key: `c${index}`, label: "C" })),
      rows.map((row) => Object.fromEntries(row.map((value, index) => [`c${index}`, value]))),
      { finding: "F." },
    ),
  );

test("a row is named by its first text where that tells the rows apart", () => {
  expect(labels(["u01", "linear", q], ["u02", "linear", q])).toEqual(["u01", "u02"]);
});

test("where it does not, by as many texts and counts before the first quantity as it takes", () => {
  expect(labels(["usb", new Count(1), "a", q], ["usb", new Count(2), "a", q])).toEqual(["usb, 1", "usb, 2"]);
  expect(labels(["usb", "a", q], ["usb", "a", q])).toEqual(["usb, a", "usb, a"]);
});

test("a row that begins with a quantity is named by its place", () => {
  expect(labels([q, "a"], [q, "b"])).toEqual(["row 1 (4.5\u00a0cN)", "row 2 (4.5\u00a0cN)"]);
  expect(labels([null, q])).toEqual(["row 1"]);
});
