import { expect, test } from "vitest";
import { dofText, numberText, plainNumberText, shareText, shortNumberText } from "../../src/dossier/render-number.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { coverageFactor } from "../../src/metrology/expanded.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import { observedSource } from "../../src/metrology/source.js";

const evidence = evidenceStep("stated", []);

/** A quantity whose expanded uncertainty is `U` with infinite degrees of freedom, or k u with those given. */
function stated(value: number, symbol: string, U: number, dof = Infinity): Quantity {
  const u = U / coverageFactor(dof);
  return new Quantity(value, symbol, [{ source: observedSource("x", "x", u, symbol, dof), contribution: u }], evidence);
}

const bare = (text: string): string => text.replaceAll("\u00a0", " ");

test("JCGM 100:2008, 7.2.4: 100.021 47 g with u = 0.35 mg and 9 degrees of freedom prints U = 0.79 mg", () => {
  const source = observedSource("m", "m", 0.00035, "g", 9);
  const mass = new Quantity(100.02147, "g", [{ source, contribution: 0.00035 }], evidence);
  expect(bare(numberText(mass))).toBe("(100.02147 ± 0.00079) g");
});

test("JCGM 100:2008, 7.2.6: 10.057 62 ohm with 27 milliohm becomes 10.058 ohm", () => {
  expect(bare(numberText(stated(10.05762, "Ω", 0.027)))).toBe("(10.058 ± 0.027) Ω");
});

test("JCGM 100:2008, 7.2.6: an uncertainty of 28.05 kHz goes down to 28 kHz, its value follows", () => {
  expect(bare(numberText(stated(4711.6, "kHz", 28.05)))).toBe("(4712 ± 28) kHz");
});

test("ISO 80000-1:2009, B.3, rule A: a tie goes to the even digit, in decimal arithmetic", () => {
  const value = (x: number): string => numberText(stated(x, "mm", 2), { show: "value", columnSymbol: "mm" });
  expect([12.223, 12.251, 12.25, 12.35].map(value)).toEqual(["12.2", "12.3", "12.2", "12.4"]);
});

test("JCGM 100:2008, table G.2: coverage factors for 95 %", () => {
  const factors = [1, 2, 5, 9, 10, 20, Infinity].map((dof) => coverageFactor(dof).toFixed(2));
  expect(factors).toEqual(["12.71", "4.30", "2.57", "2.26", "2.23", "2.09", "1.96"]);
});

test("a number below a column's unit of measure prints without it, one in another unit with its own", () => {
  expect(bare(numberText(stated(45.21, "cN", 1.3), { columnSymbol: "cN" }))).toBe("45.2 ± 1.3");
  expect(bare(numberText(stated(45.21, "cN", 1.3), { columnSymbol: "mm" }))).toBe("(45.2 ± 1.3) cN");
});

test("value and uncertainty can stand in columns of their own", () => {
  const force = stated(-45.21, "cN", 1.3);
  expect(bare(numberText(force, { show: "value" }))).toBe("−45.2 cN");
  expect(bare(numberText(force, { show: "uncertainty" }))).toBe("1.3 cN");
});

test("a ratio prints without a unit of measure, a count as it stands, an absence in words", () => {
  expect(bare(numberText(stated(0.301, "1", 0.02)))).toBe("0.301 ± 0.020");
  expect(numberText(new Count(26))).toBe("26");
  expect(numberText(new Absent("cN", "no peak"))).toBe("not available");
});

test("degrees of freedom are truncated, shares rounded, budgets have two digits", () => {
  expect([4.99, 16.2, 1234, Infinity].map(dofText)).toEqual(["4", "16", ">\u00a0999", "∞"]);
  expect([0.614, 0.004, 0].map(shareText).map(bare)).toEqual(["61 %", "< 0.5 %", "0 %"]);
  expect([0.09932, 0, 12.5].map(shortNumberText)).toEqual(["0.099", "0", "12"]);
  expect([1e-7 / 3, 0.1 + 0.2, -4, 1234567.8].map(plainNumberText)).toEqual([
    "0.0000000333333",
    "0.3",
    "−4",
    "1234570",
  ]);
});
