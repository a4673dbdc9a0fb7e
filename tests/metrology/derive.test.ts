import fc from "fast-check";
import { expect, test } from "vitest";
import {
  Absent,
  Quantity,
  budgetOf,
  derive,
  difference,
  evidenceLeaves,
  isQuantity,
  normalSource,
  sum,
} from "../../src/metrology/index.js";
import type { Evidence } from "../../src/metrology/index.js";

const rows = (n: number): Evidence => ({ kind: "rows", file: "f.csv", firstLine: n, lastLine: n, columns: ["x"] });
const q = <S extends string>(value: number, symbol: S, id: string, u: number): Quantity<S> =>
  new Quantity(
    value,
    symbol,
    [{ source: normalSource(id, `label of ${id}`, u, symbol), contribution: u }],
    rows(value),
  );

test("a product carries both inputs in quadrature and both rows in its evidence", () => {
  const area = derive([q(3, "mm", "a", 0.1), q(4, "mm", "b", 0.2)], ([x, y]) => x * y, "mm2");
  if (!isQuantity(area)) throw new Error(area.reason);
  expect(area.value).toBe(12);
  expect(area.u).toBeCloseTo(Math.hypot(0.4, 0.6), 9);
  expect(evidenceLeaves(area.evidence).map((leaf) => leaf.firstLine)).toEqual([3, 4]);
});

test("one absent input makes the result absent with that reason", () => {
  const ratio = derive([q(3, "mm", "a", 0.1), new Absent("mm", "the stroke ends early")], ([x, y]) => x / y, "1");
  expect(ratio.absent && ratio.reason).toBe("the stroke ends early");
});

test("a sum and a difference carry an absence with its reason, and refuse another unit of measure all the same", () => {
  const here = q(3, "mm", "a", 0.1);
  const gone = new Absent("mm", "the stroke ends early");
  const [added, taken] = [sum(here, gone), difference(gone, here)];
  expect(added.absent && added.reason).toBe("the stroke ends early");
  expect(taken.absent && taken.reason).toBe("the stroke ends early");
  expect(taken.symbol).toBe("mm");
  expect(evidenceLeaves(added.evidence).map((leaf) => leaf.firstLine)).toEqual([3]);
  expect(() => sum(here, new Absent("cN", "none") as unknown as Quantity<"mm">)).toThrow(/cannot add mm and cN/);
  expect(sum(here, here).value).toBe(6);
});

test("a formula without a finite result is refused", () => {
  expect(() => derive([q(0, "mm", "a", 0)], ([x]) => 1 / x, "1/mm")).toThrow(/gives Infinity for \(0\)/);
});

test("adding millimetres and centinewtons is an error of the compiler and at run time", () => {
  const length: Quantity<string> = q(1, "mm", "a", 0.1);
  const force: Quantity<string> = q(1, "cN", "b", 0.1);
  expect(() => sum(length, force)).toThrow(/cannot add mm and cN/);
  // @ts-expect-error the two units of measure differ
  expect(() => sum(q(1, "mm", "a", 0.1), q(1, "cN", "b", 0.1))).toThrow(/cannot add/);
});

test("a quantity refuses to be a bare number or text", () => {
  const force = q(1, "cN", "b", 0.1);
  expect(() => `${force as unknown as string}`).toThrow(/derive\(\[a, b\]/);
  expect(() => (force as unknown as number) * 2).toThrow(/cannot be used as a bare number/);
});

test("two inputs of one id but different uncertainty are refused", () => {
  expect(() => sum(q(1, "mm", "a", 0.1), q(1, "mm", "a", 0.2))).toThrow(/source a has two standard uncertainties/);
});

test("a budget gathers components of one label, largest first, and its shares add up to one", () => {
  const keys = [1, 2, 3].map(
    (i) =>
      new Quantity(
        i,
        "cN",
        [{ source: normalSource(`k${i}`, "Scatter of a key", 0.3, "cN", 4), contribution: 0.3 }],
        rows(i),
      ),
  );
  const total = sum(sum(sum(keys[0]!, keys[1]!), keys[2]!), q(0, "cN", "span", 0.9));
  const budget = budgetOf(total);
  expect(budget.lines.map((line) => [line.label, line.sources])).toEqual([
    ["label of span", 1],
    ["Scatter of a key", 3],
  ]);
  expect(budget.lines.reduce((s, line) => s + line.share, 0)).toBeCloseTo(1, 12);
});

test("linear results agree with derive, and a difference with itself has no uncertainty", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: 0.001, max: 5, noNaN: true }),
      (v, u) => {
        const a = q(v, "mm", "a", u);
        const b = q(v / 2 + 1, "mm", "b", u / 3);
        const viaDerive = derive([a, b], ([x, y]) => x - y, "mm");
        if (!isQuantity(viaDerive)) throw new Error("absent");
        expect(viaDerive.u).toBeCloseTo(difference(a, b).u, 8);
        expect(difference(a, a).u).toBe(0);
      },
    ),
    { seed: 4, numRuns: 200 },
  );
});
