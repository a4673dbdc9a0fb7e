import fc from "fast-check";
import { expect, test } from "vitest";
import { placesFor, printQuantity, roundSignificant, roundToPlaces } from "../../src/metrology/print.js";
import { Quantity } from "../../src/metrology/quantity.js";
import { normalSource } from "../../src/metrology/source.js";
import { evidenceStep } from "../../src/metrology/evidence.js";

const nowhere = evidenceStep("test", []);

function quantity(value: number, u: number, symbol = "cN", dof = Infinity): Quantity {
  return new Quantity(value, symbol, [{ source: normalSource("s", "s", u, symbol, dof), contribution: u }], nowhere);
}

test("a value is rounded to the place of its expanded uncertainty", () => {
  const printed = printQuantity(quantity(45.2349, 0.66));
  expect(printed.text).toBe("(45.2 ± 1.3)\u00a0cN");
  expect(printed.expanded.k).toBeCloseTo(1.959964, 6);
});

// JCGM 100:2008, 7.2.4 (values from memory): 100.021 47 g, u = 0.35 mg, nu = 9, k = 2.26, U = 0.79 mg.
test("the mass of JCGM 100 clause 7.2.4 prints as 100.021 47 with 0.000 79", () => {
  const printed = printQuantity(quantity(100.02147, 0.00035, "g", 9));
  expect(printed.expanded.k).toBeCloseTo(2.26, 2);
  expect(printed.text).toBe("(100.02147 ± 0.00079)\u00a0g");
});

// JCGM 100:2008, 7.2.6: 10.057 62 ohm with 27 mohm becomes 10.058 ohm; 28.05 kHz goes down to 28 kHz.
test("the rounding examples of JCGM 100 clause 7.2.6 hold", () => {
  expect(roundToPlaces(10.05762, 3)).toBe("10.058");
  expect(roundSignificant(28.05, 2)).toBe("28");
});

// ISO 80000-1:2009, Annex B, rule A (content from memory): ties go to the even multiple.
test("ties go to the even digit in decimal arithmetic", () => {
  expect(["12.223", "12.251", "12.25", "12.35"].map((x) => roundToPlaces(Number(x), 1))).toEqual([
    "12.2",
    "12.3",
    "12.2",
    "12.4",
  ]);
});

test("an uncertainty that rounds up to the next power of ten keeps two digits", () => {
  expect(printQuantity(quantity(7.12345, 0.9962 / 1.959963984540054)).text).toBe("(7.1 ± 1.0)\u00a0cN");
});

test("a large uncertainty rounds value and itself to tens", () => {
  expect(printQuantity(quantity(12345, 200)).text).toBe("(12340 ± 390)\u00a0cN");
});

test("a ratio prints without a unit and a quantity without components without an uncertainty", () => {
  expect(printQuantity(quantity(0.3, 0.01, "1")).text).toBe("0.300 ± 0.020");
  expect(printQuantity(new Quantity(2.5, "mm", [], nowhere)).text).toBe("2.5\u00a0mm");
});

test("without uncertainty a stated value prints as it stands, a computed one to four digits, a whole one whole", () => {
  const line = { kind: "rows", file: "unit.yaml", firstLine: 9, lastLine: 9, columns: ["limits.0.min"] } as const;
  const stated = (value: number): string => printQuantity(new Quantity(value, "1", [], line)).text;
  const computed = (value: number): string => printQuantity(new Quantity(value, "1", [], nowhere)).text;
  expect([44.1299, 0.098, 12345].map(stated)).toEqual(["44.1299", "0.098", "12345"]);
  expect([0.8437291, 12.34567, 1.5, 12345].map(computed)).toEqual(["0.8437", "12.35", "1.5", "12345"]);
});

test("a negative value that rounds to zero prints without a sign, another with a true minus", () => {
  expect(roundToPlaces(-0.004, 2)).toBe("0.00");
  expect(roundToPlaces(-0.27, 1)).toBe("\u22120.3");
});

test("the printed value differs from the full one by at most half of the last printed place", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: 1e-6, max: 1e5, noNaN: true }),
      (value, u) => {
        const printed = printQuantity(quantity(value, u));
        const half = 0.5 * 10 ** -placesFor(printed.expanded.U, 2);
        const shown = Number(printed.value.replace("\u2212", "-"));
        expect(Math.abs(shown - value)).toBeLessThanOrEqual(half * (1 + 1e-9) + 1e-9);
      },
    ),
    { seed: 1, numRuns: 300 },
  );
});
