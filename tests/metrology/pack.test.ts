import fc from "fast-check";
import { expect, test } from "vitest";
import { pack, unpack } from "../../src/metrology/pack.js";
import type { Packed } from "../../src/metrology/pack.js";
import { Absent, Count, Quantity, derive, evidenceStep, normalSource } from "../../src/metrology/index.js";
import type { Evidence } from "../../src/metrology/index.js";

const rows: Evidence = {
  kind: "rows",
  file: "units/u01/s1/force.csv",
  firstLine: 2,
  lastLine: 9,
  columns: ["force_cN"],
};
const roundTrip = (value: unknown): unknown => unpack(JSON.parse(JSON.stringify(pack(value))) as Packed);

test("quantities, absences, counts and evidence come back equal", () => {
  const q = new Quantity(1.25, "mm", [{ source: normalSource("a", "A", 0.1, "mm", 7), contribution: -0.1 }], rows);
  const value = { list: [q, new Absent("cN", "no bump", rows)], n: new Count(3, rows), rows, text: "x", none: null };
  expect(roundTrip(value)).toEqual(value);
});

test("a shared evidence node and a shared source stay shared", () => {
  const source = normalSource("rig/span", "Span", 0.2, "cN");
  const a = new Quantity(1, "cN", [{ source, contribution: 0.2 }], rows);
  const b = new Quantity(2, "cN", [{ source, contribution: 0.2 }], evidenceStep("mean", [rows]));
  const [x, y] = roundTrip([a, b]) as [Quantity, Quantity];
  expect((y.evidence as unknown as { inputs: Evidence[] }).inputs[0]).toBe(x.evidence);
  const difference = derive([x, y], ([p, q]) => q - p, "cN");
  expect(!difference.absent && difference.u).toBeLessThan(1e-12);
});

test("what is no plain data is refused with its path", () => {
  expect(() => pack({ a: [new Map()] })).toThrow(/an instance of Map at value\.a\[0\]/);
  expect(() => pack({ a: NaN })).toThrow(/NaN at value\.a/);
  expect(() => pack({ a: () => 1 })).toThrow(/a function at value\.a/);
});

test("any JSON value survives", () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      const clean = JSON.parse(JSON.stringify(value)) as unknown;
      expect(roundTrip(clean)).toEqual(clean);
    }),
    { seed: 3, numRuns: 200 },
  );
});
