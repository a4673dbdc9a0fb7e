import { expect, test } from "vitest";
import type { Evidence } from "../../src/metrology/evidence.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import { normalSource } from "../../src/metrology/source.js";
import { atLeast, atMost, result } from "../../src/templates/words/index.js";

const evidence: Evidence = { kind: "rows", file: "a.csv", firstLine: 2, lastLine: 2, columns: ["force_cN"] };
const span = normalSource("rig/span", "Span", 0.5, "cN");

const force = (value: number, u: number, id = `force/${value}`): Quantity<"cN"> =>
  new Quantity(value, "cN", [{ source: normalSource(id, "Noise", u, "cN"), contribution: u }], evidence);

test("counts are exact: equal to the bound is met by both", () => {
  expect(atLeast(new Count(8), 8).outcome).toBe("yes");
  expect(atMost(new Count(8), 8).outcome).toBe("yes");
  expect(atLeast(new Count(7), new Count(8)).outcome).toBe("no");
  expect(atMost(new Count(9), 8)).toMatchObject({
    kind: "verdict",
    family: "criterion",
    outcome: "no",
    statement: "9 against at most 8",
  });
  expect(atMost(new Count(2), 0, { of: "sessions outside" }).statement).toBe("2 against at most 0 sessions outside");
  expect(() => atMost(new Count(1), 0, { for: "sessions" } as never)).toThrow(/of/);
});

test("a quantity is decided with a guard band of its expanded uncertainty", () => {
  // U = 1.96 x 1 cN for a normal source of known u.
  expect(atLeast(force(52, 1), 50).outcome).toBe("yes");
  expect(atLeast(force(51.9, 1), 50).outcome).toBe("undecided");
  expect(atLeast(force(48.1, 1), 50).outcome).toBe("undecided");
  expect(atLeast(force(48, 1), 50).outcome).toBe("no");
  expect(atMost(force(48, 1), 50).outcome).toBe("yes");
  expect(atMost(force(52, 1), 50).outcome).toBe("no");
  expect(atLeast(force(50, 0), 50).outcome).toBe("yes");
});

test("a bound that shares a source with the value does not count it twice", () => {
  const shared = (value: number): Quantity<"cN"> => new Quantity(value, "cN", [{ source: span, contribution: 0.5 }], evidence);
  expect(atLeast(shared(50.1), shared(50)).outcome).toBe("yes");
  expect(atLeast(force(50.1, 0.5, "a"), force(50, 0.5, "b")).outcome).toBe("undecided");
});

test("a verdict cites what it rests on", () => {
  const value = force(52, 1);
  const bound = force(40, 1, "bound");
  expect(atLeast(value, bound).cites).toEqual([value, bound]);
  expect(atLeast(value, 40).cites).toEqual([value]);
});

test("an absent value or bound is undecided, with its reason", () => {
  const absent = new Absent("cN", "no contact was recorded");
  for (const verdict of [atLeast(absent, 3), atMost(force(3, 1), absent)]) {
    expect(verdict.outcome).toBe("undecided");
    expect(verdict.statement).toBe("no value to judge: no contact was recorded");
  }
});

test("what cannot be compared is refused", () => {
  const travel = new Quantity(2, "mm", [], evidence);
  expect(() => atLeast(force(3, 1), travel)).toThrow("cannot hold cN against mm: convert one of them first");
  expect(() => atLeast(force(3, 1), NaN)).toThrow("the bound is NaN");
  expect(() => atLeast(force(3, 1), new Count(3))).toThrow(RangeError);
  expect(() => atLeast(new Count(3), force(3, 1))).toThrow(RangeError);
});

test("a result carries its name, value and verdict", () => {
  const value = force(52, 1);
  expect(result("Force", value)).toEqual({ kind: "result", label: "Force", value });
  const verdict = atLeast(value, 3);
  expect(result("Force", value, verdict)).toEqual({ kind: "result", label: "Force", value, verdict });
  expect(() => result(" ", value)).toThrow("a result needs a label");
});
