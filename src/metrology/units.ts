import { Big } from "big.js";

/** What a unit of measure measures; only units of one dimension convert into each other. */
export type Dimension =
  "length" | "force" | "time" | "frequency" | "speed" | "stiffness" | "compliance" | "energy" | "temperature" | "share";

interface UnitOfMeasure {
  readonly dimension: Dimension;
  /** How it is written at the end of a column name or YAML key, after an underscore. */
  readonly suffix: string;
  /** The factor to the dimension's own unit (mm, cN, ms, Hz, mm/s, cN/mm, mm/cN, mJ, °C, 1), as an exact fraction. */
  readonly numerator: bigint;
  readonly denominator: bigint;
}

const unit = (dimension: Dimension, suffix: string, numerator = 1n, denominator = 1n): UnitOfMeasure => ({
  dimension,
  suffix,
  numerator,
  denominator,
});

/**
 * Units of measure by symbol. The factors are exact by definition: standard gravity 9.806 65 m/s² (3rd CGPM, 1901), the
 * inch of 25.4 mm and the pound of 0.453 592 37 kg (international yard and pound, 1959), the SI prefixes.
 */
const unitsOfMeasure: ReadonlyMap<string, UnitOfMeasure> = new Map([
  ["mm", unit("length", "mm")],
  ["µm", unit("length", "um", 1n, 1000n)],
  ["in", unit("length", "in", 127n, 5n)],
  ["cN", unit("force", "cN")],
  ["mN", unit("force", "mN", 1n, 10n)],
  ["N", unit("force", "N", 100n)],
  ["gf", unit("force", "gf", 196133n, 200000n)],
  ["kgf", unit("force", "kgf", 196133n, 200n)],
  ["ozf", unit("force", "ozf", 8896443230521n, 320000000000n)],
  ["lbf", unit("force", "lbf", 8896443230521n, 20000000000n)],
  ["ms", unit("time", "ms")],
  ["µs", unit("time", "us", 1n, 1000n)],
  ["s", unit("time", "s", 1000n)],
  ["min", unit("time", "min", 60000n)],
  ["Hz", unit("frequency", "Hz")],
  ["kHz", unit("frequency", "kHz", 1000n)],
  ["mm/s", unit("speed", "mm_per_s")],
  ["mm/min", unit("speed", "mm_per_min", 1n, 60n)],
  ["m/s", unit("speed", "m_per_s", 1000n)],
  ["cN/mm", unit("stiffness", "cN_per_mm")],
  ["N/mm", unit("stiffness", "N_per_mm", 100n)],
  ["gf/mm", unit("stiffness", "gf_per_mm", 196133n, 200000n)],
  ["mm/cN", unit("compliance", "mm_per_cN")],
  ["mm/N", unit("compliance", "mm_per_N", 1n, 100n)],
  ["µm/N", unit("compliance", "um_per_N", 1n, 100000n)],
  ["mJ", unit("energy", "mJ")],
  ["cN·mm", unit("energy", "cN_mm", 1n, 100n)],
  ["gf·mm", unit("energy", "gf_mm", 196133n, 20000000n)],
  ["°C", unit("temperature", "degC")],
  ["1", unit("share", "ratio")],
  ["%", unit("share", "percent", 1n, 100n)],
]);

/** Symbols of all units of measure that convert, in the table's order. */
export const unitSymbols: readonly string[] = [...unitsOfMeasure.keys()];

/** Suffix to symbol: `mm_per_s` to `mm/s`, `ratio` to `1`. */
export const symbolOfSuffix: ReadonlyMap<string, string> = new Map(
  [...unitsOfMeasure].map(([symbol, of]) => [of.suffix, symbol]),
);

/** Symbol to suffix: `µm` to `um`. */
export const suffixOfSymbol: ReadonlyMap<string, string> = new Map(
  [...unitsOfMeasure].map(([symbol, of]) => [symbol, of.suffix]),
);

function unitOfMeasure(symbol: string): UnitOfMeasure {
  const found = unitsOfMeasure.get(symbol);
  if (found === undefined) {
    throw new RangeError(`${JSON.stringify(symbol)} is no known unit of measure; known are ${unitSymbols.join(", ")}`);
  }
  return found;
}

/** What a unit of measure measures. Throws RangeError on an unknown symbol. */
export function dimensionOf(symbol: string): Dimension {
  return unitOfMeasure(symbol).dimension;
}

/** Whether both symbols are known and measure the same thing; never throws. */
export function isConvertible(from: string, to: string): boolean {
  const [a, b] = [unitsOfMeasure.get(from), unitsOfMeasure.get(to)];
  return a !== undefined && a.dimension === b?.dimension;
}

/** Suffixes of all units of measure that convert into `symbol`, its own first. Throws RangeError on an unknown one. */
export function suffixesFor(symbol: string): readonly string[] {
  const own = unitOfMeasure(symbol);
  const others = [...unitsOfMeasure.values()].filter((u) => u.dimension === own.dimension && u !== own);
  return [own.suffix, ...others.map((u) => u.suffix)];
}

/** The symbol meant by a text: a symbol, a suffix (`um`), or a symbol with the Greek letter mu for micro. */
export function parseSymbol(text: string): string | undefined {
  const symbol = text.replaceAll("\u03bc", "µ");
  return unitsOfMeasure.has(symbol) ? symbol : symbolOfSuffix.get(text);
}

/**
 * Converts a decimal text, such as a cell of a CSV file, from one unit of measure to another: exactly, then rounded once
 * to the nearest double, so that 0.57 N is 57 cN and not 56.99999999999999 cN.
 *
 * @param text a decimal number in plain or exponent form, without spaces
 * @throws RangeError on text that is no finite number, on unknown symbols and on different dimensions
 */
export function convertDecimal(text: string, from: string, to: string): number {
  return converter(from, to)(text);
}

/**
 * Converts a number between units of measure as `convertDecimal` does, taking the number as the shortest decimal that
 * names it. NaN and infinities throw RangeError.
 */
export function convert(value: number, from: string, to: string): number {
  return convertDecimal(String(value), from, to);
}

/** `convertDecimal` for one pair of symbols, for use on many texts; same errors. */
export function converter(from: string, to: string): (text: string) => number {
  const [a, b] = [unitOfMeasure(from), unitOfMeasure(to)];
  if (a.dimension !== b.dimension) {
    throw new RangeError(`${from} measures ${a.dimension} and ${to} measures ${b.dimension}: they do not convert`);
  }
  const [top, bottom] = [a.numerator * b.denominator, a.denominator * b.numerator];
  const common = greatestCommonDivisor(top, bottom);
  const [numerator, denominator] = [top / common, bottom / common];
  const [factor, divisor] = [Number(numerator), Number(denominator)];
  return (text) => {
    const match = plainDecimal.exec(text);
    if (match === null) return convertInDecimals(text, numerator, denominator);
    const fraction = match[3] ?? "";
    const product = Number(match[2] + fraction) * factor;
    const scale = powersOfTen[fraction.length];
    // With all three integers below 2^53 there is a single rounding, that of the division (IEEE 754-2019, 5.4.1).
    if (scale === undefined || !(product <= exactLimit && divisor * scale <= exactLimit)) {
      return convertInDecimals(text, numerator, denominator);
    }
    const converted = product / (divisor * scale);
    return match[1] === "-" ? -converted : converted;
  };
}

const plainDecimal = /^(-?)(\d{1,15})(?:\.(\d{1,12}))?$/;
const exactLimit = Number.MAX_SAFE_INTEGER;
const powersOfTen = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

/** The slow path: any decimal, with 40 decimals more than the quotient's leading digit. */
function convertInDecimals(text: string, numerator: bigint, denominator: bigint): number {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) {
    throw new RangeError(`${JSON.stringify(text)} is no decimal number`);
  }
  const nearest = Number(text);
  if (nearest === 0) return 0;
  if (!Number.isFinite(nearest)) throw new RangeError(`${text} is too large to convert`);
  const Decimal = Big();
  Decimal.DP = 40;
  const exact = new Decimal(text.replace(/^\+/, ""));
  const exponent = exact.e;
  exact.e = 0;
  const quotient = exact.times(numerator.toString()).div(denominator.toString());
  quotient.e += exponent;
  const converted = Number(quotient.toString());
  if (!Number.isFinite(converted)) throw new RangeError(`${text} is too large to convert`);
  return converted;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : greatestCommonDivisor(b, a % b);
}
