import fc from "fast-check";
import { expect, test } from "vitest";
import {
  convert,
  convertDecimal,
  converter,
  dimensionOf,
  isConvertible,
  parseSymbol,
  suffixOfSymbol,
  suffixesFor,
  symbolOfSuffix,
  unitSymbols,
} from "../../src/metrology/units.js";
import { expectPublished, publishedEntry } from "../reference/load.js";

/** The reference's names as conversions: text, from, to. Energies and areas are written as our symbols. */
const conversions: Readonly<Record<string, readonly [string, string, string]>> = {
  kgf_in_N: ["1", "kgf", "N"],
  gf_in_cN: ["1", "gf", "cN"],
  gf_in_mN: ["1", "gf", "mN"],
  lbf_in_N: ["1", "lbf", "N"],
  ozf_in_N: ["1", "ozf", "N"],
  ozf_in_gf: ["1", "ozf", "gf"],
  cN_in_gf: ["1", "cN", "gf"],
  N_in_gf: ["1", "N", "gf"],
  inch_in_mm: ["1", "in", "mm"],
  gf_mm_in_mJ: ["1", "gf·mm", "mJ"],
  cN_mm_in_mJ: ["1", "cN·mm", "mJ"],
  lbf_in_N_printed: ["1", "lbf", "N"],
  ozf_in_N_printed: ["1", "ozf", "N"],
  "60gf_cN": ["60", "gf", "cN"],
  "45cN_gf": ["45", "cN", "gf"],
  "2.5ozf_gf": ["2.5", "ozf", "gf"],
  "2.5ozf_cN": ["2.5", "ozf", "cN"],
};

// SI Brochure (9th edition, 2019); NIST SP 811, Appendix B.
for (const entry of ["units-force-length", "units-roundtrip"].map((id) =>
  publishedEntry("unit-conversions.json", id),
)) {
  for (const { name, value } of entry.expected) {
    test(`${name} is the published ${value}`, () => {
      const conversion = conversions[name];
      if (conversion === undefined) throw new Error(`no conversion is written for ${name}`);
      expectPublished(entry, name, convertDecimal(...conversion));
    });
  }
}

test("a conversion is exact before it is rounded once", () => {
  expect(convert(0.57, "N", "cN")).toBe(57);
  expect(convert(1, "gf", "cN")).toBe(0.980665);
  expect(convert(45.1, "gf", "cN")).toBe(44.2279915);
  expect(convert(0.1, "in", "mm")).toBe(2.54);
  expect(convert(-3, "mN", "cN")).toBe(-0.3);
  expect(convert(60, "mm/min", "mm/s")).toBe(1);
  expect(convert(12, "min", "s")).toBe(720);
  expect(convert(44, "%", "1")).toBe(0.44);
  expect(convert(0, "gf", "cN")).toBe(0);
  expect(convertDecimal("1e-99999", "gf", "cN")).toBe(0);
});

test("a number in its own unit of measure stays as it is", () => {
  fc.assert(
    fc.property(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.constantFrom(...unitSymbols),
      (value, symbol) => {
        expect(convert(value, symbol, symbol) + 0).toBe(value + 0);
      },
    ),
    { seed: 1 },
  );
});

/** Below 1e-290 a conversion leaves the range of doubles with full precision. */
const magnitudes = fc.double({ noNaN: true, min: -1e6, max: 1e6 }).filter((x) => x === 0 || Math.abs(x) > 1e-290);
const pairs = fc.constantFrom(
  ...unitSymbols.flatMap((a) => unitSymbols.filter((b) => isConvertible(a, b)).map((b) => [a, b] as const)),
);

test("there and back again gives the number within two roundings", () => {
  fc.assert(
    fc.property(magnitudes, pairs, (value, [from, to]) => {
      const back = convert(convert(value, from, to), to, from);
      expect(Math.abs(back - value)).toBeLessThanOrEqual(2 ** -51 * Math.abs(value));
    }),
    { seed: 2, numRuns: 500 },
  );
});

test("the path for plain decimals gives the same double as the path for all decimals", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -10_000_000, max: 10_000_000 }),
      fc.integer({ min: 0, max: 9 }),
      pairs,
      (mantissa, places, [from, to]) => {
        const plain = (mantissa / 10 ** places).toFixed(places);
        expect(convertDecimal(plain, from, to) + 0).toBe(convertDecimal(`${plain}e0`, from, to) + 0);
      },
    ),
    { seed: 3, numRuns: 1000 },
  );
});

test("every suffix names one symbol and every symbol one suffix", () => {
  expect(symbolOfSuffix.size).toBe(unitSymbols.length);
  for (const symbol of unitSymbols) expect(symbolOfSuffix.get(suffixOfSymbol.get(symbol)!)).toBe(symbol);
  expect(symbolOfSuffix.get("mm_per_s")).toBe("mm/s");
  expect(symbolOfSuffix.get("ratio")).toBe("1");
});

test("the suffixes for a symbol start with its own and hold only its dimension", () => {
  expect(suffixesFor("mm")).toEqual(["mm", "um", "in"]);
  expect(suffixesFor("cN").slice(0, 4)).toEqual(["cN", "mN", "N", "gf"]);
  expect(suffixesFor("mm").every((suffix) => dimensionOf(symbolOfSuffix.get(suffix)!) === "length")).toBe(true);
});

test("a symbol may be written with either micro sign, or as its suffix", () => {
  expect(["µm", "μm", "um", "degC", "1", "ratio"].map(parseSymbol)).toEqual(["µm", "µm", "µm", "°C", "1", "1"]);
  expect(["", "furlong", "MM", "__proto__"].map(parseSymbol)).toEqual([undefined, undefined, undefined, undefined]);
});

test("different dimensions, unknown symbols and numbers that are none are refused", () => {
  expect(() => convert(1, "mm", "cN")).toThrow(/mm measures length and cN measures force/);
  expect(() => convert(1, "furlong", "mm")).toThrow(/"furlong" is no known unit of measure/);
  expect(() => convert(NaN, "mm", "mm")).toThrow(/"NaN" is no decimal number/);
  expect(() => convert(Infinity, "mm", "µm")).toThrow(RangeError);
  expect(() => convertDecimal("0,5", "mm", "µm")).toThrow(/"0,5" is no decimal number/);
  expect(() => convertDecimal("1e308", "m/s", "mm/s")).toThrow(/too large/);
  expect(() => converter("N", "mm")).toThrow(RangeError);
  expect(isConvertible("mm", "cN")).toBe(false);
  expect(isConvertible("mm", "furlong")).toBe(false);
});
