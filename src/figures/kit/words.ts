import { expand } from "../../metrology/expanded.js";
import { placesFor, printQuantity, roundSignificant, roundToPlaces } from "../../metrology/print.js";
import type { Quantity } from "../../metrology/quantity.js";

/** Value and unit of measure, the value rounded to its uncertainty: "61.2 cN". */
export function sayValue(quantity: Quantity): string {
  const printed = printQuantity(quantity);
  return withSymbol(printed.value, printed.symbol);
}

/**
 * A value where neither its uncertainty nor its unit of measure is printed beside it: rounded to one digit of U where U starts
 * with 355 to 949, else to two (the rule of the Particle Data Group, Review of Particle Physics, Introduction, 5.3).
 */
export function roughValue(quantity: Quantity): string {
  const { U } = expand(quantity);
  if (!(U > 0)) return printQuantity(quantity).value;
  const places = placesFor(U, 3);
  return roundToPlaces(quantity.value, Math.round(U * 10 ** places) < 355 ? places - 1 : places - 2);
}

/** Value, expanded uncertainty and unit of measure: "(61.2 ± 1.1) cN". */
export function sayQuantity(quantity: Quantity): string {
  return printQuantity(quantity).text;
}

/** Value and expanded uncertainty without the unit of measure, for a column or an axis that states it: "61.2 ± 1.1". */
export function sayPair(quantity: Quantity): string {
  const { value, uncertainty } = printQuantity(quantity);
  return uncertainty === "" ? value : `${value} ± ${uncertainty}`;
}

/** A number with its unit of measure, to the given decimal places. */
export function sayNumber(value: number, symbol: string, places: number): string {
  return withSymbol(roundToPlaces(value, places), symbol === "1" ? "" : symbol);
}

/** A stated number, such as a limit, as it stands: "35 cN". */
export function sayStated(value: number, symbol: string): string {
  return withSymbol(trimZeros(roundSignificant(value, 6)), symbol === "1" ? "" : symbol);
}

/** A share of a whole as a percentage without decimals; "under 1 %" where it would round to nothing. */
export function sayShare(share: number): string {
  if (share > 0 && share < 0.005) return "under 1\u00a0%";
  return `${roundToPlaces(share * 100, 0)}\u00a0%`;
}

/**
 * Decimal places to which numbers computed from these quantities are said: those of the coarsest printed uncertainty;
 * without any uncertainty, three significant digits of the largest value.
 */
export function commonPlaces(quantities: readonly Quantity[]): number {
  const uncertainties = quantities.map((q) => expand(q).U).filter((U) => U > 0);
  if (uncertainties.length > 0) return Math.min(...uncertainties.map((U) => placesFor(U, 2)));
  const largest = Math.max(0, ...quantities.map((q) => Math.abs(q.value)));
  return largest === 0 ? 0 : placesFor(largest, 3);
}

/** "a", "a and b", "a, b and c"; beyond `most` the rest is counted: "a, b and 5 more". */
export function joinWords(words: readonly string[], most = 4): string {
  const shown = words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  const last = shown.at(-1) ?? "";
  return shown.length < 2 ? last : `${shown.slice(0, -1).join(", ")} and ${last}`;
}

/** A count with its noun: "8 keys", "1 key", "no keys". */
export function counted(count: number, noun: string): string {
  return `${count === 0 ? "no" : count} ${count === 1 ? noun : pluralOf(noun)}`;
}

/** The regular English plural of a noun. */
export function pluralOf(noun: string): string {
  if (/[^aeiou]y$/.test(noun)) return `${noun.slice(0, -1)}ies`;
  return /(s|x|sh|ch)$/.test(noun) ? `${noun}es` : `${noun}s`;
}

/** Clauses joined to one sentence with its full stop; empty clauses are left out. */
export function sentence(...clauses: readonly string[]): string {
  return `${clauses.filter((clause) => clause !== "").join("; ")}.`;
}

function withSymbol(text: string, symbol: string): string {
  return symbol === "" ? text : `${text}\u00a0${symbol}`;
}

function trimZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** The text with its first letter in upper case. */
export function capitalise(text: string): string {
  const [first = "", ...rest] = text;
  return first.toUpperCase() + rest.join("");
}
