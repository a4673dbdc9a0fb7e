import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { renderCsv } from "../../../src/figures/drawing/csv.js";
import { Absent } from "../../../src/metrology/quantity.js";
import { expand } from "../../../src/metrology/expanded.js";
import { measured } from "../../../tools/figure-sheet/sample-keys.js";

const q = measured(45.25, "cN", 0.5, "a");

test("a measured column becomes the value, its U and, where one is missing, the reason", () => {
  const csv = renderCsv({
    columns: [
      { name: "key", label: "Key" },
      { name: "force", label: "Force", symbol: "cN" },
    ],
    rows: [
      ["KeyA", q],
      ["KeyP", new Absent("cN", "no peak, none at all")],
      ["KeyE", 12.5],
      ["KeyF", null],
    ],
  });
  expect(parse(csv)).toEqual([
    ["key", "force_cN", "force_U_cN", "force_absent"],
    ["KeyA", "45.25", String(expand(q).U), ""],
    ["KeyP", "", "", "no peak, none at all"],
    ["KeyE", "12.5", "", ""],
    ["KeyF", "", "", ""],
  ]);
});

test("lines end with CRLF, and commas, quotes and line breaks survive a reader", () => {
  const rows = [['a "quoted", text'], ["two\nlines"], ["plain"]];
  const csv = renderCsv({ columns: [{ name: "t", label: "t" }], rows });
  expect(csv.endsWith("\r\n")).toBe(true);
  expect(parse(csv).slice(1)).toEqual(rows);
});

test("text that a spreadsheet would run as a formula is led by an apostrophe; negative numbers are not", () => {
  const csv = renderCsv({ columns: [{ name: "t", label: "t" }], rows: [["=cmd()"], ["+1"], ["@a"], ["-x"], [-1.5]] });
  expect(parse(csv).flat()).toEqual(["t", "'=cmd()", "'+1", "'@a", "'-x", "-1.5"]);
});

test("units of measure stand in the column names as plain words", () => {
  const columns = ["cN/mm", "%", "µm", "cN²", "1", "°C"].map((symbol) => ({ name: "v", label: "v", symbol }));
  expect(renderCsv({ columns, rows: [] }).trim()).toBe("v_cN_per_mm,v_percent,v_um,v_cN2,v,v_degC");
});

test("a table without rows has its head alone", () => {
  expect(
    renderCsv({
      columns: [
        { name: "a", label: "a" },
        { name: "b", label: "b" },
      ],
      rows: [],
    }),
  ).toBe("a,b\r\n");
});
