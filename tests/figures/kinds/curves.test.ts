import { expect, test } from "vitest";
import { curveFamily } from "../../../src/figures/kinds/curve-family.js";
import { smallMultiples } from "../../../src/figures/kinds/small-multiples.js";
import { plain } from "./shared.js";

const axes = { x: { label: "Displacement", symbol: "mm" }, y: { label: "Force", symbol: "cN" } };
const line = (unit: string, slope: number, to = 4) => ({
  unit,
  points: Array.from({ length: 200 }, (_, i) => [(to * i) / 199, (slope * to * i) / 199] as const),
});
const units = [line("u1", 10), line("u2", 12), line("u3", 11)];

test.each([curveFamily, smallMultiples] as const)(
  "curves are read at the middle of what all cover, or where asked",
  (figure) => {
    expect(plain(figure(units, (unit) => unit.points, axes).finding)).toBe(
      "At 2 mm the 3 units lie between 20.0 cN (u1) and 24.0 cN (u2).",
    );
    expect(plain(figure(units, (unit) => unit.points, { ...axes, at: 1 }).finding)).toContain(
      "At 1 mm the 3 units lie between 10.0 cN",
    );
  },
);

test.each([curveFamily, smallMultiples] as const)(
  "an item without a curve is named, and without any there are words",
  (figure) => {
    const made = figure([...units, { unit: "u4", points: [] }], (unit) => unit.points, axes);
    expect(made.finding).toContain("; no curve for u4.");
    expect(figure([{ unit: "u4" }], () => [], axes).empty).toBe("No unit has a curve to draw.");
    expect(figure([] as { unit: string }[], () => [], { ...axes, noun: "unit" }).empty).toBe(
      "There are no units to show.",
    );
  },
);

test.each([curveFamily, smallMultiples] as const)(
  "a coordinate that is no number, and an unknown option, are refused",
  (figure) => {
    expect(() =>
      figure(
        units,
        () => [
          [0, 1],
          [1, NaN],
        ],
        axes,
      ),
    ).toThrow(/point 2 of u1/);
    expect(() => figure(units, (unit) => unit.points, { ...axes, hilight: "u1" } as never)).toThrow(
      /no option "hilight"/,
    );
  },
);

test("the table of long curves is thinned, and says by how much", () => {
  const made = curveFamily(units, (unit) => unit.points, axes);
  expect(made.data.rows.length).toBeLessThanOrEqual(366);
  expect(made.data.note).toMatch(/every 2nd stored point/);
});

test("a curve to highlight must be there", () => {
  expect(() => curveFamily(units, (unit) => unit.points, { ...axes, highlight: "u7" })).toThrow(
    /no curve "u7" to highlight; did you mean "u1"/,
  );
});

test("curves that share no stretch are not compared", () => {
  const apart = [
    {
      unit: "u1",
      points: [
        [0, 1],
        [1, 2],
      ] as const,
    },
    {
      unit: "u2",
      points: [
        [2, 1],
        [3, 2],
      ] as const,
    },
  ];
  expect(curveFamily(apart, (unit) => unit.points, axes).finding).toBe(
    "The 2 curves share no stretch of the horizontal axis.",
  );
});

test("panels stand in 1 to 6 columns", () => {
  expect(() => smallMultiples(units, (unit) => unit.points, { ...axes, columns: 7 })).toThrow(/7 columns/);
  expect(() => smallMultiples(units, (unit) => unit.points, { ...axes, columns: 1.5 })).toThrow(/1.5 columns/);
});

test.each([curveFamily, smallMultiples] as const)(
  "curves that rise beyond the highest drawn are cut off there, and the note says so",
  (figure) => {
    const made = figure(units, (unit) => unit.points, { ...axes, highest: 42 });
    expect(made.y.domain).toEqual([0, 42]);
    expect(plain(made.note!)).toContain("Cut off at 42 cN.");
    expect(figure(units, (unit) => unit.points, { ...axes, highest: 99 }).note ?? "").not.toContain("Cut off");
  },
);
