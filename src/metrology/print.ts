import Big from "big.js";
import type { Expanded } from "./expanded.js";
import { expand } from "./expanded.js";
import type { Quantity } from "./quantity.js";

/** A quantity ready to be set: value and U rounded to one another, the unit of measure apart. */
export interface Printed {
  /** "45.2", with a true minus sign. */
  readonly value: string;
  /** "1.3"; empty where the quantity has no uncertainty. */
  readonly uncertainty: string;
  /** "cN"; empty for a ratio ("1"). */
  readonly symbol: string;
  /** "45.2 cN ± 1.3 cN" set as "(45.2 ± 1.3) cN", or "45.2 cN" without uncertainty. */
  readonly text: string;
  /** The expanded uncertainty before rounding. */
  readonly expanded: Expanded;
}

export interface PrintOptions {
  /** Coverage probability of the printed interval, 0.95 unless given. */
  readonly level?: number;
}

/** Significant digits of a printed expanded uncertainty: at most two (JCGM 100:2008, 7.2.6). */
const uncertaintyDigits = 2;

/** Most significant digits of a stated value, read from a file as it stands, that states no uncertainty. */
const statedDigits = 6;

/** Most significant digits of a computed value without uncertainty, such as an end of an interval; a whole number stays whole. */
const computedDigits = 4;

/**
 * Prints a quantity by the rules of JCGM 100:2008, 7.2: U = k u at the stated level, rounded to two significant digits, and
 * the value rounded to the same decimal place; each rounded once from the full number, ties to the even digit
 * (ISO 80000-1:2009, B.3, rule A) in decimal arithmetic. Brackets enclose value and U, since the unit belongs to both.
 * Without uncertainty a value that a file states prints as it stands, to six digits; one that was computed, to four.
 */
export function printQuantity(quantity: Quantity, options: PrintOptions = {}): Printed {
  const expanded = expand(quantity, options.level ?? 0.95);
  const symbol = quantity.symbol === "1" ? "" : quantity.symbol;
  const unit = symbol === "" ? "" : `\u00a0${symbol}`;
  if (!(expanded.U > 0)) {
    const value = trimZeros(roundSignificant(quantity.value, bareDigits(quantity)));
    return { value, uncertainty: "", symbol, text: value + unit, expanded };
  }
  const places = placesFor(expanded.U, uncertaintyDigits);
  const value = roundToPlaces(quantity.value, places);
  const uncertainty = roundToPlaces(expanded.U, places);
  const pair = `${value} ± ${uncertainty}`;
  return { value, uncertainty, symbol, text: symbol === "" ? pair : `(${pair})${unit}`, expanded };
}

function bareDigits({ value, evidence }: Quantity): number {
  return evidence.kind === "rows" || Number.isInteger(value) ? statedDigits : computedDigits;
}

/** Decimal places at which a number shows `digits` significant digits; negative for tens, hundreds and so on. */
export function placesFor(value: number, digits: number): number {
  const rounded = new Big(Math.abs(value)).prec(digits, Big.roundHalfEven);
  return digits - 1 - rounded.e;
}

/** A number rounded to decimal places (negative: to tens and so on), half to even in decimal, with a true minus sign. */
export function roundToPlaces(value: number, places: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`cannot print ${value}`);
  const rounded = new Big(value).round(places, Big.roundHalfEven);
  const text = rounded.abs().toFixed(Math.max(0, places));
  return rounded.lt(0) ? `\u2212${text}` : text;
}

/** A number rounded to significant digits, half to even in decimal. */
export function roundSignificant(value: number, digits: number): string {
  return value === 0 ? "0" : roundToPlaces(value, placesFor(value, digits));
}

function trimZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}
