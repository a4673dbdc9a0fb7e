import { expect, test } from "vitest";
import { chartData } from "../../src/figures/chart-data.js";
import { chart, type ChartDescription } from "../../src/figures/chart.js";
import { Absent } from "../../src/metrology/quantity.js";
import { measured } from "../../tools/figure-sheet/sample-keys.js";

const look: ChartDescription = {
  marks: [],
  x: { label: "Displacement", symbol: "mm" },
  y: { label: "Force", symbol: "cN" },
};
const data = { columns: [{ name: "x", label: "x" }], rows: [[1]] };
const says = { finding: "The force grows.", data };

test("a chart is a plain frozen description", () => {
  const made = chart(look, says);
  expect(made).toEqual({ kind: "chart", ...look, ...says });
  expect(Object.isFrozen(made)).toBe(true);
});

test("an unknown option is refused with the nearest known one", () => {
  expect(() => chart({ ...look, heigth: 3 } as never, says)).toThrow(/no option "heigth"; did you mean "height"/);
  expect(() => chart({ ...look, x: { lable: "x" } } as never, says)).toThrow(
    /x axis has no option "lable"; did you mean "label"/,
  );
  expect(() => chart(look, { ...says, findings: "x" } as never)).toThrow(/did you mean "finding"/);
  expect(() => chart({ ...look, extra: { style: "x" } }, says)).toThrow(/no option "style"/);
});

test("a chart without a finding, data, axes or their labels is refused", () => {
  expect(() => chart(look, { data } as never)).toThrow(/needs a `finding`/);
  expect(() => chart(look, { ...says, finding: "  " })).toThrow(/needs a `finding`/);
  expect(() => chart(look, { finding: "x" } as never)).toThrow(/needs `data`/);
  expect(() => chart({ marks: [], x: look.x } as never, says)).toThrow(/needs a y axis/);
  expect(() => chart({ ...look, y: { label: " " } }, says)).toThrow(/y axis needs a label/);
  expect(() => chart({ ...look, y: { label: "y", ticks: [1, 2], tickLabels: ["a"] } }, says)).toThrow(
    /1 tick labels but 2 ticks/,
  );
  expect(() => chart({ ...look, height: NaN }, says)).toThrow(/height is NaN/);
});

test("a row of another length, a number that is not finite and a mixed unit of measure are refused", () => {
  const rows = (...cells: unknown[]) =>
    ({ finding: "x.", data: { columns: [{ name: "f", label: "f", symbol: "cN" }], rows: [cells] } }) as never;
  expect(() => chart(look, rows(1, 2))).toThrow(/row 1 .* has 2 cells for 1 columns/);
  expect(() => chart(look, rows(NaN))).toThrow(/column "f" .* is NaN/);
  expect(() => chart(look, rows(undefined))).toThrow(/is undefined/);
  expect(() => chart(look, rows(measured(1, "mm", 0.1, "q")))).toThrow(/is in mm, but the column is in cN/);
  expect(chart(look, rows(new Absent("cN", "none")))).toBeDefined();
});

test("the table of a chart reads one row an item and keeps its symbols", () => {
  const made = chartData(
    [{ a: 1 }, { a: 2 }],
    [{ name: "a", label: "A", symbol: "mm", value: (item) => item.a }],
    "every one",
  );
  expect(made).toEqual({ columns: [{ name: "a", label: "A", symbol: "mm" }], rows: [[1], [2]], note: "every one" });
  expect(chartData([], [{ name: "a", label: "A", value: () => 1 }]).rows).toEqual([]);
});
